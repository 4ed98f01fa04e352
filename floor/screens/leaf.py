"""The Leaf: is there enough, where is it, what runs out when; below, what to issue."""

from __future__ import annotations

import datetime as dt

from core.desk.figures import fixed, percent
from core.stock.stock import LeafStock, Shortage, Stock, soonest
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Line, Span, figure, fit, inked, joined, shorten, width_of
from floor.looks.words import Words, plural
from floor.screens.card_view import Moist, age_of
from floor.screens.leaf_issue import issue_lines
from floor.widgets.page import Page

LEAST_NAME = 6
MOST_NAME = 12
CLASS_CELLS = 11
COLUMNS = (11, 10, 9)
"""Cells of on hand, out today, on the benches."""
DAYS_CELLS = 6
MOST_TOLD = 8
"""Shortages told, the most urgent ones."""


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
    name = max(LEAST_NAME, *(len(row.leaf) for row in stock.leaves)) if stock.leaves else 0
    name = min(name, MOST_NAME)
    lines = [_head(name, width, words)]
    for row in stock.leaves:
        lines += _leaf(row, ages.get(row.leaf, ""), name, width, words)
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


def _head(name: int, width: int, words: Words) -> Line:
    on_hand, issued, benches, moisture, days = words.stock_columns
    cells = [figure(t, n) for t, n in zip((on_hand, issued, benches), COLUMNS, strict=True)]
    left = f" {fit(words.leaf, name)} {' ' * CLASS_CELLS}{''.join(cells)}{figure(days, DAYS_CELLS)}"
    return (Span(shorten(f"{left}  {moisture}", width), "faint"),)


def _leaf(row: LeafStock, age: str, name: int, width: int, words: Words) -> list[Line]:
    """The leaf's sums, and a row for each of its lots."""
    on_hand = "" if row.on_hand_g is None else _kg(row.on_hand_g)
    figures = (on_hand, _kg(row.issued_g - row.returned_g), _kg(row.on_benches_g))
    cells = "".join(figure(t, n) for t, n in zip(figures, COLUMNS, strict=True))
    days = "" if row.cover_days is None else fixed(row.cover_days, 1)
    label = f" {fit(row.leaf, name)} {fit(row.leaf_class, CLASS_CELLS)}"
    facts = [f"{percent(row.moisture)} {age}".rstrip(), *([] if row.lots else [words.in_no_lots])]
    short = (row.on_hand_g or 0.0) < 0 or row.short_g > 0
    sums = Span(cells + figure(days, DAYS_CELLS), "wrong" if short else "plain")
    start: Line = (Span(label, "strong"), sums, Span("  "))
    lines: list[Line] = [(*start, Span(joined(facts, width - width_of(start))))]
    lines += [_lot(row, i, name, width, words) for i in range(len(row.lots))]
    return lines


def _lot(row: LeafStock, place: int, name: int, width: int, words: Words) -> Line:
    """One lot: what is on hand, what went out today, where it came from."""
    lot = row.lots[place]
    mark = "▸" if row.lot is not None and lot.lot == row.lot.lot else " "
    moved_g = lot.issued_g - lot.returned_g
    cells = figure(_kg(lot.on_hand_g), COLUMNS[0]) + figure(_kg(moved_g), COLUMNS[1])
    label = f"  {mark} {fit(lot.lot, name + CLASS_CELLS - 2)}"
    facts = [lot.received.isoformat()]
    facts += [words.crop.format(year=lot.crop)] if lot.crop is not None else []
    facts += [plural(words.bales, lot.bales)] if lot.bales is not None else []
    start: Line = (
        Span(label),
        Span(cells, "wrong" if lot.on_hand_g < 0 else "plain"),
        Span("  "),
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
    leaf = f"{short.leaf_class} {short.leaf}"
    form = words.runs_out_house if short.bench is None else words.runs_out
    text = form.format(leaf=leaf, bench=short.bench)
    if short.at is not None:
        clock = f"{short.at:%H:%M}" if short.at.date() == day else f"{short.at:%Y-%m-%d %H:%M}"
        text += words.about.format(time=clock)
    if short.short_g is not None:
        text += ", " + words.short_today.format(kg=_kg(short.short_g))
    return text


def _kg(grams: float) -> str:
    return fixed(grams / 1000, 2)
