"""Where the day's leaf went, in standard grams: good cigars, rejects, heavy bunches, cuttings."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import NamedTuple

from core.day.bench import BenchTally, Run, RunKey
from core.day.checked import Mean
from core.day.entries import LeafEntry, ScrapEntry
from core.day.report import LeafDay
from core.day.weights import At, Weighed, error_of, heavy
from core.day.yields import COVERS
from core.house.model import CoverLeaf, HouseBook, Leaf
from core.recipe.moisture import at_standard


class Moved(NamedTuple):
    """Leaf issued and returned as weighed, and used at standard moisture (grams)."""

    issued_g: float = 0.0
    returned_g: float = 0.0
    used_g: float = 0.0

    def __add__(self, other: tuple[float, ...]) -> Moved:  # type: ignore[override]
        return Moved(*(mine + its for mine, its in zip(self, other, strict=True)))


ROUNDED = 1 / math.sqrt(12)
"""Standard deviation of a portion rounded to one scale division, in divisions.

A class's portion is rounded alike for every bunch of a run, so this does not average out.
"""


class Books(NamedTuple):
    """The house-book versions the day's entries name, and the one now in force.

    Until the day is `closed`, leaf that is not yet explained may still lie on the benches.
    """

    versions: Mapping[int, HouseBook]
    now: HouseBook
    closed: bool
    packed: Callable[[RunKey], float]
    """Filler per bunch, standard grams, of what was rolled."""

    def standard_g(self, entry: LeafEntry | ScrapEntry) -> float:
        """The entry's grams at the standard moisture of the house book it was made under."""
        standard = self.versions[entry["house"]].house.standard_moisture
        return at_standard(entry["grams"], standard, entry["moisture"])

    def shares(self, entry: ScrapEntry) -> Mapping[str, float]:
        """The shares of the blend that the cuttings come from."""
        blend = self.versions[entry["house"]].blend.get(entry["blend"])
        return blend.shares if blend else {}

    def pieces_g(self, run: RunKey, leaf: str) -> float:
        """A cover's issue for one piece of the run, standard grams; 0 where it has no such."""
        cover = self.versions[run.house].cover.get(leaf)
        return cover.pieces * cover.half_leaf_g if cover and self.covered_by(run, leaf) else 0.0

    def share(self, run: RunKey, leaf: str) -> float:
        """The leaf's share of the run's filler; 0 where its blend has none of it."""
        blend = self.versions[run.house].blend.get(run.blend)
        return blend.shares.get(leaf, 0.0) if blend else 0.0

    def covered_by(self, run: RunKey, leaf: str) -> bool:
        """Whether the run's binder or wrapper is this leaf."""
        blend = self.versions[run.house].blend.get(run.blend)
        return blend is not None and leaf in (blend.binder, blend.wrapper)


class Split(NamedTuple):
    """The day's leaf, whole and by bench; the runs that borrow their vitola's mean, or cannot."""

    rows: tuple[LeafDay, ...]
    leaf_yield: float | None
    moved: Mapping[tuple[str, str], Moved]
    borrowed: tuple[At, ...]
    unknown: tuple[At, ...]


def split(tallies: Mapping[str, BenchTally], books: Books) -> Split:
    """Split what was used of each leaf; leaves that did not move are left out."""
    runs = {(b, key): run for b, tally in tallies.items() for key, run in tally.runs.items()}
    means = _means(tallies)
    over, borrowed, unknown = heavy({at: bunches(run) for at, run in runs.items()}, means)
    moved = _moves(tallies, books)
    totals = _by_leaf(moved)
    cuttings = _cuttings(tallies, moved, books)
    rows: list[LeafDay] = []
    for code, leaf in _leaves(tallies, books).items():
        total = totals.get(code, Moved())
        cut = cuttings.get(code, 0.0)
        row = (
            _cover(leaf, runs, total, cut, books)
            if isinstance(leaf, CoverLeaf)
            else _filler(code, leaf.leaf_class, runs, over, means, total, cut, books)
        )
        if any((row.issued_g, row.returned_g, row.in_good_g, row.rejects_g, row.cuttings_g)):
            rows.append(row)
    filler = [row for row in rows if row.leaf_class not in COVERS]
    used = sum(row.used_standard_g for row in filler)
    leaf_yield = sum(row.in_good_g for row in filler) / used if used > 0 else None
    return Split(tuple(rows), leaf_yield, moved, borrowed, unknown)


def _means(tallies: Mapping[str, BenchTally]) -> dict[At, Mean]:
    """How heavy the bunches of each run were, where its checks tell."""
    return {
        (bench, run): checked.mean
        for bench, tally in tallies.items()
        for run, checked in tally.checked.items()
        if checked.mean is not None
    }


def _by_leaf(moved: Mapping[tuple[str, str], Moved]) -> dict[str, Moved]:
    totals: dict[str, Moved] = {}
    for (_, leaf), one in moved.items():
        totals[leaf] = totals.get(leaf, Moved()) + one
    return totals


def bunches(run: Run) -> int:
    """Bunches made: as counted, or as many as there must have been for what was inspected."""
    return max(run.made, run.good + run.lost)


def _leaves(tallies: Mapping[str, BenchTally], books: Books) -> dict[str, Leaf]:
    """Every leaf the day may have moved, in the house book's order, those since dropped last."""
    named = {key.house for tally in tallies.values() for key in tally.runs}
    named |= {entry["house"] for tally in tallies.values() for entry in tally.leaf}
    found = dict(books.now.leaf)
    for version in sorted(named):
        found |= {c: leaf for c, leaf in books.versions[version].leaf.items() if c not in found}
    return found


def _filler(
    code: str,
    leaf_class: str,
    runs: Mapping[At, Run],
    over: Mapping[At, Weighed],
    means: Mapping[At, Mean],
    moved: Moved,
    cuttings_g: float,
    books: Books,
) -> LeafDay:
    in_good = rejects = beyond_target = 0.0
    weighed: list[tuple[Weighed, float]] = []
    rounding: list[float] = []
    for at, run in runs.items():
        share = books.share(at[1], code)
        if share == 0.0:
            continue
        portion_g = books.packed(at[1]) * share
        in_good += portion_g * run.good
        rejects += portion_g * run.lost
        rounding.append(bunches(run) * books.now.house.scale_division_g * ROUNDED)
        if at in over:
            beyond_target += share * over[at].grams
            weighed.append((over[at], share))
    unexplained = moved.used_g - in_good - rejects - beyond_target - cuttings_g
    error = error_of(weighed, means)
    told = None if error is None else 2 * math.hypot(error, *rounding)
    open_still = unexplained > 0 and not books.closed
    return LeafDay(
        leaf=code,
        leaf_class=leaf_class,
        issued_g=moved.issued_g,
        returned_g=moved.returned_g,
        used_standard_g=moved.used_g,
        in_good_g=in_good,
        rejects_g=rejects,
        heavy_g=beyond_target,
        heavy_se_g=error,
        cuttings_g=cuttings_g,
        unexplained_g=unexplained,
        beyond=told is not None and not open_still and abs(unexplained) > told,
    )


def _cover(
    leaf: CoverLeaf, runs: Mapping[At, Run], moved: Moved, cuttings_g: float, books: Books
) -> LeafDay:
    """A binder or wrapper goes by whole pieces; nothing is said of weights never checked."""
    in_good = sum(books.pieces_g(at[1], leaf.code) * run.good for at, run in runs.items())
    rejects = sum(books.pieces_g(at[1], leaf.code) * run.lost for at, run in runs.items())
    return LeafDay(
        leaf=leaf.code,
        leaf_class=leaf.use,
        issued_g=moved.issued_g,
        returned_g=moved.returned_g,
        used_standard_g=moved.used_g,
        in_good_g=in_good,
        rejects_g=rejects,
        heavy_g=0.0,
        heavy_se_g=None,
        cuttings_g=cuttings_g,
        unexplained_g=moved.used_g - in_good - rejects - cuttings_g,
        beyond=False,
    )


def _moves(tallies: Mapping[str, BenchTally], books: Books) -> dict[tuple[str, str], Moved]:
    """What each bench took and gave back of each leaf."""
    found: dict[tuple[str, str], Moved] = {}
    for bench, tally in tallies.items():
        for entry in tally.leaf:
            at = (bench, entry["leaf"])
            grams = books.standard_g(entry)
            one = (
                Moved(entry["grams"], 0.0, grams)
                if entry["kind"] == "take"
                else Moved(0.0, entry["grams"], -grams)
            )
            found[at] = found.get(at, Moved()) + one
    return found


def _cuttings(
    tallies: Mapping[str, BenchTally], moved: Mapping[tuple[str, str], Moved], books: Books
) -> dict[str, float]:
    """Cuttings by leaf: as told, else shared by what the bench used, else by its blend."""
    found: dict[str, float] = {}
    for bench, tally in tallies.items():
        for entry in tally.scrap:
            grams = books.standard_g(entry)
            if "leaf" in entry:
                mix: Mapping[str, float] = {entry["leaf"]: 1.0}
            else:
                mix = _mix(bench, books.shares(entry), moved)
            for leaf, share in mix.items():
                found[leaf] = found.get(leaf, 0.0) + share * grams
    return found


def _mix(
    bench: str, shares: Mapping[str, float], moved: Mapping[tuple[str, str], Moved]
) -> Mapping[str, float]:
    used = {leaf: max(0.0, moved.get((bench, leaf), Moved()).used_g) for leaf in shares}
    total = sum(used.values())
    return {leaf: grams / total for leaf, grams in used.items()} if total > 0 else shares
