"""Contrast of two colours, by W3C WCAG 2.2: definitions of relative luminance, contrast ratio."""

from __future__ import annotations

TEXT = 4.5
"""W3C WCAG 2.2, Success Criterion 1.4.3 Contrast (Minimum): of text on its ground, at least."""
FIGURES = 7.0
"""W3C WCAG 2.2, Success Criterion 1.4.6 Contrast (Enhanced): asked here of figures and warnings."""
SHAPES = 3.0
"""W3C WCAG 2.2, Success Criterion 1.4.11 Non-text Contrast: of shapes that tell something."""

Rgb = tuple[float, float, float]


def rgb(colour: str) -> Rgb:
    """A colour written as `#rgb` or `#rrggbb`, 0 to 255 each."""
    digits = colour.removeprefix("#")
    if len(digits) == 3:
        digits = "".join(digit * 2 for digit in digits)
    red, green, blue = (int(digits[at : at + 2], 16) for at in (0, 2, 4))
    return red, green, blue


def over(colour: Rgb, share: float, ground: Rgb) -> Rgb:
    """What is seen of a colour that covers its ground by a share only."""
    red, green, blue = (
        share * mine + (1 - share) * behind for mine, behind in zip(colour, ground, strict=True)
    )
    return red, green, blue


def contrast(one: str | Rgb, other: str | Rgb) -> float:
    """The contrast ratio, 1 to 21."""
    dark, light = sorted(_luminance(rgb(c) if isinstance(c, str) else c) for c in (one, other))
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: Rgb) -> float:
    red, green, blue = (_linear(part / 255) for part in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
