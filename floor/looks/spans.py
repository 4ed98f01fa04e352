"""Lines of text with the ink of each stretch, and fitting text to a width in cells."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal, NamedTuple

from rich.cells import cell_len, set_cell_size

Ink = Literal[
    "plain",
    "faint",
    "strong",
    "title",
    "light",
    "within",
    "heavy",
    "mixed",
    "wrong",
    "big",
    "struck",
    "cursor",
]
Align = Literal["left", "right"]

ELLIPSIS = "…"

NUMBER = re.compile(r"[(\[\"“«]?[-+−±~<>≤≥=]*\d[\d.,]*")
UNIT = re.compile(r"(?:[^\W\d_]{1,2}|%|min|[a-z]{1,2}[/²³]\S*)[)\].,;:!?”»\"]*")
"""What stands behind a number and tells nothing alone."""
GROUPS = re.compile(r"[(\[]?[-+−±]?\d{1,3}"), re.compile(r"\d{3}(?:[.,]\d+)?[)\].,;:]*")
"""A number grouped by blanks, and its next three digits."""
EXAMPLE = re.compile(r"(?:as|como) \d+")
"""A line to type begins so where a sentence gives it: a bench, and its reading behind it."""
NAMES_OF_FIGURES = ("as", "como", "Cp", "Cpk", "(Cp", "(Cpk", "p", "W")


class Span(NamedTuple):
    """A stretch of a line in one ink."""

    text: str
    ink: Ink = "plain"


Line = tuple[Span, ...]

Cell = tuple[str, Ink]
"""One sign of a picture drawn in cells."""

BLANK: Line = ()


def line(*parts: str | Span | tuple[str, Ink]) -> Line:
    """A line from its stretches; bare text is plain."""
    return tuple(Span(part) if isinstance(part, str) else Span(*part) for part in parts)


def of_cells(cells: Sequence[Cell]) -> list[Span]:
    """A row drawn cell by cell, cells of one ink together."""
    spans: list[Span] = []
    for sign, ink in cells:
        if spans and spans[-1].ink == ink:
            spans[-1] = Span(spans[-1].text + sign, ink)
        else:
            spans.append(Span(sign, ink))
    return spans


def width_of(text: Line) -> int:
    """Cells the line takes."""
    return sum(cell_len(span.text) for span in text)


def text_of(text: Line) -> str:
    """The line without its inks."""
    return "".join(span.text for span in text)


def shorten(text: str, width: int) -> str:
    """The text in at most `width` cells; a longer one loses its middle, never its ends."""
    if cell_len(text) <= width:
        return text
    if width <= 1:
        return ELLIPSIS[:width]
    tail = (width - 1) // 2
    head = width - 1 - tail
    return set_cell_size(text, head).rstrip() + ELLIPSIS + (text[-tail:] if tail else "")


def whole_words(words: Sequence[str], width: int, rows: int) -> list[str]:
    """As many of the words as there is room for on so many rows, two blanks between."""
    shown: list[str] = []
    for i, word in enumerate(words):
        last = len(shown) >= rows and i < len(words) - 1
        room = width - (len(ELLIPSIS) + 2 if last else 0)
        if shown and cell_len(f"{shown[-1]}  {word}") <= room:
            shown[-1] += f"  {word}"
        elif len(shown) < rows:
            shown.append(word)
        else:
            shown[-1:] = [f"{row}  {ELLIPSIS}" for row in shown[-1:]]
            break
    return [shorten(row, width) for row in shown]


def fit(text: str, width: int, align: Align = "left") -> str:
    """The text in exactly `width` cells, shortened in the middle where it is longer."""
    text = shorten(text, width)
    room = " " * (width - cell_len(text))
    return room + text if align == "right" else text + room


def sizes_of(rows: Sequence[Sequence[str]]) -> list[int]:
    """Cells of each column of a table: its longest text."""
    return [max(map(cell_len, column)) for column in zip(*rows, strict=True)]


def figures(texts: Sequence[str], sizes: Sequence[int], gap: int = 2) -> str:
    """Numbers, each to the right of its column; thousands are apart by a blank, columns by two."""
    cells = zip(texts, sizes, strict=True)
    return "".join(" " * gap + figure(text, size) for text, size in cells)


def figure(text: str, width: int) -> str:
    """A number to the right of its column; too long a one overruns it rather than be cut."""
    return " " * (width - cell_len(text)) + text


def spread(left: Line, right: Line, width: int) -> Line:
    """One line with a part at each end, the right one dropped where both do not fit."""
    gap = width - width_of(left) - width_of(right)
    return (*left, Span(" " * gap), *right) if gap >= 1 else left


def joined(parts: Sequence[str], width: int, between: str = " · ") -> str:
    """The phrases with points between, as many of the first ones as there is room for.

    Figures want blanks between: where there is ASCII alone a point is a dash, and so a minus.
    """
    text = ""
    for part in parts:
        longer = f"{text}{between}{part}" if text else part
        if cell_len(longer) > width:
            break
        text = longer
    return text


def packed(parts: Sequence[str], width: int, between: str = " · ") -> list[str]:
    """The phrases with points between on as many lines as they need, none of them broken."""
    rows: list[str] = []
    for part in parts:
        if rows and cell_len(f"{rows[-1]}{between}{part}") <= width:
            rows[-1] += f"{between}{part}"
        else:
            rows.append(part)
    return rows


def wrap(text: str, width: int) -> list[str]:
    """The text on as many lines as it needs, broken at blanks, long words cut.

    A number stays with its unit, and with the name before it.
    """
    lines: list[str] = []
    current = ""
    for word in _unbroken(text, width):
        rest = word
        if current and cell_len(current) + 1 + cell_len(rest) <= width:
            current += " " + rest
            continue
        if current:
            lines.append(current)
        while cell_len(rest) > width:
            head = _beginning(rest, width)
            lines.append(head)
            rest = rest[len(head) :]
            if not rest:
                break
        current = rest
    return [*lines, current] if current or not lines else lines


def _unbroken(text: str, width: int) -> list[str]:
    """The words, those that belong together as one where the width holds them."""
    units: list[str] = []
    before = ""
    for word in text.split(" "):
        belongs = _belongs(before, word) or (
            units and EXAMPLE.fullmatch(units[-1]) and NUMBER.match(word)
        )
        if belongs and cell_len(f"{units[-1]} {word}") <= width:
            units[-1] += f" {word}"
        else:
            units.append(word)
        before = word
    return units


def _belongs(before: str, word: str) -> bool:
    """Whether the word is the unit of the number before it, the rest of it, or what it names."""
    if not before or not word:
        return False
    if before in NAMES_OF_FIGURES:
        return bool(NUMBER.match(word))
    if not NUMBER.fullmatch(before):
        return False
    first, next_three = GROUPS
    grouped = first.fullmatch(before) and next_three.fullmatch(word)
    return bool(grouped or UNIT.fullmatch(word))


def _beginning(word: str, width: int) -> str:
    """As much of the word as the width holds; one sign even where it holds none."""
    end = 1
    while end < len(word) and cell_len(word[: end + 1]) <= width:
        end += 1
    return word[:end]


def inked(text: str, width: int, ink: Ink = "plain") -> list[Line]:
    """The text wrapped, every line in one ink."""
    return [line((part, ink)) for part in wrap(text, width)]


def beside(columns: Sequence[Sequence[Line]], widths: Sequence[int], gap: int) -> list[Line]:
    """Blocks of lines set side by side, each padded to its width."""
    height = max((len(block) for block in columns), default=0)
    rows: list[Line] = []
    for y in range(height):
        parts: list[Span] = []
        for block, width in zip(columns, widths, strict=True):
            row = block[y] if y < len(block) else BLANK
            parts += [*row, Span(" " * (width - width_of(row) + gap))]
        rows.append(tuple(parts))
    return rows
