"""Run rules: patterns that points in control seldom make."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise
from operator import attrgetter
from typing import Literal, NamedTuple

from core.control.chart import Point

Rule = Literal["beyond", "two_of_three", "four_of_five", "one_side", "run"]
RULES: tuple[Rule, ...] = ("beyond", "two_of_three", "four_of_five", "one_side", "run")
"""Beyond a limit; 2 of 3 beyond 2σ; 4 of 5 beyond 1σ; 8 on one side; 6 rising or falling."""

Side = Literal["high", "low"]

_Zone = tuple[Rule, float, int, int]
_ZONES: tuple[_Zone, ...] = (
    ("two_of_three", 2.0, 2, 3),
    ("four_of_five", 1.0, 4, 5),
    ("one_side", 0.0, 8, 8),
)
"""A rule, the σ beyond which it counts, how many points, among how many."""
_STEPS = 5


class Break(NamedTuple):
    """A rule broken: by points `since` to `at` (places in the chart, from 0), on which side."""

    rule: Rule
    since: int
    at: int
    side: Side


def breaks(points: Sequence[Point | None], rules: Collection[Rule]) -> tuple[Break, ...]:
    """Every break of the chosen rules, in time order: one for each point that completes one.

    Limits may differ from point to point; places without a point are passed over. The first
    four are Western Electric's (Statistical Quality Control Handbook, 1956; ISO 7870-2), and
    the completing point lies in the zone itself; `run` has six points, which is five steps.
    They are made for means: of a spread, whose chances are lopsided, ask `beyond` alone.
    """
    places = [place for place, point in enumerate(points) if point is not None]
    there = [point for point in points if point is not None]
    found = [*_beyond(there)] if "beyond" in rules else []
    zones = [zone for zone in _ZONES if zone[0] in rules]
    if zones:
        heights = [(value - centre) / error for value, centre, error, _, _ in there]
        found += _zones(heights, zones)
    if "run" in rules:
        found += _run([point.value for point in there])
    found.sort(key=attrgetter("at"))
    return tuple([Break(rule, places[a], places[b], side) for rule, a, b, side in found])


def _beyond(points: Sequence[Point]) -> Iterator[Break]:
    for at, (value, _, _, low, high) in enumerate(points):
        if not low <= value <= high:
            yield Break("beyond", at, at, "high" if value > high else "low")


def _zones(heights: Sequence[float], zones: Sequence[_Zone]) -> Iterator[Break]:
    highest, lowest = max(heights, default=0.0), min(heights, default=0.0)
    for rule, sigmas, count, among in zones:
        if highest > sigmas:
            above = [at for at, height in enumerate(heights) if height > sigmas]
            for first, last in _close(above, count, among):
                yield Break(rule, first, last, "high")
        if lowest < -sigmas:
            below = [at for at, height in enumerate(heights) if height < -sigmas]
            for first, last in _close(below, count, among):
                yield Break(rule, first, last, "low")


def _run(values: Sequence[float]) -> Iterator[Break]:
    rising = [at for at, (before, after) in enumerate(pairwise(values)) if after > before]
    for first, last in _close(rising, _STEPS, _STEPS):
        yield Break("run", first, last + 1, "high")
    falling = [at for at, (before, after) in enumerate(pairwise(values)) if after < before]
    for first, last in _close(falling, _STEPS, _STEPS):
        yield Break("run", first, last + 1, "low")


def _close(places: Sequence[int], count: int, among: int) -> Iterator[tuple[int, int]]:
    """First and last of any `count` places that lie within `among` in a row."""
    for first, last in zip(places, places[count - 1 :], strict=False):
        if last - first < among:
            yield first, last
