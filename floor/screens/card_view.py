"""The Card as lines: big figures above, weights and covers below left, checks below right."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.desk.faces import BenchLine, OpenCheck, SeenCheck
from core.desk.figures import fixed, percent
from core.recipe.card import Card
from core.recipe.cover import Laid
from floor.looks.figures import CUTS, ROWS, Cut, big, figure_width
from floor.looks.spans import BLANK, Ink, Line, Span, beside, fit, inked, shorten, spread, width_of
from floor.looks.words import Words
from floor.screens.check_view import chart_block, checks_block

GAP = 2
TWO_COLUMNS = 76
LEFT = 40
WINDOW_BAND = ROWS + 2
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


def card_lines(view: CardView, width: int, height: int) -> list[Line]:
    """The card, filling `height` rows where it can and running over where it must."""
    lines = [_head(view, width), *_classes(view, width, tall=height >= ROOMY)]
    room = height - len(lines)
    if room >= WINDOW_BAND + 8:
        lines += [*_window_band(view, width), BLANK]
    two = width >= TWO_COLUMNS
    right = width - LEFT - 2 if two else width - 1  # a blank between, a blank at the edge
    room = height - len(lines) if two else 0
    facts = _facts(view)
    beside_them = [
        *checks_block(view.open, view.recent, view.division_g, right, view.words),
        *_notes(view.card, right, view.words),
    ]
    beside_them += chart_block(
        view.recent, view.division_g, right, room - len(beside_them), view.words
    )
    if two:
        return [*lines, *beside([facts, beside_them], [LEFT, right], 1)]
    indented = [(Span(" "), *row) for row in beside_them]
    return [*lines, facts[0], *indented, *facts[1:]]


def _head(view: CardView, width: int) -> Line:
    card, words = view.card, view.words
    size = f"{words.ring.format(ring=f'{card.ring:g}')} × {card.length_mm:.0f} mm"
    pair = " ".join(p for p in (view.bench.buncher, view.bench.roller) if p)
    facts = " · ".join(p for p in (size, words.blend.format(blend=card.blend), pair) if p)
    left = (Span(f" {card.vitola} ", "title"), Span(facts))
    return spread(left, (Span(words.laying_order + " ", "faint"),), width)


# -- the classes ------------------------------------------------------------------------------


class _Column(NamedTuple):
    """One figure with the words above and below it; `batch` is what a batch of it weighs."""

    figure: str
    above: tuple[str, str]
    below: tuple[str, ...]
    batch: str = ""


def _classes(view: CardView, width: int, tall: bool) -> list[Line]:
    """Each class's grams, big, with the whole filler at the end where there is room for it."""
    columns = [_class_column(view, i, tall) for i in range(len(view.card.classes))]
    words = view.words
    legends = (words.half_leaves, words.moisture, *((words.measured,) if tall else ()))
    batch = _batch_total(view)
    whole = _Column(fixed(view.card.filler_g, view.places), (words.filler, ""), legends, batch)
    for cut in CUTS:
        for narrower in CUTS[CUTS.index(cut) :]:
            cuts = [cut] * len(columns) + [narrower]
            if _band_width([*columns, whole], cuts) <= width - 2:
                return _band([*columns, whole], cuts)
    for cut in CUTS:
        cuts = [cut] * len(columns)
        if _band_width(columns, cuts) <= width - 2:
            legend = words.under_each.format(what=", ".join(legends))
            return [*_band(columns, cuts), *_filler_lines(view, legend, width)]
    return [*_class_table(view, width), *_filler_lines(view, "", width)]


def _batch_total(view: CardView) -> str:
    """How many bunches to portion together, and what they weigh."""
    batch = view.card.batch
    if batch is None:
        return ""
    return view.words.batch.format(n=batch.bunches, grams=fixed(batch.total_g, view.places))


def _class_column(view: CardView, place: int, tall: bool) -> _Column:
    row, words = view.card.classes[place], view.words
    moist = view.moist[row.leaf]
    below = (f"{row.half_leaves:g}", percent(moist.moisture))
    age = _age(moist, view.now, words)
    batch = view.card.batch
    return _Column(
        fixed(row.g, view.places),
        (row.leaf_class, row.leaf),
        (*below, age) if tall else below,
        fixed(batch.classes[place].g, view.places) if batch else "",
    )


def _age(moist: Moist, now: dt.datetime, words: Words) -> str:
    if moist.at is None:
        return words.by_book
    minutes = max(0, round((now - moist.at).total_seconds() / 60))
    near = minutes < 100
    time = (words.minutes if near else words.hours).format(n=minutes if near else minutes // 60)
    return words.ago.format(time=time)


def _column_width(column: _Column, cut: Cut) -> int:
    labels = (*column.above, *column.below, column.batch)
    return max(figure_width(column.figure, cut), *(len(text) for text in labels))


def _band_width(columns: Sequence[_Column], cuts: Sequence[Cut]) -> int:
    sizes = (_column_width(column, cut) for column, cut in zip(columns, cuts, strict=True))
    return sum(sizes) + GAP * (len(columns) - 1)


def _band(columns: Sequence[_Column], cuts: Sequence[Cut]) -> list[Line]:
    """The columns side by side: words, the figure, words."""
    sizes = [_column_width(column, cut) for column, cut in zip(columns, cuts, strict=True)]
    batch = any(column.batch for column in columns)
    blocks = [
        [
            (Span(column.above[0], "strong"),),
            (Span(column.above[1]),),
            *big(column.figure, cut),
            *([(Span(column.batch, "strong"),)] if batch else []),
            *((Span(text, "faint"),) for text in column.below),
        ]
        for column, cut in zip(columns, cuts, strict=True)
    ]
    return [(Span(" "), *row) for row in beside(blocks, sizes, GAP)]


def _class_table(view: CardView, width: int) -> list[Line]:
    """The classes as plain lines, where no big figure fits."""
    rows: list[Line] = []
    for place, row in enumerate(view.card.classes):
        column = _class_column(view, place, tall=True)
        halves, moisture, age = column.below
        name = fit(f"{column.above[0]} {row.leaf}", min(24, width - 36))
        grams = Span(f" {column.figure:>6} g", "strong")
        rest = f"  {halves} {view.words.half_leaves}, {moisture} {age}"
        rows.append((Span(f" {name}"), grams, Span(shorten(rest, width - len(name) - 10))))
    return rows


def _filler_lines(view: CardView, legend: str, width: int) -> list[Line]:
    """The whole filler in words, where it has no column of its own; and what the rows are."""
    grams = f"{fixed(view.card.filler_g, view.places)} g"
    batch = _batch_total(view)
    left: Line = (
        Span(f" {fit(view.words.filler, 8)}"),
        Span(f"{grams:>8}" + (f"   {batch} g" if batch else ""), "strong"),
    )
    right = Span(legend, "faint")
    if width_of(left) + width_of((right,)) < width:
        return [spread(left, (right,), width)]
    return [left, (Span(" "), right)]


def _window_band(view: CardView, width: int) -> list[Line]:
    """The bunch's window in big figures, where the terminal is tall enough."""
    bunch, words = view.card.targets["bunch"], view.words
    columns = [
        _Column(fixed(bunch.low_g, view.places), (words.lightest, ""), ()),
        _Column(fixed(bunch.target_g, view.places), (words.bunch, ""), ()),
        _Column(fixed(bunch.high_g, view.places), (words.heaviest, ""), ()),
    ]
    for cut in CUTS:
        cuts = [cut] * len(columns)
        if _band_width(columns, cuts) <= width - 2:
            return [BLANK, *(row for i, row in enumerate(_band(columns, cuts)) if i != 1)]
    return []


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
    """What the recipe warns of."""
    return [row for note in card.warnings for row in inked(words.note.format(note=note), width)]


def _weight(view: CardView, measure: str, name: str) -> Line:
    target = view.card.targets[measure]
    low, goal, high = (
        fixed(grams, view.places) for grams in (target.low_g, target.target_g, target.high_g)
    )
    window = view.words.window.format(low=low, high=high)
    ink: Ink = "strong" if measure == "bunch" else "plain"
    return (Span(f" {fit(name, 8)}"), Span(f"{goal:>6} g", "strong"), Span(f"   {window}", ink))


def _cover(view: CardView, cover: Laid, name: str) -> Line:
    one, several = view.words.pieces
    pieces = (one if cover.pieces == 1 else several).format(n=f"{cover.pieces:g}")
    grams = fixed(cover.today_g, max(1, view.places))
    return (Span(f" {fit(name, 8)}{grams:>6} g   {fit(cover.leaf, 6)} {pieces}"),)


def _cover_moisture(view: CardView, cover: Laid, first: bool) -> Line:
    words = view.words
    moist = view.moist[cover.leaf]
    name = fit(words.moisture if first else "", 9)
    age = _age(moist, view.now, words)
    return (Span(f" {name}{fit(cover.leaf, 6)} {percent(moist.moisture)} {age}", "faint"),)
