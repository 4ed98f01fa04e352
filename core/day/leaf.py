"""Where the day's leaf went, in standard grams: good cigars, seconds, rejects, heavy bunches …"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from core.day.bench import BenchTally, RunKey
from core.day.books import Books, Recipes, bunches
from core.day.checked import Mean
from core.day.entries import SweepEntry
from core.day.errors import leaf_errors
from core.day.leafparts import Cell, Cells, Group, Room, cell, cells_of, grouped
from core.day.moved import Moved
from core.day.offcuts import offcuts, swept
from core.day.report import LeafDay
from core.day.usage import used_by_run
from core.day.weights import At, heavy
from core.day.yields import COVERS
from core.house.model import CoverLeaf, Leaf

ROUNDED = 1 / math.sqrt(12)
"""Standard deviation of a portion rounded to one scale division, in divisions.

A class's portion is rounded alike for every bunch of a vitola, at every bench that rolls it,
so this does not average out.
"""


class Filler(NamedTuple):
    """A run's filler, standard grams: used, in good cigars, and explained by nothing."""

    used_g: float
    in_good_g: float
    unexplained_g: float


class Split(NamedTuple):
    """The day's leaf, whole and apart; the runs that borrow their vitola's mean, or cannot.

    The groups' cells add up to the rows. `filler` is by bench and run, `pieces` what each run
    made; `room.over` is what its heavy or light bunches took beyond target.
    Sweepings are `of_none_g` where no leaf was used: they are in no row.
    """

    rows: tuple[LeafDay, ...]
    groups: Sequence[Group]
    classes: Mapping[str, str]
    room: Room
    leaf_yield: float | None
    filler: Mapping[str, Mapping[RunKey, Filler]]
    pieces: Mapping[At, int]
    means: Mapping[At, Mean]
    borrowed: tuple[At, ...]
    unknown: tuple[At, ...]
    of_none_g: float


def split(
    tallies: Mapping[str, BenchTally], sweepings: Sequence[SweepEntry], books: Books
) -> Split:
    """Split what was used of each leaf; leaves that did not move are left out."""
    recipes = Recipes(books)
    means = _means(tallies)
    made = {
        bench: {key: bunches(run) for key, run in tally.runs.items()}
        for bench, tally in tallies.items()
    }
    pieces = {(bench, key): n for bench, mine in made.items() for key, n in mine.items()}
    over, borrowed, unknown = heavy(pieces, means)
    used = {b: used_by_run(tally, made[b], recipes, books) for b, tally in tallies.items()}
    in_use = _in_use(used.values())
    sweep = swept(sweepings, in_use, books)
    rate = {leaf: g / in_use[leaf] for leaf, g in sweep.grams.items() if leaf in in_use}
    room = Room(recipes, over, rate)
    cells: dict[At, dict[str, Cell]] = {}
    for bench, tally in tallies.items():
        cells |= cells_of(bench, tally.runs, used[bench], offcuts(tally, books), room)
    classes = {code: _class(leaf) for code, leaf in _leaves(books).items()}
    groups = [
        *grouped(cells),
        *(
            Group(None, "", "", (), {leaf: cell(0.0, sweepings=grams)})
            for leaf, grams in sweep.grams.items()
            if leaf not in in_use
        ),
    ]
    moves = _moved(tallies.values())
    whole = _whole(groups, moves, classes, pieces, room, means, books)
    filler = [each for each in whole if each.leaf_class not in COVERS]
    used_g = math.fsum(each.used_standard_g for each in filler)
    return Split(
        rows=tuple(whole),
        groups=groups,
        classes=classes,
        room=room,
        leaf_yield=math.fsum(r.in_good_g for r in filler) / used_g if used_g > 0 else None,
        filler=_filler(cells, tallies, classes),
        pieces=pieces,
        means=means,
        borrowed=borrowed,
        unknown=unknown,
        of_none_g=sweep.of_none_g,
    )


def _means(tallies: Mapping[str, BenchTally]) -> dict[At, Mean]:
    """How heavy the bunches of each run were, where its checks tell."""
    return {
        (bench, run): checked.mean
        for bench, tally in tallies.items()
        for run, checked in tally.checked.items()
        if checked.mean is not None
    }


def _in_use(used: Iterable[Mapping[RunKey, Mapping[str, float]]]) -> dict[str, float]:
    """Each leaf's use, over the runs that used any of it."""
    found: dict[str, float] = {}
    for of_bench in used:
        for of_run in of_bench.values():
            for leaf, grams in of_run.items():
                if grams > 0:
                    found[leaf] = found.get(leaf, 0.0) + grams
    return found


def _leaves(books: Books) -> dict[str, Leaf]:
    """Every leaf the day may have moved, in the house book's order, those since dropped last."""
    found = dict(books.now.leaf)
    for version in sorted(books.standards):
        found |= {c: leaf for c, leaf in books.versions[version].leaf.items() if c not in found}
    return found


def _class(leaf: Leaf) -> str:
    return leaf.use if isinstance(leaf, CoverLeaf) else leaf.leaf_class


def _filler(
    cells: Cells, benches: Iterable[str], classes: Mapping[str, str]
) -> dict[str, dict[RunKey, Filler]]:
    covers = {leaf for leaf, leaf_class in classes.items() if leaf_class in COVERS}
    found: dict[str, dict[RunKey, Filler]] = {bench: {} for bench in benches}
    for (bench, key), of_leaf in cells.items():
        mine = [one for leaf, one in of_leaf.items() if leaf not in covers]
        found[bench][key] = Filler(
            math.fsum([one.used_standard_g for one in mine]),
            math.fsum([one.in_good_g for one in mine]),
            math.fsum([one.unexplained_g for one in mine]),
        )
    return found


def _moved(benches: Iterable[BenchTally]) -> dict[str, Moved]:
    """What all benches took and gave back, by leaf."""
    found: dict[str, list[Moved]] = {}
    for bench in benches:
        for leaf, one in bench.moved.items():
            found.setdefault(leaf, []).append(one)
    return {leaf: Moved(*map(sum, zip(*mine, strict=True))) for leaf, mine in found.items()}


def _whole(
    groups: Iterable[Group],
    moves: Mapping[str, Moved],
    classes: Mapping[str, str],
    pieces: Mapping[At, int],
    room: Room,
    means: Mapping[At, Mean],
    books: Books,
) -> list[LeafDay]:
    """The rows that the groups add up to, in the order of `classes`."""
    of_leaf: dict[str, list[Cell]] = {}
    for group in groups:
        for leaf, one in group.cells.items():
            of_leaf.setdefault(leaf, []).append(one)
    made: dict[RunKey, int] = {}
    for (_, key), n in pieces.items():
        made[key] = made.get(key, 0) + n
    errors = leaf_errors(room.over, means, room.recipes)
    found: list[LeafDay] = []
    # A leaf may be issued and wholly returned: nothing is left of it in any group.
    for leaf in dict.fromkeys((*classes, *of_leaf)):
        if leaf in of_leaf or leaf in moves:
            error = errors.get(leaf)
            told = None
            if error is not None:
                told = 2 * math.hypot(error, *_rounding(leaf, made, room.recipes, books))
            mine, leaf_class = of_leaf.get(leaf, []), classes.get(leaf, "")
            moved = moves.get(leaf, Moved())
            found.append(_row(leaf, leaf_class, moved, mine, error, told, books.closed))
    return found


def _rounding(leaf: str, made: Mapping[RunKey, int], recipes: Recipes, books: Books) -> list[float]:
    """What the rounding of portions may add up to, grams, over all bunches of each vitola."""
    return [
        n * books.versions[key.house].house.scale_division_g * ROUNDED
        for key, n in made.items()
        if leaf in recipes[key].laid
    ]


def _row(
    leaf: str,
    leaf_class: str,
    moved: Moved,
    cells: Sequence[Cell],
    error: float | None,
    told: float | None,
    closed: bool,
) -> LeafDay:
    grams = dict.fromkeys(Cell._fields, 0.0)
    grams |= zip(Cell._fields, map(math.fsum, zip(*cells, strict=True)), strict=False)
    unexplained = grams["unexplained_g"]
    open_still = unexplained > 0 and not closed
    return LeafDay(
        leaf=leaf,
        leaf_class=leaf_class,
        issued_g=moved.issued_g,
        returned_g=moved.returned_g,
        heavy_se_g=error,
        beyond=told is not None and not open_still and abs(unexplained) > told,
        **grams,
    )
