"""The Card as lines: big figures above, weights and covers below left, checks below right."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from rich.cells import cell_len

from core.desk.faces import BenchLine, OpenCheck, SeenCheck
from core.desk.figures import fixed, percent
from core.desk.stock import CardLot
from core.recipe.card import Card
from core.recipe.cover import Laid
from core.recipe.portions import ClassRow
from floor.looks.figures import CUTS, ROWS, RULED
from floor.looks.spans import (
    BLANK,
    Ink,
    Line,
    Span,
    beside,
    fit,
    inked,
    packed,
    sizes_of,
    spread,
    width_of,
    wrap,
)
from floor.looks.words import Words
from floor.screens.card_band import Column, band, widest_band
from floor.screens.check_view import chart_block, checks_block

TWO_COLUMNS = 76
WINDOW_BAND = ROWS + 3
LOWER = 8
"""Rows of the covers, or of a check and its chart, below the figures."""
ROOMY = 19
"""Rows the card needs with every class fact, covers and a chart."""


class Moist(NamedTuple):
    """A leaf's moisture, and when it was measured (None: as the house book has it)."""

    moisture: float
    at: dt.datetime | None


class CardView(NamedTuple):
    """Everything the Card shows."""

    card: Card
    bench: BenchLine
    moist: Mapping[str, Moist]
    open: OpenCheck | None
    recent: Sequence[SeenCheck]
    now: dt.datetime
    places: int
    division_g: float
    words: Words
    lots: Sequence[CardLot] = ()


def card_lines(view: CardView, width: int, height: int, steady: int) -> list[Line]:
    """The card, filling `height` rows where it can and running over where it must.

    What is below the figures gives way to the last check, which is in sight in `steady` rows:
    as many as there are whatever the entry line says, as a rule.
    """
    if width < TWO_COLUMNS:
        return _one_column(view, width, height, steady)
    classes = next(_classes(view, width, tall=height >= ROOMY))
    lines = _upper(view, classes, width)
    facts = [*_facts(view), *_moistures(view, classes, width)]
    left = max(map(width_of, facts))
    right = width - left - 3  # two blanks between, a blank at the edge
    beside_them = [
        *checks_block(view.open, view.recent, view.division_g, right, view.words),
        *_notes(view.card, right, view.words),
    ]
    lower = max(LOWER, len(facts), len(beside_them))
    lines += _air(view, width, height - len(lines), lower)
    room = height - len(lines) - len(beside_them)
    beside_them += chart_block(view.recent, view.division_g, right, room, view.words)
    return [*lines, *beside([facts, beside_them], [left, right], 2)]


def _one_column(view: CardView, width: int, height: int, steady: int) -> list[Line]:
    """The bunch and its check below the figures, the other facts below these."""
    checks = checks_block(view.open, view.recent, view.division_g, width - 1, view.words)
    pressing = [_facts(view)[0], *((Span(" "), *row) for row in checks)]
    told = list(_classes(view, width, tall=height >= ROOMY))
    heads = len(_upper(view, told[0], width)) - len(told[0].lines)
    room = steady - heads - len(pressing)
    classes = next((each for each in told if len(each.lines) <= room), told[0])
    lines = _upper(view, classes, width)
    lower = [*pressing, *((Span(" "), *row) for row in _notes(view.card, width - 1, view.words))]
    lower += [*_facts(view)[1:], *_moistures(view, classes, width)]
    return [*lines, *_air(view, width, height - len(lines), len(lower)), *lower]


def _upper(view: CardView, classes: Classes, width: int) -> list[Line]:
    """What the bench is to make, the classes, and what is to be known of them."""
    lots = _changed_lots(view, width)
    return [*_head(view, width), *classes.lines, *batch_lines(view, width), *lots]


def _air(view: CardView, width: int, room: int, lower: int) -> list[Line]:
    """The bunch's window in big figures and a blank row, where all below keeps its room."""
    large = _window_band(view, width) if room >= WINDOW_BAND + lower else []
    return [*large, *([BLANK] if room - len(large) > lower else [])]


def _head(view: CardView, width: int) -> list[Line]:
    """Vitola, blend and pair, on as many rows as their codes need."""
    card, words = view.card, view.words
    size = f"{words.ring.format(ring=f'{card.ring:g}')} × {card.length_mm:.0f} mm"
    pair = " ".join(p for p in (view.bench.buncher, view.bench.roller) if p)
    facts = (f"{card.vitola} {size}", words.blend.format(blend=card.blend), pair)
    first, *more = packed([fact for fact in facts if fact], width - 2)
    name = len(card.vitola)
    rows: list[Line] = [(Span(f" {first[:name]}", "title"), Span(first[name:]))]
    rows += [(Span(f" {row}"),) for row in more]
    rows[-1] = spread(rows[-1], (Span(words.laying_order + " ", "faint"),), width)
    return rows


# -- the classes ------------------------------------------------------------------------------


class Classes(NamedTuple):
    """The classes' grams as lines, and whether they tell the moistures too."""

    lines: list[Line]
    moist: bool


def _classes(view: CardView, width: int, tall: bool) -> Iterator[Classes]:
    """Each class's grams, big, with the whole filler at the end where there is room for it; the
    ways that fit the width, those that tell most first.
    """
    words = view.words
    told = list(_told(view, width, tall))
    drawn = False
    for legends, columns in told:
        moist = len(legends) > 1
        whole = Column(fixed(view.card.filler_g, view.places), (words.filler, ""), legends)
        lines = widest_band([*columns, whole], width)
        if lines:
            drawn = True
            yield Classes(lines, moist)
            continue
        legend = words.under_each.format(what=", ".join(legends))
        ruled = (RULED,) if legends in (each for each, _ in told[-2:]) else ()
        bands = (band(columns, cut, width) for cut in (*CUTS, *ruled))
        lines = next(filter(None, bands), [])
        if lines:
            drawn = True
            yield Classes([*lines, *_filler_lines(view, legend, width)], moist)
    if not drawn:
        table, moist = _class_table(view, width)
        yield Classes([*table, *_filler_lines(view, "", width)], moist)


def _told(view: CardView, width: int, tall: bool) -> Iterator[tuple[tuple[str, ...], list[Column]]]:
    """What stands below each figure and the columns with it: the age too where it fits; the
    half-leaves alone where it must.
    """
    words, rows = view.words, view.card.classes
    aged = f"{words.moisture}, {words.age}"
    if width >= TWO_COLUMNS:
        yield (words.half_leaves, aged), [_column(view, row, "beside") for row in rows]
    elif tall:
        legends = (words.half_leaves, words.moisture, words.age)
        yield legends, [_column(view, row, "below") for row in rows]
    plain = [_column(view, row, "") for row in rows]
    yield (words.half_leaves, words.moisture), plain
    yield (words.half_leaves,), [column._replace(below=column.below[:1]) for column in plain]


def _moistures(view: CardView, classes: Classes, width: int) -> list[Line]:
    """The filler's moistures below those of the covers, where the figures have no room for them."""
    if classes.moist:
        return []
    told = []
    for leaf in (row.leaf for row in view.card.classes):
        moist = view.moist[leaf]
        age = age_of(moist, view.now, view.words)
        told.append(f"{leaf} {percent(moist.moisture)} {age}")
    indent = " " * 10
    return [(Span(indent + row, "faint"),) for row in packed(told, width - len(indent) - 1)]


def _column(view: CardView, row: ClassRow, age: Literal["beside", "below", ""]) -> Column:
    moist = view.moist[row.leaf]
    moisture, old = percent(moist.moisture), age_of(moist, view.now, view.words)
    below = {"beside": (f"{moisture} {old}",), "below": (moisture, old), "": (moisture,)}[age]
    above = (row.leaf_class, row.leaf)
    return Column(fixed(row.g, view.places), above, (f"{row.half_leaves:g}", *below))


def batch_lines(view: CardView, width: int) -> list[Line]:
    """What several bunches portioned together take, on a line that says so itself."""
    batch, words = view.card.batch, view.words
    if batch is None:
        return []
    parts = [f"{row.leaf} {fixed(row.g, view.places)}" for row in batch.classes]
    parts.append(f"{words.filler} {fixed(batch.total_g, view.places)} g")
    label = f" {words.batch.format(n=batch.bunches)} "
    rows = packed(parts, width - len(label) - 1)
    return [
        (Span(label if y == 0 else " " * len(label), "title"), Span(row, "strong"))
        for y, row in enumerate(rows)
    ]


def _changed_lots(view: CardView, width: int) -> list[Line]:
    """The lots that are new today, or other than the bench has."""
    words = view.words
    told = [
        words.lot_had.format(leaf=each.leaf, lot=each.lot, had=each.had)
        if each.had is not None
        else words.lot_new.format(leaf=each.leaf, lot=each.lot)
        for each in view.lots
        if each.changed
    ]
    label = f" {words.lot_changed}"
    room = width - len(label) - 1
    rows = [row for part in packed(told, room) for row in wrap(part, room)]
    return [
        (Span(label if y == 0 else " " * len(label), "title"), Span(row, "strong"))
        for y, row in enumerate(rows)
    ]


def age_of(moist: Moist, now: dt.datetime, words: Words) -> str:
    """How long ago it was measured."""
    if moist.at is None:
        return words.book
    minutes = max(0, round((now - moist.at).total_seconds() / 60))
    near = minutes < 100
    return (words.minutes if near else words.hours).format(n=minutes if near else minutes // 60)


def _class_table(view: CardView, width: int) -> tuple[list[Line], bool]:
    """The classes as plain lines, where no big figure fits, and whether with their moistures.

    What there is no room for is left out in every line: the age, then the moisture.
    """
    rows = [
        _Row(
            f" {row.leaf_class} {row.leaf}",
            f"{column.figure:>6} g",
            (f"{column.below[0]} {view.words.half_leaves}", *column.below[1:]),
        )
        for row in view.card.classes
        for column in [_column(view, row, "below")]
    ]
    name = max(cell_len(row.name) for row in rows)
    grams = max(cell_len(row.grams) for row in rows)
    sizes = sizes_of([row.more for row in rows])
    n = len(sizes)
    while n > 1 and name + 1 + grams + sum(sizes[:n]) + 2 * n >= width:
        n -= 1
    lines: list[Line] = [
        (
            Span(fit(row.name, name)),
            Span(f" {fit(row.grams, grams, 'right')}", "strong"),
            *(
                Span(f"  {fit(text, size)}")
                for text, size in zip(row.more, sizes[:n], strict=False)
            ),
        )
        for row in rows
    ]
    return lines, n > 1


class _Row(NamedTuple):
    """A class in the table: its grams, and what more there is room for, the first things first."""

    name: str
    grams: str
    more: tuple[str, ...]


def _filler_lines(view: CardView, legend: str, width: int) -> list[Line]:
    """The whole filler in words, where it has no column of its own; and what the rows are."""
    grams = f"{fixed(view.card.filler_g, view.places)} g"
    left: Line = (Span(f" {fit(view.words.filler, 8)}"), Span(f"{grams:>8}", "strong"))
    right = Span(legend, "faint")
    if width_of(left) + width_of((right,)) < width:
        return [spread(left, (right,), width)]
    return [left, (Span(" "), right)]


def _window_band(view: CardView, width: int) -> list[Line]:
    """The bunch's window in big figures, where the terminal is tall enough."""
    bunch, words = view.card.targets["bunch"], view.words
    columns = [
        Column(fixed(bunch.low_g, view.places), (words.lightest,), ()),
        Column(fixed(bunch.target_g, view.places), (words.bunch,), ()),
        Column(fixed(bunch.high_g, view.places), (words.heaviest,), ()),
    ]
    lines = widest_band(columns, width)
    return [BLANK, *lines] if lines else []


# -- weights, covers, notes -------------------------------------------------------------------


def _facts(view: CardView) -> list[Line]:
    """The bunch's window, the cigar's, the covers."""
    card, words = view.card, view.words
    lines = [_weight(view, "bunch", words.bunch), _weight(view, "cigar", words.cigar)]
    covers = ((card.binder, words.binder), (card.wrapper, words.wrapper))
    lines += [_cover(view, cover, name) for cover, name in covers]
    lines += [_cover_moisture(view, cover, i == 0) for i, (cover, _) in enumerate(covers)]
    return lines


def _notes(card: Card, width: int, words: Words) -> list[Line]:
    """What the recipe warns of; a batch is on a line of its own already."""
    told_notes = (words.note.format(note=words.tell(note)) for note in card.notes)
    return [row for note in told_notes for row in inked(note, width)]


def _weight(view: CardView, measure: str, name: str) -> Line:
    target = view.card.targets[measure]
    low, goal, high = (
        fixed(grams, view.places) for grams in (target.low_g, target.target_g, target.high_g)
    )
    window = view.words.window.format(low=low, high=high)
    ink: Ink = "strong" if measure == "bunch" else "plain"
    return (Span(f" {fit(name, 8)}"), Span(f"{goal:>6} g", "strong"), Span(f"  {window}", ink))


def _cover(view: CardView, cover: Laid, name: str) -> Line:
    one, several = view.words.pieces
    pieces = (one if cover.pieces == 1 else several).format(n=f"{cover.pieces:g}")
    grams = fixed(cover.today_g, max(1, view.places))
    return (Span(f" {fit(name, 8)}{grams:>6} g  {cover.leaf:<6} {pieces}"),)


def _cover_moisture(view: CardView, cover: Laid, first: bool) -> Line:
    words = view.words
    moist = view.moist[cover.leaf]
    name = fit(words.moisture if first else "", 9)
    age = age_of(moist, view.now, words)
    ago = words.by_book if moist.at is None else words.ago.format(time=age)
    return (Span(f" {name}{cover.leaf:<6} {percent(moist.moisture)} {ago}", "faint"),)
