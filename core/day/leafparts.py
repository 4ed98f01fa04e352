"""The day's leaf apart: each leaf of each thing a bench rolled, and what became of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import fsum
from typing import NamedTuple

from core.day.bench import Run, RunKey
from core.day.books import Recipes
from core.day.checked import Mean
from core.day.offcuts import Offcuts
from core.day.report import LeafPart
from core.day.weights import At, Weighed, error_alone, error_of
from core.house.numbering import bench_json


class Cell(NamedTuple):
    """What was used of a leaf, and where it went, standard grams.

    The fields are columns of the report; what nothing explains is what is left.
    """

    used_standard_g: float
    in_good_g: float
    in_seconds_g: float
    rejects_g: float
    heavy_g: float
    cuttings_g: float
    stem_g: float
    sweepings_g: float
    unexplained_g: float


def cell(
    used: float,
    in_good: float = 0.0,
    in_seconds: float = 0.0,
    rejects: float = 0.0,
    heavy: float = 0.0,
    cuttings: float = 0.0,
    stem: float = 0.0,
    sweepings: float = 0.0,
) -> Cell:
    """A leaf's cell, standard grams, from what is known of it."""
    explained = in_good + in_seconds + rejects + heavy + cuttings + stem + sweepings
    rest = used - explained
    return Cell(used, in_good, in_seconds, rejects, heavy, cuttings, stem, sweepings, rest)


Cells = Mapping[At, Mapping[str, Cell]]


class Room(NamedTuple):
    """What the cells of all benches share in."""

    recipes: Recipes
    over: Mapping[At, Weighed]
    swept: Mapping[str, float]
    """Sweepings of each leaf, grams for each gram that benches used of it."""


class Group(NamedTuple):
    """A bench's runs of one blend and vitola, by several house books, and their leaf together.

    The bench is None of leaf that none used; leaf of which nothing is known is left out.
    """

    bench: str | None
    blend: str
    vitola: str
    runs: Sequence[At]
    cells: Mapping[str, Cell]


def cells_of(
    bench: str,
    runs: Mapping[RunKey, Run],
    used: Mapping[RunKey, Mapping[str, float]],
    cut: Offcuts,
    room: Room,
) -> dict[At, dict[str, Cell]]:
    """A bench's cells: whatever it rolled, used or cut of a leaf."""
    return {
        (bench, key): _of_run((bench, key), runs.get(key, Run()), used.get(key, {}), cut, room)
        for key in dict.fromkeys((*runs, *used, *cut.cuttings, *cut.stem))
    }


def _of_run(
    at: At, run: Run, used: Mapping[str, float], cut: Offcuts, room: Room
) -> dict[str, Cell]:
    cuttings, stem = cut.cuttings.get(at[1], {}), cut.stem.get(at[1], {})
    laid = room.recipes[at[1]].laid
    good, second, lost = run.good, run.second, run.lost
    over_g = room.over[at].grams if at in room.over else 0.0
    swept = room.swept
    found = {}
    for leaf, (grams, share) in laid.items():
        mine = used.get(leaf, 0.0)
        found[leaf] = cell(
            mine,
            grams * good,
            grams * second,
            grams * lost,
            share * over_g,
            cuttings.get(leaf, 0.0),
            stem.get(leaf, 0.0),
            mine * swept[leaf] if leaf in swept and mine > 0 else 0.0,
        )
    for leaf in (*used, *cuttings, *stem):
        if leaf not in found:
            mine = used.get(leaf, 0.0)
            found[leaf] = cell(
                mine,
                cuttings=cuttings.get(leaf, 0.0),
                stem=stem.get(leaf, 0.0),
                sweepings=mine * swept[leaf] if leaf in swept and mine > 0 else 0.0,
            )
    return found


def grouped(cells: Cells) -> list[Group]:
    """The cells by bench, blend and vitola; those of several house books together."""
    groups: dict[tuple[str, str, str], list[At]] = {}
    for at in cells:
        bench, (_, blend, vitola) = at
        groups.setdefault((bench, blend, vitola), []).append(at)
    return [
        Group(*kind, ats, _known(cells[ats[0]] if len(ats) == 1 else _together(cells, ats)))
        for kind, ats in groups.items()
    ]


def _known(cells: Mapping[str, Cell]) -> dict[str, Cell]:
    return {leaf: one for leaf, one in cells.items() if any(one)}


def _together(cells: Cells, ats: Iterable[At]) -> dict[str, Cell]:
    found: dict[str, list[Cell]] = {}
    for at in ats:
        for leaf, one in cells[at].items():
            found.setdefault(leaf, []).append(one)
    known = {leaf: zip(*(one[:-1] for one in mine), strict=True) for leaf, mine in found.items()}
    return {leaf: cell(*map(fsum, columns)) for leaf, columns in known.items()}


def parts(
    groups: Iterable[Group], classes: Mapping[str, str], room: Room, means: Mapping[At, Mean]
) -> list[LeafPart]:
    """A row of the report for each leaf of each group."""
    found: list[LeafPart] = []
    for bench, blend, vitola, runs, cells in groups:
        name = None if bench is None else bench_json(bench)
        error = _error(runs, room, means)
        laid = room.recipes[runs[-1][1]].laid if runs else {}
        for leaf, one in cells.items():
            share = laid[leaf].share if leaf in laid else 0.0
            se = None if error is None or not share else share * error
            used, good, seconds, rejects, heavy, cuttings, stem, sweepings, rest = one
            found.append(
                LeafPart(
                    name, blend, vitola, leaf, classes.get(leaf, ""), used, good, seconds,
                    rejects, heavy, se, cuttings, stem, sweepings, rest,
                )
            )  # fmt: skip
    return found


def _error(runs: Iterable[At], room: Room, means: Mapping[At, Mean]) -> float | None:
    """Standard error of a group's filler beyond target."""
    weighed = [room.over[at] for at in runs if at in room.over]
    if len(weighed) == 1:
        return error_alone(weighed[0], means)
    return error_of([(one, 1.0) for one in weighed], means)
