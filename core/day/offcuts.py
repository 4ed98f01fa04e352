"""Cuttings, stem and sweepings: of the leaf they are told to be of, else shared by use."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from core.day.bench import BenchTally, RunKey
from core.day.books import Books
from core.day.entries import SweepEntry
from core.day.moved import Moved

ByRun = dict[RunKey, dict[str, float]]


class Offcuts(NamedTuple):
    """A bench's cuttings and stem, standard grams by what was rolled and by leaf."""

    cuttings: ByRun
    stem: ByRun


def offcuts(tally: BenchTally, books: Books) -> Offcuts:
    """What was weighed at a bench; of no leaf told, by the fillers it used, else by its blend.

    They stand with what the bench rolled as they were weighed.
    """
    found = Offcuts({}, {})
    mixes: dict[RunKey, Mapping[str, float]] = {}
    for run, leaf, grams, stem in tally.offcuts:
        of_run = (found.stem if stem else found.cuttings).setdefault(run, {})
        if leaf is not None:
            of_run[leaf] = of_run.get(leaf, 0.0) + grams
            continue
        if run not in mixes:
            mixes[run] = _mix(books.shares(run), tally.moved)
        for one, share in mixes[run].items():
            of_run[one] = of_run.get(one, 0.0) + share * grams
    return found


def _mix(shares: Mapping[str, float], of_bench: Mapping[str, Moved]) -> Mapping[str, float]:
    used = {leaf: max(0.0, of_bench[leaf].used_g) for leaf in shares if leaf in of_bench}
    total = sum(used.values())
    return {leaf: grams / total for leaf, grams in used.items()} if total > 0 else shares


class Swept(NamedTuple):
    """The room's sweepings by leaf, standard grams; `of_none_g` where no leaf was used."""

    grams: Mapping[str, float]
    of_none_g: float


def swept(sweepings: Iterable[SweepEntry], used: Mapping[str, float], books: Books) -> Swept:
    """Share the sweepings over the leaves: as told, else by use. `used` has none below 0."""
    grams: dict[str, float] = {}
    of_no_leaf_g = 0.0
    for entry in sweepings:
        if "leaf" in entry:
            leaf = entry["leaf"]
            grams[leaf] = grams.get(leaf, 0.0) + books.standard_g(entry)
        else:
            of_no_leaf_g += books.standard_g(entry)
    total = sum(used.values())
    if of_no_leaf_g and total > 0:
        for leaf, used_g in used.items():
            grams[leaf] = grams.get(leaf, 0.0) + of_no_leaf_g * used_g / total
        of_no_leaf_g = 0.0
    return Swept(grams, of_no_leaf_g)
