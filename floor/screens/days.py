"""Days: how the last four weeks went, by week, day, vitola and bench."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence
from statistics import fmean
from typing import NamedTuple

from rich.cells import cell_len

from core.day.figures import Figures
from core.day.trend import DayLine, Trend
from core.desk.dates import short_date
from core.desk.days import LastWeeks, Weeks
from core.desk.figures import thousands
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Line, Span, figure, fit, inked, wrap
from floor.looks.trend import trend_shape
from floor.looks.words import Words
from floor.widgets.page import Page

NAME_CELLS = 14
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
    lines = [*_marks(days, whole, width, words), *_head(words.days_week, width, words)]
    lines += [_row(line.week, line.figures.figures, width) for line in told.weeks]
    lines += _head(words.days_day, width, words)
    lines += _days(told, width, words)
    if any(line.corrected for line in told.days):
        lines += _said(words.days_corrected, width)
    for name, rows in ((words.vitola, weeks.by.by_vitola), (words.bench, weeks.by.by_bench)):
        lines += _head(name, width, words)
        lines += [_row(key, of, width) for key, of in rows.items()]
    return lines


def _days(told: Trend, width: int, words: Words) -> Iterable[Line]:
    for line in reversed(told.days):
        if line.figures is not None:
            yield _row(_named(line, words), line.figures.figures, width)
        else:
            state = words.days_open if line.open_since else words.days_not_closed
            says = f"{state} {line.reason or ''}".rstrip()
            name = fit(_named(line, words), NAME_CELLS)
            for n, row in enumerate(wrap(says, width - NAME_CELLS - 3)):
                yield (Span(f" {name if n == 0 else ' ' * NAME_CELLS} {row}", "faint"),)


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


_CELLS = (9, 9, 9, 9, 12)
"""Good, passed first time, leaf yield, per 1,000, unexplained: 60 columns have room for all but
the last."""


def _shown(width: int) -> int:
    used = NAME_CELLS + 2
    shown = 0
    for cells in _CELLS:
        used += cells
        shown += used <= width
    return shown


def _head(name: str, width: int, words: Words) -> list[Line]:
    texts = words.days_columns[: _shown(width)]
    cells = "".join(fit(t, c, "right") for t, c in zip(texts, _CELLS, strict=False))
    return [BLANK, (Span(f" {fit(name, NAME_CELLS)}", "title"), Span(cells, "faint"))]


def _row(name: str, of: Figures, width: int) -> Line:
    texts = (
        thousands(of.good),
        _cell(_share(of.first_pass_yield), 1),
        _cell(_share(of.leaf_yield), 1),
        _cell(of.filler_kg_per_1000_good, 2),
        _cell(of.unexplained_g, 0),
    )[: _shown(width)]
    cells = "".join(figure(text, c) for text, c in zip(texts, _CELLS, strict=False))
    return (Span(f" {fit(name, NAME_CELLS)}", "strong"), Span(cells))


def _cell(value: float | None, places: int) -> str:
    return "" if value is None else thousands(value, places)


def _said(text: str, width: int, *, faint: bool = False) -> list[Line]:
    return [(Span(" "), *row) for row in inked(text, width - 2, "faint" if faint else "plain")]
