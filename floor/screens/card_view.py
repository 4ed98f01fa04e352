"""The Card as lines: big figures above, weights and covers below left, checks below right."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.desk.faces import BenchLine, OpenCheck, SeenCheck
from core.desk.figures import fixed, percent
from core.recipe.card import Card
from core.recipe.cover import Laid
from floor.looks.figures import ROWS, Cut, big, column_widths, widest_cut
from floor.looks.spans import BLANK, Ink, Line, Span, beside, fit, inked, shorten, spread
from floor.looks.words import Words, plural
from floor.screens.check_view import checks_block

GAP = 3
TWO_COLUMNS = 76
LEFT = 43
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
    room = height - len(lines)
    facts = _facts(view, min(width, LEFT) if width >= TWO_COLUMNS else width)
    if width < TWO_COLUMNS:
        checks = checks_block(view.open, view.recent, view.division_g, width - 1, 0, view.words)
        return [*lines, facts[0], *checks, *facts[1:]]
    right = width - LEFT - 2
    checks = checks_block(view.open, view.recent, view.division_g, right, room, view.words)
    return [*lines, *beside([facts, checks], [LEFT, right], 2)]


def _head(view: CardView, width: int) -> Line:
    card, words = view.card, view.words
    size = f"{words.ring.format(ring=f'{card.ring:g}')} × {card.length_mm:.0f} mm"
    pair = " ".join(p for p in (view.bench.buncher, view.bench.roller) if p)
    facts = " · ".join(p for p in (size, words.blend.format(blend=card.blend), pair) if p)
    left = (Span(f" {card.vitola} ", "title"), Span(facts))
    return spread(left, (Span(words.laying_order + " ", "faint"),), width)


# -- the classes ------------------------------------------------------------------------------


class _Column(NamedTuple):
    """One figure with the words above and below it."""

    figure: str
    above: tuple[str, str]
    below: tuple[str, ...]


def _classes(view: CardView, width: int, tall: bool) -> list[Line]:
    """Each class's grams, big, with the whole filler at the end where there is room for it."""
    columns = [_class_column(view, i, tall) for i in range(len(view.card.classes))]
    words = view.words
    legends = (words.half_leaves, words.moisture, *((words.measured,) if tall else ()))
    whole = _Column(fixed(view.card.filler_g, view.places), (words.filler, ""), legends)
    for shown in ([*columns, whole], columns):
        cut = _cut(shown, width)
        if cut is not None:
            block = _band(shown, cut)
            if shown is columns:
                block.append(_filler_line(view))
            return block
    return [*_class_table(view, width), _filler_line(view)]


def _class_column(view: CardView, place: int, tall: bool) -> _Column:
    row, words = view.card.classes[place], view.words
    moist = view.moist.get(row.leaf, Moist(row.moisture, None))
    below = (f"{row.half_leaves:g}", percent(moist.moisture))
    age = _age(moist, view.now, words)
    return _Column(
        fixed(row.g, view.places),
        (row.leaf_class, row.leaf),
        (*below, age) if tall else below,
    )


def _age(moist: Moist, now: dt.datetime, words: Words) -> str:
    if moist.at is None:
        return words.by_book
    minutes = max(0, round((now - moist.at).total_seconds() / 60))
    near = minutes < 100
    time = (words.minutes if near else words.hours).format(n=minutes if near else minutes // 60)
    return words.ago.format(time=time)


def _label_width(column: _Column) -> int:
    return max(len(text) for text in (*column.above, *column.below))


def _cut(columns: Sequence[_Column], width: int) -> Cut | None:
    figures = [column.figure for column in columns]
    return widest_cut(figures, [_label_width(c) for c in columns], width - 2, GAP)


def _band(columns: Sequence[_Column], cut: Cut) -> list[Line]:
    figures = [column.figure for column in columns]
    sizes = column_widths(figures, [_label_width(c) for c in columns], cut)
    blocks = [
        [
            (Span(column.above[0], "strong"),),
            (Span(column.above[1]),),
            *big(column.figure, cut),
            *((Span(text, "faint"),) for text in column.below),
        ]
        for column in columns
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


def _filler_line(view: CardView) -> Line:
    grams = fixed(view.card.filler_g, view.places)
    return (Span(f" {fit(view.words.filler, 8)}"), Span(f"{grams} g", "strong"))


def _window_band(view: CardView, width: int) -> list[Line]:
    """The bunch's window in big figures, where the terminal is tall enough."""
    bunch, words = view.card.targets["bunch"], view.words
    columns = [
        _Column(fixed(bunch.low_g, view.places), (words.lightest, ""), ()),
        _Column(fixed(bunch.target_g, view.places), (words.bunch, ""), ()),
        _Column(fixed(bunch.high_g, view.places), (words.heaviest, ""), ()),
    ]
    cut = _cut(columns, width)
    return [BLANK, *(row for i, row in enumerate(_band(columns, cut)) if i != 1)] if cut else []


# -- weights, covers, notes -------------------------------------------------------------------


def _facts(view: CardView, width: int) -> list[Line]:
    """The bunch's window, the cigar's, the covers, the batch, the notes."""
    card, words = view.card, view.words
    lines = [_weight(view, "bunch", words.bunch), _weight(view, "cigar", words.cigar)]
    lines += [_cover(view, card.binder, words.binder), _cover(view, card.wrapper, words.wrapper)]
    if card.batch is not None:
        grams = "  ".join(f"{c.leaf} {fixed(c.g, view.places)}" for c in card.batch.classes)
        whole = words.in_all.format(grams=fixed(card.batch.total_g, view.places))
        text = f"{words.batch.format(n=card.batch.bunches)} {grams}  {whole}"
        lines += [(Span(" "), *row) for row in inked(text, width - 1, "strong")]
    for note in card.warnings:
        lines += [(Span(" "), *row) for row in inked(words.note.format(note=note), width - 1)]
    return lines


def _weight(view: CardView, measure: str, name: str) -> Line:
    target = view.card.targets[measure]
    low, goal, high = (
        fixed(grams, view.places) for grams in (target.low_g, target.target_g, target.high_g)
    )
    window = view.words.window.format(low=low, high=high)
    ink: Ink = "strong" if measure == "bunch" else "plain"
    return (Span(f" {fit(name, 8)}"), Span(f"{goal:>6} g", "strong"), Span(f"   {window}", ink))


def _cover(view: CardView, cover: Laid, name: str) -> Line:
    words = view.words
    pieces = plural(words.pieces, 1) if cover.pieces == 1 else words.pieces[1]
    moist = view.moist.get(cover.leaf)
    facts = [
        f"{fixed(cover.today_g, max(1, view.places)):>6} g   {fit(cover.leaf, 7)}",
        pieces.format(n=f"{cover.pieces:g}"),
    ]
    if moist is not None:
        facts.append(percent(moist.moisture))
    left = Span(f" {fit(name, 8)}")
    return (left, Span(" ".join(facts)))
