"""Bars as SVG: each with its name, its figure in words and what is said of it."""

from __future__ import annotations

from html import escape

from core.papers.blocks import Bar, Bars

ROW = 20
TEXT = 13
NAME, FIGURE, GAP = 125, 70, 8
"""Widths: the name, the figure in words, and what stands between two parts."""
WIDE, NARROW = 700, 400
NOTE = 205
CHARACTER = 7.2
"""Width of a character, about; a longer text is cut, and whole in the description."""


def bars_svg(bars: Bars) -> str:
    """The bars; `bars.rows` is not empty. The same bars make the same text."""
    noted = any(bar.note for bar in bars.rows)
    width = NARROW if bars.narrow else WIDE
    left = NAME + FIGURE + GAP
    room = width - left - (NOTE + GAP if noted else 0)
    low = min(0.0, bars.low, *(bar.value for bar in bars.rows))
    high = max(0.0, bars.high, *(bar.value for bar in bars.rows))
    scale = room / (high - low) if high > low else 0.0
    zero = left - low * scale
    height = ROW * len(bars.rows)
    rows = [
        part for y, bar in enumerate(bars.rows) for part in _row(bar, y * ROW, zero, scale, width)
    ]
    font = f'font-family="sans-serif" font-size="{TEXT}"'
    size = f'viewBox="0 0 {width} {height}" width="{width}" height="{height}"'
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" {font}>',
            f"<title>{escape(bars.title)}</title>",
            f"<desc>{escape('; '.join(map(_says, bars.rows)))}</desc>",
            *rows,
            f'<line x1="{zero:.1f}" y1="0" x2="{zero:.1f}" y2="{height}" stroke="#000"/>',
            "</svg>",
        ]
    )


def _says(bar: Bar) -> str:
    return f"{bar.name} {bar.text}" + (f", {bar.note}" if bar.note else "")


def _row(bar: Bar, top: float, zero: float, scale: float, width: int) -> list[str]:
    base = top + 15
    length = abs(bar.value) * scale
    start = zero if bar.value >= 0 else zero - length
    # What falls short is hollow: a shape says it, not a colour.
    look = 'fill="#000"' if bar.value >= 0 else 'fill="#fff" stroke="#000"'
    parts = [
        _text(0, base, _cut(bar.name, NAME), "start"),
        _text(NAME + FIGURE, base, bar.text, "end"),
    ]
    if bar.value:
        place = f'x="{start:.1f}" y="{top + 4}" width="{max(length, 0.7):.1f}"'
        parts.append(f'<rect {place} height="12" {look}/>')
    if bar.note:
        parts.append(_text(width - NOTE, base, _cut(bar.note, NOTE), "start"))
    return parts


def _cut(text: str, room: float) -> str:
    most = int(room / CHARACTER)
    return text if len(text) <= most else f"{text[: most - 1]}…"


def _text(x: float, y: float, text: str, anchor: str) -> str:
    return f'<text x="{x}" y="{y}" text-anchor="{anchor}">{escape(text)}</text>'
