"""The line sheet in columns: a row a vitola, and below it as it would be with what is tried."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from core.desk.figures import fixed
from core.line.sheet import LineRow, LineSheet
from core.line.whatif import WhatIf
from floor.looks.spans import Ink, Line, Span, figure, fit, inked, packed
from floor.looks.words import Words

NAME_CELLS, MOST_NAME = 9, 16


class Column(NamedTuple):
    """A column's key, its cells with the space before it, and whether it is of words."""

    key: str
    cells: int
    of_words: bool = False


COLUMNS = (
    *(Column("ring", 5), Column("mm", 6), Column("filler", 9), Column("band", 11)),
    *(Column("gap", 7), Column("holds", 9, True), Column("laid", 5), Column("air", 5)),
    *(Column("from", 10, True), Column("lb", 8), Column("wrapper", 9), Column("covers", 9)),
    *(Column("cost", 7), Column("margin", 7)),
)
LEAST_NEEDED = (
    *("covers", "wrapper", "lb", "band", "mm", "air", "margin", "laid", "cost", "from"),
)
"""What is left out first where there is no room for all."""
MONEY_CELLS = 6
GONE = "-"
"""Where a figure there is today would be none."""


def table_lines(
    sheet: LineSheet, tried: WhatIf | None, places: int, width: int, words: Words
) -> list[Line]:
    """The sheet as columns, at most `width` cells across."""
    columns = _in_room(width)
    name = min(
        max([NAME_CELLS, *(len(row.vitola) for row in sheet.vitolas)]),
        MOST_NAME,
        width - 1 - sum(column.cells for column in columns),
    )
    titles = {key: words.line_columns[key] for key in words.line_columns}
    head = "".join(_cell(titles[column.key], column) for column in columns)
    lines: list[Line] = [(Span(f" {fit(words.vitola, name)}{head}", "faint"),)]
    changed = {} if tried is None else {row.vitola: row for row in tried.changed.vitolas}
    money = _money_places(sheet if tried is None else tried.changed, sheet)
    for row in sheet.vitolas:
        cells = _cells(sheet, row, (places, money), words)
        lines.append(_row(row.vitola, cells, columns, name))
        if tried is not None and (other := changed.get(row.vitola)) is not None:
            would = _cells(tried.changed, other, (places, money), words)
            lines += _would(cells, would, columns, name)
    return lines


def key_lines(reference: str, width: int, words: Words) -> list[Line]:
    """What the columns mean that are shown."""
    shown = {column.key for column in _in_room(width)}
    shown -= {"cost"} if "margin" in shown else set()
    key = words.line_key
    told = [key[of].format(reference=reference) for of in key if of in shown]
    texts = packed(told, width - 2, "; ")
    rows = (row for text in texts for row in inked(text, width - 2, "faint"))
    return [(Span(" "), *row) for row in rows]


def _in_room(width: int) -> list[Column]:
    columns = list(COLUMNS)
    for key in LEAST_NEEDED:
        if 1 + NAME_CELLS + sum(column.cells for column in columns) > width:
            columns = [column for column in columns if column.key != key]
    return columns


def _money_places(*sheets: LineSheet) -> int:
    """Two decimals where every sum has room for them, else none."""
    sums = [sum_ for each in sheets for row in each.vitolas for sum_ in _sums(row)]
    return 2 if all(len(fixed(sum_, 2)) <= MONEY_CELLS for sum_ in sums) else 0


def _sums(row: LineRow) -> Iterable[float]:
    return (sum_ for sum_ in (row.cost.total, row.cost.margin) if sum_ is not None)


def _cells(sheet: LineSheet, row: LineRow, places: tuple[int, int], words: Words) -> dict[str, str]:
    weight, money = places
    found = sheet.smallest[row.vitola]
    ring = words.line_none if found.ring is None else str(found.ring)
    band = ""
    if row.low_g is not None and row.high_g is not None:
        band = f"{fixed(row.low_g, weight)}-{fixed(row.high_g, weight)}"
    return {
        "ring": f"{row.ring:g}",
        "mm": fixed(row.length_mm, 1),
        "filler": fixed(row.filler_standard_g, weight + 1),
        "band": band,
        "gap": _gap(row, words),
        "holds": words.line_yes if row.holds else words.line_no.format(leaf=row.worst),
        "laid": "" if row.strength_laid is None else fixed(row.strength_laid, 2),
        "air": fixed(row.air_speed, 2),
        "from": ring if found.bound is None or found.ring is None else f"{ring} {found.bound.leaf}",
        "lb": fixed(row.filler_lb_per_1000, 1),
        "wrapper": f"{fixed(100 * row.wrapper_share, 1)} %",
        "covers": f"{fixed(100 * row.cover_share, 1)} %",
        "cost": "" if row.cost.total is None else fixed(row.cost.total, money),
        "margin": "" if row.cost.margin is None else fixed(row.cost.margin, money),
    }


def _gap(row: LineRow, words: Words) -> str:
    """How far approved bunches are off the law; a size past those approved says so."""
    if row.gap is not None:
        off = fixed(100 * row.gap, 1)
        return off if off.startswith("-") or float(off) == 0 else f"+{off}"
    return words.line_beyond if row.beyond else ""


def _cell(text: str, column: Column) -> str:
    if column.of_words:
        return "  " + fit(text, column.cells - 2)
    return figure(text, column.cells)


def _row(name: str, cells: dict[str, str], columns: list[Column], room: int) -> Line:
    return (Span(f" {fit(name, room)}", "strong"), *(Span(_cell(cells[c.key], c)) for c in columns))


def _would(
    cells: dict[str, str], would: dict[str, str], columns: list[Column], room: int
) -> list[Line]:
    """What would be otherwise, under what it is; nothing where all stays."""
    inks: tuple[Ink, Ink] = ("plain", "strong")
    differs = ["" if would[c.key] == cells[c.key] else would[c.key] or GONE for c in columns]
    if not any(differs):
        return []
    told = (
        Span(_cell(text, column), inks[bool(text)])
        for text, column in zip(differs, columns, strict=True)
    )
    return [(Span(f" {fit(' ▸', room)}", "strong"), *told)]
