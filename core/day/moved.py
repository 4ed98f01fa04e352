"""What the benches took and gave back of each leaf, and which of their runs used it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from core.day.bench import BenchTally, RunKey, run_of
from core.day.books import Books, Recipes, bunches


class Moved(NamedTuple):
    """Leaf issued and returned as weighed, and used at standard moisture (grams)."""

    issued_g: float = 0.0
    returned_g: float = 0.0
    used_g: float = 0.0

    def plus(self, other: Moved) -> Moved:
        """Both together."""
        return Moved(
            self.issued_g + other.issued_g,
            self.returned_g + other.returned_g,
            self.used_g + other.used_g,
        )


def moved(tally: BenchTally, books: Books) -> dict[str, Moved]:
    """What a bench took and gave back, by leaf."""
    issued: dict[str, float] = {}
    returned: dict[str, float] = {}
    used: dict[str, float] = {}
    for entry in tally.leaf:
        leaf, grams = entry["leaf"], books.standard_g(entry)
        if entry["kind"] == "take":
            issued[leaf] = issued.get(leaf, 0.0) + entry["grams"]
            used[leaf] = used.get(leaf, 0.0) + grams
        else:
            returned[leaf] = returned.get(leaf, 0.0) + entry["grams"]
            used[leaf] = used.get(leaf, 0.0) - grams
    return {
        leaf: Moved(issued.get(leaf, 0.0), returned.get(leaf, 0.0), used_g)
        for leaf, used_g in used.items()
    }


def used_by_run(
    tally: BenchTally,
    of_bench: Mapping[str, Moved],
    recipes: Recipes,
    books: Books,
) -> dict[RunKey, dict[str, float]]:
    """What a bench used, standard grams, by run and leaf: shared by what its runs packed of it.

    Leaf that none of them packs stands with what was rolled as it was moved.
    """
    if len(tally.runs) == 1:
        ((only, run),) = tally.runs.items()
        laid = recipes[only].laid
        if bunches(run) and of_bench.keys() <= laid.keys():
            return {only: {leaf: of_leaf.used_g for leaf, of_leaf in of_bench.items()}}
    found: dict[RunKey, dict[str, float]] = {}
    made = [(key, bunches(run), recipes[key].laid) for key, run in tally.runs.items()]
    for leaf, of_leaf in of_bench.items():
        packed = {key: n * laid[leaf].grams for key, n, laid in made if leaf in laid}
        whole = sum(packed.values())
        if whole > 0:
            for key, grams in packed.items():
                found.setdefault(key, {})[leaf] = of_leaf.used_g * grams / whole
        else:
            _as_moved(found, tally, leaf, books)
    return found


def _as_moved(
    found: dict[RunKey, dict[str, float]], tally: BenchTally, leaf: str, books: Books
) -> None:
    for entry in tally.leaf:
        if entry["leaf"] == leaf:
            grams = books.standard_g(entry)
            of_run = found.setdefault(run_of(entry), {})
            of_run[leaf] = of_run.get(leaf, 0.0) + (grams if entry["kind"] == "take" else -grams)
