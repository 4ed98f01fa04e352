"""The Leaf: is there enough, where is it, what runs out when; below, what to issue."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from rich.cells import cell_len

from core.desk.dates import short_date
from core.desk.figures import fixed, percent
from core.stock.stock import LeafStock, Shortage, Stock, soonest
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Line, Span, figure, fit, inked, joined, width_of
from floor.looks.words import Words, plural
from floor.screens.card_view import Moist, age_of
from floor.screens.leaf_issue import issue_lines
from floor.widgets.page import Page

LEAST_NAME = 6
MOST_NAME = 10
"""A code of so many cells is readable where it is shortened."""
GAP = 2
"""Cells before the moisture."""
MOST_TOLD = 8
"""Shortages told, the most urgent ones."""


class Widths(NamedTuple):
    """Cells of a row: leaf, class, on hand, out today, on the benches, days."""

    name: int
    leaf_class: int
    on_hand: int = 11
    issued: int = 10
    benches: int = 9
    days: int = 6


MOISTURE_CELLS, PERCENT_CELLS = 14, 8
"""The moisture and its age; the moisture alone, and its heading."""


class LeafPage(Page):
    """The stock first, what runs out, then the issue sheet of today's quotas."""

    def written(self, width: int, height: int) -> list[Line]:
        desk, words = self.floor.desk, self.floor.words
        if desk.house is None:
            return no_house(desk, words, width)
        moist = {leaf: Moist(*desk.moisture_age(leaf)) for leaf in desk.house.leaf}
        ages = {leaf: age_of(each, desk.now(), words) for leaf, each in moist.items()}
        standard = desk.house.house.standard_moisture
        lines = stock_lines(desk.stock(), ages, standard, desk.now().date(), width, words)
        return [*lines, *issue_lines(desk.issue(), width, words)]


def stock_lines(
    stock: Stock,
    ages: dict[str, str],
    standard: float,
    day: dt.date,
    width: int,
    words: Words,
) -> list[Line]:
    """A row a leaf and a row a lot, then what runs out; without a lot how to begin."""
    wide = _widths(stock, width, words)
    lines = [_head(wide, width, words)]
    for row in stock.leaves:
        lines.append(_leaf(row, ages.get(row.leaf, ""), wide, width, words))
        lines += [_lot(row, i, wide, width, day, words) for i in range(len(row.lots))]
    told = words.kilograms.format(moisture=percent(standard))
    lines += [(Span(" "), *row) for row in inked(told, width - 2, "faint")]
    if not any(row.lots for row in stock.leaves):
        leaf = stock.leaves[0].leaf if stock.leaves else "SE-1"
        lines += _taught(leaf, width, words)
    lines += [BLANK, (Span(f" {words.shortages}", "title"),)]
    lines += _shortages(stock, day, width, words)
    return lines


def _taught(leaf: str, width: int, words: Words) -> list[Line]:
    lines: list[Line] = [BLANK]
    for text in words.no_lots:
        margin = " " * (2 + len(text) - len(text.lstrip()))
        filled = text.strip().format(leaf=leaf)
        lines += [(Span(margin), *row) for row in inked(filled, width - len(margin) - 1)]
    return lines


def _widths(stock: Stock, width: int, words: Words) -> Widths:
    """As wide as there is room for; codes give way first, then the age of the moisture.

    A class stays whole: it is a word of the trade.
    """
    name = max((LEAST_NAME, *(cell_len(row.leaf) for row in stock.leaves)))
    longest = max((cell_len(words.class_of(row.leaf_class)) for row in stock.leaves), default=0)
    wide = Widths(name, longest)
    rest = 1 + sum(wide) - name + 1 + GAP
    room = width - rest - MOISTURE_CELLS
    if room >= min(name, MOST_NAME):
        return wide._replace(name=min(name, room))
    close = wide._replace(on_hand=9, benches=8, days=5)
    room = width - (1 + sum(close) - name + 1 + GAP) - PERCENT_CELLS
    return close._replace(name=max(LEAST_NAME, min(name, room)))


def _head(wide: Widths, width: int, words: Words) -> Line:
    on_hand, issued, benches, moisture, days = words.stock_columns
    figures = ((on_hand, wide.on_hand), (issued, wide.issued), (benches, wide.benches))
    cells = "".join(figure(t, n) for t, n in (*figures, (days, wide.days)))
    left = f" {fit(words.leaf, wide.name)} {' ' * wide.leaf_class}{cells}"
    room = width - cell_len(left) - GAP
    last = " " * GAP + moisture if cell_len(moisture) <= room else ""
    return (Span(left + last, "faint"),)


def _leaf(row: LeafStock, age: str, wide: Widths, width: int, words: Words) -> Line:
    """The leaf's sums."""
    on_hand = "" if row.on_hand_g is None else _kg(row.on_hand_g)
    days = "" if row.cover_days is None else fixed(row.cover_days, 1)
    figures = (
        (on_hand, wide.on_hand),
        (_kg(row.issued_g - row.returned_g), wide.issued),
        (_kg(row.on_benches_g), wide.benches),
        (days, wide.days),
    )
    cells = "".join(figure(t, n) for t, n in figures)
    short = (row.on_hand_g or 0.0) < 0 or row.short_g > 0
    mark = "!" if short else " "
    leaf_class = fit(words.class_of(row.leaf_class), wide.leaf_class)
    label = f"{mark}{fit(row.leaf, wide.name)} {leaf_class}"
    start: Line = (
        Span(label, "strong"),
        Span(cells, "wrong" if short else "plain"),
        Span(" " * GAP),
    )
    room = width - width_of(start)
    facts = [f"{percent(row.moisture)} {age}".rstrip(), *([] if row.lots else [words.in_no_lots])]
    if cell_len(facts[0]) > room:
        facts[0] = percent(row.moisture)
    return (*start, Span(joined(facts, room)))


def _lot(row: LeafStock, place: int, wide: Widths, width: int, day: dt.date, words: Words) -> Line:
    """One lot: what is on hand, what went out today, where it came from."""
    lot = row.lots[place]
    mark = "▸" if row.lot is not None and lot.lot == row.lot.lot else " "
    moved_g = lot.issued_g - lot.returned_g
    cells = figure(_kg(lot.on_hand_g), wide.on_hand) + figure(_kg(moved_g), wide.issued)
    label = f"  {mark} {fit(lot.lot, wide.name + wide.leaf_class - 2)}"
    facts = [words.tell(short_date(lot.received, day))]
    facts += [words.crop.format(year=lot.crop)] if lot.crop is not None else []
    facts += [plural(words.bales, lot.bales)] if lot.bales is not None else []
    start: Line = (
        Span(label),
        Span(cells, "wrong" if lot.on_hand_g < 0 else "plain"),
        Span(" " * GAP),
    )
    return (*start, Span(joined(facts, width - width_of(start) - 1), "faint"))


def _shortages(stock: Stock, day: dt.date, width: int, words: Words) -> list[Line]:
    told = soonest(stock.shortages)
    texts = [
        words.overdrawn.format(lot=lot.lot, leaf=lot.leaf, kg=_kg(-lot.on_hand_g))
        for lot in stock.overdrawn
    ]
    texts += [says(short, day, words) for short in told[:MOST_TOLD]]
    if told[MOST_TOLD:]:
        texts.append(plural(words.more_benches, len(told) - MOST_TOLD))
    lines: list[Line] = []
    for text in texts:
        lines += [(Span(" ! "), *row) for row in inked(text, width - 4, "wrong")]
    if not texts:
        lines.append((Span(f"  {words.enough}"),))
    if not stock.quotas:
        lines += [(Span("  "), *row) for row in inked(words.no_quota, width - 3, "faint")]
    return lines


def says(short: Shortage, day: dt.date, words: Words) -> str:
    """A shortage in words: what, where, about when."""
    what = {
        "leaf_class": words.class_of(short.leaf_class), "leaf": short.leaf, "bench": short.bench
    }  # fmt: skip
    if short.at is None:
        form = words.runs_out_house if short.bench is None else words.runs_out
        text = form.format(**what)
    else:
        clock = f"{short.at:%H:%M}"
        if short.at.date() != day:
            clock = f"{words.tell(short_date(short.at, day))} {clock}"
        form = words.runs_out_house_about if short.bench is None else words.runs_out_about
        text = form.format(**what, time=clock)
    if short.short_g is None:
        return text
    return words.short_today.format(runs_out=text, kg=_kg(short.short_g))


def _kg(grams: float) -> str:
    return fixed(grams / 1000, 2)
