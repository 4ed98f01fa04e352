"""A bench's checks as lines: readings with their verdicts as they land, and the chart."""

from __future__ import annotations

from collections.abc import Sequence

from core.checks import Window
from core.day.entries import Measure
from core.desk.faces import OpenCheck, SeenCheck
from core.desk.figures import UNITS, fixed, places_of
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
    height: int,
    words: Words,
) -> list[Line]:
    """The open check, else the last one; and the day's chart in the rows that are left."""
    if open_check is not None:
        lines = _open(open_check, division_g, width, words)
    elif recent:
        lines = _last(recent[-1], division_g, width, words)
    else:
        return inked(words.no_check, width)
    room = height - len(lines)
    if room >= LEAST_CHART and recent:
        lines += _chart(recent, division_g, width, min(room, TALLEST_CHART), words)
    return lines


def _open(check: OpenCheck, division_g: float, width: int, words: Words) -> list[Line]:
    left = check.needs - len(check.readings)
    title = f"{words.open_check}, {words.measures[check.measure]}: {words.to_go.format(n=left)}"
    mean = _mean(check.readings, check.measure, division_g)
    return [
        (Span(title, "strong"), Span(f"   {words.mean} {mean}")),
        *_readings(check.readings, check.places, left, check.measure, division_g, width, words),
    ]


def _last(check: SeenCheck, division_g: float, width: int, words: Words) -> list[Line]:
    time = words.last_check.format(time=f"{check.at:%H:%M}")
    title = f"{time}, {words.measures[check.measure]}"
    verdict = check.verdict
    mean = _mean(check.readings, check.measure, division_g)
    places = verdict.places if verdict else ("",) * len(check.readings)
    parts = [Span(f"{title}: ", "strong"), Span(f"{words.mean} {mean} ")]
    if verdict is not None:
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
    in_a_row = max(1, width // cell)
    lines: list[Line] = []
    for start in range(0, len(cells), in_a_row):
        part = cells[start : start + in_a_row]
        lines.append(tuple(Span(fit(figure, cell), "strong") for figure, _, _ in part))
        lines.append(tuple(Span(fit(word, cell), ink) for _, word, ink in part))
    return lines


def _chart(
    recent: Sequence[SeenCheck], division_g: float, width: int, height: int, words: Words
) -> list[Line]:
    """The day's checks of the last one's kind, in tolerances, beside the last one's window."""
    measure = recent[-1].measure
    seen = [(c, c.window) for c in recent if c.measure == measure and c.window is not None]
    if not seen:
        return []
    window = seen[-1][1]
    decimals = places_of(measure, division_g)
    scale = Scale(*(fixed(v, decimals) for v in (window.high, window.target, window.low)))
    deviations = [in_tolerances(check.readings, window) for check, window in seen]
    title = [BLANK] if height > LEAST_CHART + 1 else []
    if height > LEAST_CHART + 1:
        name = words.recent.format(measure=words.measures[measure])
        title.append((Span(name, "faint"),))
    return [*title, *chart(deviations, scale, width, height - len(title))]


def in_tolerances(readings: Sequence[float], window: Window) -> float:
    """The mean's distance from target, 1.0 on the upper limit and -1.0 on the lower."""
    deviation = sum(readings) / len(readings) - window.target
    half = window.high - window.target if deviation >= 0 else window.target - window.low
    return deviation / half if half > 0 else 0.0
