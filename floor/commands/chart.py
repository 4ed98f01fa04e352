"""`chart`: a bench's control chart as figures, and what they say."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from core.control.capability import Capability, Unjudged, fit
from core.desk.advice import FITS
from core.desk.dates import short_date
from core.desk.faces import BenchChart, ChartPoint
from core.desk.figures import fixed, places_of, unit_of
from core.desk.picture import chart_svg
from core.house.numbering import bench_json
from core.say import joined, say, say_as
from core.sketch.chart import signed
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.words import word
from floor.commands.written import write_new

SHOWN = 20
"""The last checks printed; --json has them all."""
_SOURCES = {
    "bench": say("limits from {n} checks of this bench; one reading spreads {sigma}"),
    "few": say("limits from only {n} checks of this bench; one reading spreads {sigma}"),
    "house": say(
        "limits from the spread of the whole house: {n} checks of this bench so far; one "
        "reading spreads {sigma}"
    ),
}
_UNJUDGED = {
    "too_few": say("capability: too few readings to judge, {n} of 30"),
    "no_spread": say("capability: {n} readings do not differ at all"),
}


def run(args: argparse.Namespace) -> int:
    """Print a bench's chart, as of now or as of `--at`."""
    with setting(args) as place:
        desk = place.desk(question=True)
        tell_damage(desk.damaged)
        chart = desk.chart(args.bench, args.measure)
        if args.svg is not None:
            write_new(Path(args.svg), chart_svg(chart, out.tell))
            out.result(say("bench {bench}'s chart is in {file}", bench=chart.bench, file=args.svg))
        elif args.json:
            out.json(_json(chart))
        else:
            for line in _lines(chart):
                out.result(line)
    return 0


def _lines(chart: BenchChart) -> Iterator[str]:
    places, unit = places_of(chart.measure, chart.division, chart.draw) + 1, _unit(chart)
    yield say(
        "bench {bench}: {vitola} of {blend}, {measure}, deviations from target in {unit}",
        bench=chart.bench,
        vitola=chart.vitola,
        blend=chart.blend,
        measure=word(chart.measure),
        unit=word(unit),
    )
    yield say(
        "window {low} to {high}", low=signed(chart.low, places), high=signed(chart.high, places)
    )
    if chart.source is not None and chart.sigma is not None:
        sigma = fixed(chart.sigma, places)
        yield _SOURCES[chart.source].format(n=chart.baseline, sigma=sigma)
    if chart.points:
        head = (
            *(say("day"), say("time"), "n", say("mean"), say("mean min"), say("mean max")),
            *_SPREAD[chart.spread],
            *(say_as("column", "running"), say_as("column", "broke")),
        )
        rows = [head, *(_row(point, places) for point in chart.points[-SHOWN:])]
        yield out.table(rows, right=frozenset({0, *range(2, 9)}))
    yield from (say("look: {says}", says=says) for says in (*chart.broken, *chart.found))
    yield chart.advice
    yield _capability(chart.capability)


def _row(point: ChartPoint, places: int) -> tuple[str, ...]:
    return (
        short_date(point.day),
        f"{point.at:%H:%M}",
        str(point.readings),
        signed(point.deviation, places),
        signed(point.low, places),
        signed(point.high, places),
        "" if point.spread is None else fixed(point.spread, places),
        "" if point.spread_high is None else fixed(point.spread_high, places),
        signed(point.ewma, places),
        joined(", ", map(word, point.broke)),
    )


def _unit(chart: BenchChart) -> str:
    return unit_of(chart.measure, chart.draw)


def _capability(found: Capability | Unjudged) -> str:
    if isinstance(found, Unjudged):
        return _UNJUDGED[found.why].format(n=found.readings)
    cp, cpk = (
        say("{name} {value:.2f} ({low:.2f} to {high:.2f})", name=name, **of._asdict())
        for name, of in (("Cp", found.cp), ("Cpk", found.cpk))
    )
    return say(
        "{fits}; capability of {n} readings: {cp}, {cpk}, Ppk {ppk:.2f}",
        fits=FITS[fit(found)],
        n=found.readings,
        cp=cp,
        cpk=cpk,
        ppk=found.ppk,
    )


_SPREAD = {
    "deviation": (say("spread"), say("spread max")),
    "range": (say("range"), say("range max")),
}


def _json(chart: BenchChart) -> dict[str, Any]:
    judged = chart.judged
    return {
        "bench": bench_json(chart.bench),
        "vitola": chart.vitola,
        "blend": chart.blend,
        "measure": chart.measure,
        "unit": _unit(chart),
        "window": {"low": chart.low, "high": chart.high},
        "limits": {"source": chart.source, "checks": chart.baseline, "sigma": chart.sigma},
        "spread": chart.spread,
        "points": [_point(point) for point in chart.points],
        "broken": chart.broken,
        "capability": _capability_json(chart.capability),
        "verdict": judged.verdict,
        "off": None if judged.per_bunch is None else judged.per_bunch._asdict(),
        "filler_a_week_g": None if judged.per_week is None else judged.per_week._asdict(),
        "advice": chart.advice,
        "found": chart.found,
    }


def _point(point: ChartPoint) -> dict[str, Any]:
    return {
        "at": point.at.isoformat(),
        "day": point.day.isoformat(),
        "entry": point.check,
        "readings": point.readings,
        "deviation": point.deviation,
        "low": point.low,
        "high": point.high,
        "spread": point.spread,
        "spread_high": point.spread_high,
        "ewma": point.ewma,
        "ewma_low": point.ewma_low,
        "ewma_high": point.ewma_high,
        "broke": point.broke,
    }


def _capability_json(found: Capability | Unjudged) -> dict[str, Any]:
    if isinstance(found, Unjudged):
        return found._asdict()
    return found._asdict() | {"cp": found.cp._asdict(), "cpk": found.cpk._asdict()}
