"""A bench's checks as lines: readings with their verdicts as they land, and the chart."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from core.checks import Window
from core.desk.faces import OpenCheck, SeenCheck
from core.desk.figures import UNITS, fixed, places_of
from core.measure import Measure
from floor.looks.spans import BLANK, Ink, Line, Span, fit, inked
from floor.looks.trend import Scale, chart
from floor.looks.words import Words
from floor.screens.board_rows import STATE_INKS

LEAST_CHART = 5
TALLEST_CHART = 11


def checks_block(
    open_check: OpenCheck | None,
    recent: Sequence[SeenCheck],
    division_g: float,
    width: int,
    words: Words,
) -> list[Line]:
    """The open check, else the last one, else how to make one."""
    if open_check is not None:
        return _open(open_check, division_g, width, words)
    if recent:
        return _last(recent[-1], division_g, width, words)
    return inked(words.no_check, width)


def _open(check: OpenCheck, division_g: float, width: int, words: Words) -> list[Line]:
    left = check.needs - len(check.readings)
    title = f"{words.open_check} {words.measures[check.measure]}: {words.to_go.format(n=left)}"
    mean = f", {words.mean} {_mean(check.readings, check.measure, division_g)}"
    rows = _readings(check.readings, check.places, left, check.measure, division_g, width, words)
    wide = cell_len(title + mean) <= width
    return [(Span(title, "strong"), Span(mean if wide else "")), *rows]


def _last(check: SeenCheck, division_g: float, width: int, words: Words) -> list[Line]:
    mean = _mean(check.readings, check.measure, division_g)
    parts = [
        Span(f"{check.at:%H:%M} {words.measures[check.measure]} "),
        Span(f"{mean} ", "strong"),
    ]
    places: Sequence[str] = ("",) * len(check.readings)
    verdict = check.verdict
    if verdict is not None:
        places = verdict.places
        parts.append(Span(words.states[verdict.mean_place], STATE_INKS[verdict.mean_place]))
        if verdict.steady is not None:
            parts.append(Span(", " + (words.steady if verdict.steady else words.unsteady)))
    rows = _readings(check.readings, places, 0, check.measure, division_g, width, words)
    return [tuple(parts), *rows]


def _mean(readings: Sequence[float], measure: Measure, division_g: float) -> str:
    mean = sum(readings) / len(readings)
    return f"{fixed(mean, places_of(measure, division_g))} {UNITS[measure]}"


def _readings(
    readings: Sequence[float],
    places: Sequence[str],
    to_come: int,
    measure: Measure,
    division_g: float,
    width: int,
    words: Words,
) -> list[Line]:
    """Each reading over its verdict; dots for those still to come."""
    decimals = places_of(measure, division_g)
    cells: list[tuple[str, str, Ink]] = [
        (fixed(reading, decimals), words.states.get(place, place), STATE_INKS.get(place, "plain"))
        for reading, place in zip(readings, places, strict=True)
    ]
    cells += [("·", "", "faint")] * to_come
    cell = max(len(text) for pair in cells for text in pair[:2]) + 1
    in_a_row = max(1, (width + 1) // cell)
    lines: list[Line] = []
    for start in range(0, len(cells), in_a_row):
        part = cells[start : start + in_a_row]
        sizes = [cell] * (len(part) - 1) + [cell - 1]
        in_their_cells = list(zip(part, sizes, strict=True))
        lines.append(tuple(Span(fit(text, n), "strong") for (text, _, _), n in in_their_cells))
        lines.append(tuple(Span(fit(word, n), ink) for (_, word, ink), n in in_their_cells))
    return lines


def chart_block(
    recent: Sequence[SeenCheck], division_g: float, width: int, height: int, words: Words
) -> list[Line]:
    """The day's checks of the last one's kind, where the rows left are enough to draw them.

    Points stand in tolerances, beside the last check's window.
    """
    seen = [(c, c.window) for c in recent if c.measure == recent[-1].measure and c.window]
    if height < LEAST_CHART or not seen:
        return []
    measure, window = recent[-1].measure, seen[-1][1]
    decimals = places_of(measure, division_g)
    scale = Scale(*(fixed(v, decimals) for v in (window.high, window.target, window.low)))
    deviations = [in_tolerances(check.readings, its_own) for check, its_own in seen]
    title: list[Line] = []
    if height > LEAST_CHART + 1:
        name = words.recent.format(measure=words.measures[measure])
        title = [BLANK, (Span(name, "faint"),)]
    rows = min(height - len(title), TALLEST_CHART)
    return [*title, *chart(deviations, scale, width, rows)]


def in_tolerances(readings: Sequence[float], window: Window) -> float:
    """The mean's distance from target, 1.0 on the upper limit and -1.0 on the lower."""
    deviation = sum(readings) / len(readings) - window.target
    half = window.high - window.target if deviation >= 0 else window.target - window.low
    return deviation / half if half > 0 else 0.0
