"""A bench's checks as lines: readings with their verdicts as they land, and the chart."""

from __future__ import annotations

from collections.abc import Sequence

from core.checks import Window, called
from core.desk.faces import OpenCheck, SeenCheck
from core.desk.figures import fixed, places_of, unit_of
from floor.looks.spans import BLANK, Ink, Line, Span, fit, inked, of_cells, text_of, width_of, wrap
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
    rows = _readings(check, check.places, left, division_g, width, words)
    return [*opened(check, division_g, width, words), *rows]


def opened(check: OpenCheck, division_g: float, width: int, words: Words) -> list[Line]:
    """What the open check is of, how much of it is to come, and its mean so far."""
    left = check.needs - len(check.readings)
    title = f"{words.open_check} {_measured(check, words)}: {words.to_go.format(n=left)}"
    mean = f", {words.mean} {_mean(check, division_g, words)}" if check.readings else ""
    return flowed((Span(title, "strong"), Span(mean)), width)


def _last(check: SeenCheck, division_g: float, width: int, words: Words) -> list[Line]:
    verdict = check.verdict
    places: Sequence[str] = ("",) * len(check.readings) if verdict is None else verdict.places
    rows = _readings(check, places, 0, division_g, width, words)
    return [*judged(check, division_g, width, words), *rows]


def judged(check: SeenCheck, division_g: float, width: int, words: Words) -> list[Line]:
    """When a check was, its mean and its verdict; on more rows where one is too short."""
    mean = _mean(check, division_g, words)
    parts = [
        Span(f"{check.at:%H:%M} {_measured(check, words)} "),
        Span(f"{mean} ", "strong"),
    ]
    verdict = check.verdict
    if verdict is not None:
        state = called(verdict.mean_place, out=verdict.state == "out")
        parts.append(Span(placed(state, check, words), STATE_INKS[state]))
        if verdict.steady is not None:
            parts.append(Span(", " + (words.steady if verdict.steady else words.unsteady)))
    return flowed(tuple(parts), width)


def flowed(told: Line, width: int) -> list[Line]:
    """The line on as many rows as it needs, broken at blanks, its inks kept."""
    if width_of(told) <= width:
        return [told]
    cells = [(sign, span.ink) for span in told for sign in span.text]
    rows: list[Line] = []
    at = 0
    for row in wrap(text_of(told), width):
        at = text_of(told).index(row, at)
        rows.append(tuple(of_cells(cells[at : at + len(row)])))
        at += len(row)
    return rows


def _measured(check: OpenCheck | SeenCheck, words: Words) -> str:
    """What is measured; a portion with its leaf."""
    return " ".join(filter(None, (words.measures[check.measure], check.leaf)))


def placed(place: str, check: OpenCheck | SeenCheck, words: Words) -> str:
    """A place in the measure's own words; on some dials the higher draw is the looser one."""
    low, high = words.lows.get(check.measure), words.highs.get(check.measure)
    if check.draw is not None and check.draw.rises == "looser":
        low, high = high, low
    return {"light": low, "heavy": high}.get(place) or words.states.get(place, place)


def _mean(check: OpenCheck | SeenCheck, division_g: float, words: Words) -> str:
    mean = sum(check.readings) / len(check.readings)
    places = places_of(check.measure, division_g, check.draw)
    return f"{fixed(mean, places)} {words.tell(unit_of(check.measure, check.draw))}"


def _readings(
    check: OpenCheck | SeenCheck,
    places: Sequence[str],
    to_come: int,
    division_g: float,
    width: int,
    words: Words,
) -> list[Line]:
    """Each reading over its verdict; dots for those still to come, with no row below them."""
    decimals = places_of(check.measure, division_g, check.draw)
    cells: list[tuple[str, str, Ink]] = [
        (fixed(reading, decimals), placed(place, check, words), STATE_INKS.get(place, "plain"))
        for reading, place in zip(check.readings, places, strict=True)
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
        if any(word for _, word, _ in part):
            lines.append(tuple(Span(fit(word, n), ink) for (_, word, ink), n in in_their_cells))
    return lines


def chart_block(
    recent: Sequence[SeenCheck], division_g: float, width: int, height: int, words: Words
) -> list[Line]:
    """The day's checks of the last one's kind, where the rows left are enough to draw them.

    Points stand in tolerances, beside the last check's window.
    """
    alike = [c for c in recent if (c.measure, c.leaf) == (recent[-1].measure, recent[-1].leaf)]
    seen = [(c, c.window) for c in alike if c.window]
    if height < LEAST_CHART or not seen:
        return []
    last, window = seen[-1]
    decimals = places_of(last.measure, division_g, last.draw)
    scale = Scale(*(fixed(v, decimals) for v in (window.high, window.target, window.low)))
    deviations = [in_tolerances(check.readings, its_own) for check, its_own in seen]
    title: list[Line] = []
    if height > LEAST_CHART + 1:
        name = words.recent.format(measure=_measured(last, words))
        title = [BLANK, (Span(name, "faint"),)]
    rows = min(height - len(title), TALLEST_CHART)
    return [*title, *chart(deviations, scale, width, rows)]


def in_tolerances(readings: Sequence[float], window: Window) -> float:
    """The mean's distance from target, 1.0 on the upper limit and -1.0 on the lower."""
    deviation = sum(readings) / len(readings) - window.target
    half = window.high - window.target if deviation >= 0 else window.target - window.low
    return deviation / half if half > 0 else 0.0
