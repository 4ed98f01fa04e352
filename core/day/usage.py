"""Which of a bench's runs used the leaf that it took."""

from __future__ import annotations

from collections.abc import Mapping

from core.day.bench import BenchTally, RunKey, run_of
from core.day.books import Books, Recipes


def used_by_run(
    tally: BenchTally, pieces: Mapping[RunKey, int], recipes: Recipes, books: Books
) -> dict[RunKey, dict[str, float]]:
    """What a bench used, standard grams, by run and leaf: shared by what its runs packed of it.

    `pieces` is what each run made. Leaf that none of them packs stands with what was rolled
    as it was moved.
    """
    if not tally.moved:
        return {}
    made = [(key, n, recipes[key].laid) for key, n in pieces.items()]
    if len(made) == 1:
        ((only, n, laid),) = made
        if n and tally.moved.keys() <= laid.keys():
            return {only: {leaf: of_leaf.used_g for leaf, of_leaf in tally.moved.items()}}
    found: dict[RunKey, dict[str, float]] = {}
    for leaf, of_leaf in tally.moved.items():
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
