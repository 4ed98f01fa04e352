"""The day's leaf apart: each leaf of each thing a bench rolled, and what became of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
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
    """A leaf of a run: what was used, and where it is known to have gone (standard grams)."""

    used: float
    in_good: float = 0.0
    in_seconds: float = 0.0
    rejects: float = 0.0
    heavy: float = 0.0
    cuttings: float = 0.0
    stem: float = 0.0
    sweepings: float = 0.0

    @property
    def unexplained(self) -> float:
        used, in_good, in_seconds, rejects, heavy, cuttings, stem, sweepings = self
        return used - (in_good + in_seconds + rejects + heavy + cuttings + stem + sweepings)


Cells = Mapping[At, Mapping[str, Cell]]


class Room(NamedTuple):
    """What the cells of all benches share in."""

    recipes: Recipes
    over: Mapping[At, Weighed]
    swept: Mapping[str, float]
    """Sweepings of each leaf, grams for each gram that benches used of it."""


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
    found = {}
    for leaf, (grams, share) in laid.items():
        mine = used.get(leaf, 0.0)
        found[leaf] = Cell(
            mine,
            grams * good,
            grams * second,
            grams * lost,
            share * over_g,
            cuttings.get(leaf, 0.0),
            stem.get(leaf, 0.0),
            mine * room.swept.get(leaf, 0.0) if mine > 0 else 0.0,
        )
    for leaf in (*used, *cuttings, *stem):
        if leaf not in found:
            mine = used.get(leaf, 0.0)
            found[leaf] = Cell(
                mine,
                cuttings=cuttings.get(leaf, 0.0),
                stem=stem.get(leaf, 0.0),
                sweepings=mine * room.swept.get(leaf, 0.0) if mine > 0 else 0.0,
            )
    return found


def rows(
    cells: Cells, classes: Mapping[str, str], room: Room, means: Mapping[At, Mean]
) -> list[LeafPart]:
    """A row for each bench, blend, vitola and leaf; those of several house books together.

    Leaves of which nothing is known to have been used, or gone anywhere, are left out.
    """
    groups: dict[tuple[str, str, str], list[At]] = {}
    for at in cells:
        groups.setdefault((at[0], at[1].blend, at[1].vitola), []).append(at)
    found: list[LeafPart] = []
    for (bench, blend, vitola), ats in groups.items():
        name, error = bench_json(bench), _error(ats, room, means)
        laid = room.recipes[ats[-1][1]].laid
        for leaf, cell in _together([cells[at] for at in ats]).items():
            if any(cell):
                share = laid[leaf].share if leaf in laid else 0.0
                se = None if error is None or not share else share * error
                leaf_class = classes.get(leaf, "")
                found.append(row(name, blend, vitola, leaf, leaf_class, cell, se))
    return found


def _error(ats: Sequence[At], room: Room, means: Mapping[At, Mean]) -> float | None:
    """Standard error of a group's filler beyond target."""
    weighed = [room.over[at] for at in ats if at in room.over]
    if len(weighed) == 1:
        return error_alone(weighed[0], means)
    return error_of([(one, 1.0) for one in weighed], means)


def _together(of_runs: Sequence[Mapping[str, Cell]]) -> Mapping[str, Cell]:
    if len(of_runs) == 1:
        return of_runs[0]
    found: dict[str, list[Cell]] = {}
    for of_run in of_runs:
        for leaf, cell in of_run.items():
            found.setdefault(leaf, []).append(cell)
    return {leaf: Cell(*map(fsum, zip(*mine, strict=True))) for leaf, mine in found.items()}


def row(
    bench: int | str | None,
    blend: str,
    vitola: str,
    leaf: str,
    leaf_class: str,
    cell: Cell,
    heavy_se_g: float | None,
) -> LeafPart:
    """A cell as a row of the report; what nothing explains is what is left of it."""
    used, in_good, in_seconds, rejects, heavy, cuttings, stem, sweepings = cell
    explained = in_good + in_seconds + rejects + heavy + cuttings + stem + sweepings
    return LeafPart(
        bench, blend, vitola, leaf, leaf_class, used, in_good, in_seconds, rejects, heavy,
        heavy_se_g, cuttings, stem, sweepings, used - explained,
    )  # fmt: skip
