"""Days: how the last four weeks went, by week, day, vitola and bench."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from statistics import fmean
from typing import NamedTuple

from rich.cells import cell_len

from core.day.figures import Figures
from core.day.trend import DayLine
from core.desk.dates import short_date
from core.desk.days import LastWeeks, Weeks
from core.desk.figures import thousands
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Line, Span, figure, figures, fit, inked, sizes_of, wrap
from floor.looks.trend import trend_shape
from floor.looks.words import Words
from floor.widgets.page import Page

NAME_CELLS = 14
LEAST_CELLS = 7
"""Of a figure, so that narrow ones do not crowd."""
TREND_CELLS = 24
"""Working days in four weeks: common practice."""


class DaysPage(Page):
    """The closed days side by side; nothing can be entered here that the line does not take."""

    def __init__(self) -> None:
        super().__init__(id="days")
        self._last = LastWeeks()

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        if floor.desk.house is None:
            return no_house(floor.desk, floor.words, width)
        weeks = self._last.until(floor.desk.data_folder, floor.desk.day)
        return days_lines(weeks, width, floor.words)


def days_lines(weeks: Weeks, width: int, words: Words) -> list[Line]:
    """Trends as signs, then a row a week, a day, a vitola, a bench."""
    told = weeks.told
    if told.totals is None:
        waiting = [line.date for line in told.days]
        lines: list[Line] = [BLANK, *_said(words.days_none, width)]
        if waiting:
            lines += _said(words.days_unclosed.format(days=", ".join(waiting)), width)
        return lines
    days = [line.figures.figures for line in told.days if line.figures]
    whole = told.totals.figures
    tables: list[tuple[str, list[tuple[str, Figures | str]]]] = [
        (words.days_week, [(line.week, line.figures.figures) for line in told.weeks]),
        (words.days_day, [_of_day(line, words) for line in reversed(told.days)]),
        (words.vitola, [*weeks.by.by_vitola.items()]),
        (words.bench, [*weeks.by.by_bench.items()]),
    ]
    columns = _columns([of for _, rows in tables for of in rows], width, words)
    lines = _marks(days, whole, width, words)
    for title, rows in tables:
        lines += _head(title, columns, words)
        for name, of in rows:
            lines += _row(name, of, columns, width)
        if title == words.days_day and any(line.corrected for line in told.days):
            lines += _said(words.days_corrected, width)
    return lines


def _of_day(line: DayLine, words: Words) -> tuple[str, Figures | str]:
    """A day's figures, or why it has none."""
    if line.figures is not None:
        return _named(line, words), line.figures.figures
    state = words.days_open if line.open_since else words.days_not_closed
    return _named(line, words), f"{state} {line.reason or ''}".rstrip()


def _named(line: DayLine, words: Words) -> str:
    """The weekday and the date; * where it was corrected after it was closed."""
    date = dt.date.fromisoformat(line.date)
    mark = "*" if line.corrected else ""
    return f"{words.weekdays[date.weekday()][:3]} {words.tell(short_date(date))}{mark}"


class _Series(NamedTuple):
    """One figure of each day; `steps` is what counts as much, above or below the whole."""

    name: str
    of_days: list[float | None]
    of_whole: float | None
    places: int
    unit: str


def _marks(days: Sequence[Figures], whole: Figures, width: int, words: Words) -> list[Line]:
    """A sign a day, newest last: its place about the mean of all days."""
    mean_loose = None if whole.unexplained_g is None else whole.unexplained_g / len(days)
    series = (
        _Series(words.first_time, [_share(d.first_pass_yield) for d in days],
                _share(whole.first_pass_yield), 1, "%"),
        _Series(words.leaf_yield, [_share(d.leaf_yield) for d in days],
                _share(whole.leaf_yield), 1, "%"),
        _Series(words.days_per_1000, [d.filler_kg_per_1000_good for d in days],
                whole.filler_kg_per_1000_good, 2, "kg"),
        _Series(words.unexplained, [d.unexplained_g for d in days], mean_loose, 0, "g"),
    )  # fmt: skip
    room = max(cell_len(each.name) for each in series)
    lines = [_mark(each, room) for each in series]
    return [*lines, *_said(words.days_signs, width, faint=True)]


def _mark(series: _Series, room: int) -> Line:
    whole = series.of_whole
    told = "" if whole is None else f"{thousands(whole, series.places)} {series.unit}"
    signs = ""
    known = [x for x in series.of_days if x is not None]
    if whole is not None and known:
        # An arrow is beyond twice the days' own spread about the whole.
        far = 2 * math.sqrt(fmean([(x - whole) ** 2 for x in known]))
        off = [(x - whole) / far if far else 0.0 for x in known]
        signs = trend_shape(off, TREND_CELLS)
    return (
        Span(f" {fit(series.name, room)} "), Span(figure(told, 10), "strong"), Span(f"  {signs}"),
    )  # fmt: skip


def _share(share: float | None) -> float | None:
    return None if share is None else 100 * share


class _Columns(NamedTuple):
    """Cells of the name, and of the figures that there is room for."""

    name: int
    sizes: tuple[int, ...]


def _columns(rows: Sequence[tuple[str, Figures | str]], width: int, words: Words) -> _Columns:
    """The same for every table of the page. The last figures go where there is no room."""
    told = [_texts(of) for _, of in rows if not isinstance(of, str)]
    sizes = [max(LEAST_CELLS, size) for size in sizes_of([words.days_columns, *told])]
    while len(sizes) > 1 and NAME_CELLS + 2 + sum(size + 2 for size in sizes) > width:
        sizes.pop()
    longest = max(cell_len(name) for name, _ in rows)
    room = width - 2 - sum(size + 2 for size in sizes)
    return _Columns(min(max(NAME_CELLS, longest), max(NAME_CELLS, room)), tuple(sizes))


def _head(name: str, columns: _Columns, words: Words) -> list[Line]:
    cells = figures(words.days_columns[: len(columns.sizes)], columns.sizes)
    return [BLANK, (Span(f" {fit(name, columns.name)}", "title"), Span(cells, "faint"))]


def _row(name: str, of: Figures | str, columns: _Columns, width: int) -> list[Line]:
    label = f" {fit(name, columns.name)}"
    if isinstance(of, str):
        margin = " " * len(label)
        texts = wrap(of, width - len(label) - 2)
        return [(Span(f"{margin if y else label} {row}", "faint"),) for y, row in enumerate(texts)]
    cells = figures(_texts(of)[: len(columns.sizes)], columns.sizes)
    return [(Span(label, "strong"), Span(cells))]


def _texts(of: Figures) -> tuple[str, ...]:
    return (
        thousands(of.good),
        _cell(_share(of.first_pass_yield), 1),
        _cell(_share(of.leaf_yield), 1),
        _cell(of.filler_kg_per_1000_good, 2),
        _cell(of.unexplained_g, 0),
    )


def _cell(value: float | None, places: int) -> str:
    return "" if value is None else thousands(value, places)


def _said(text: str, width: int, *, faint: bool = False) -> list[Line]:
    return [(Span(" "), *row) for row in inked(text, width - 2, "faint" if faint else "plain")]
