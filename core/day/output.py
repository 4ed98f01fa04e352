"""What was made and the filler it took: by run, bench, vitola, buncher, and of the house."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple, TypedDict

from core.day.bench import BenchTally, Run, runs_together
from core.day.leaf import Split
from core.day.report import BuncherDay, VitolaDay
from core.day.yields import first_pass_yield

Kind = tuple[str, str]
"""A blend and a vitola."""


class Made(NamedTuple):
    """Counts, and filler in standard grams: used, and by the standard in what was good.

    `planned_g` is what all the bunches should have taken.
    """

    run: Run = Run()
    used_g: float = 0.0
    in_good_g: float = 0.0
    bunches: int = 0
    planned_g: float = 0.0


class Figures(TypedDict):
    """The fields of an Output."""

    made: int
    good: int
    rework: int
    second: int
    held: int
    workers: int
    panel: int
    first_pass_yield: float | None
    leaf_yield: float | None
    filler_used_kg: float
    filler_kg_per_1000_good: float | None
    standard_kg_per_1000: float | None


def made_at(bench: str, tally: BenchTally, leaf: Split) -> dict[Kind, Made]:
    """What a bench did of each blend and vitola, whatever house-book version was in force."""
    found: dict[Kind, Made] = {}
    used = {key: filler.used_g for key, filler in leaf.filler[bench].items() if filler.used_g}
    for key in dict.fromkeys((*tally.runs, *used)):
        run, filler_g = tally.runs.get(key, Run()), leaf.room.recipes[key].filler_g
        n = leaf.pieces.get((bench, key), 0)
        one = Made(run, used.get(key, 0.0), filler_g * run.good, n, filler_g * n)
        kind = (key.blend, key.vitola)
        found[kind] = together((found[kind], one)) if kind in found else one
    return found


def together(made: Iterable[Made]) -> Made:
    """All of it."""
    found = list(made)
    if len(found) < 2:
        return found[0] if found else Made()
    runs, used_g, in_good_g, pieces, planned_g = zip(*found, strict=True)
    return Made(runs_together(runs), sum(used_g), sum(in_good_g), sum(pieces), sum(planned_g))


def figures(made: Made, *, held: int | None = None) -> Figures:
    """The figures that a report gives; `held` where it is more than this day's."""
    run, good = made.run, made.run.good
    used_g = made.used_g
    whole_g, pieces = (made.in_good_g, good) if good else (made.planned_g, made.bunches)
    return {
        "made": run.made,
        "good": good,
        "rework": run.rework,
        "second": run.second,
        "held": run.held if held is None else held,
        "workers": run.workers,
        "panel": run.panel,
        "first_pass_yield": first_pass_yield(good, run.rejected, run.rework, run.second),
        "leaf_yield": made.in_good_g / used_g if used_g > 0 else None,
        "filler_used_kg": used_g / 1000,
        # Grams a cigar are kilograms for 1,000.
        "filler_kg_per_1000_good": used_g / good if good and used_g > 0 else None,
        "standard_kg_per_1000": whole_g / pieces if pieces else None,
    }


def by_vitola(benches: Iterable[Mapping[Kind, Made]]) -> tuple[VitolaDay, ...]:
    """Each vitola over all benches, in the order first met."""
    found: dict[str, list[Made]] = {}
    for made in benches:
        for (_, vitola), one in made.items():
            found.setdefault(vitola, []).append(one)
    whole = {vitola: together(mine) for vitola, mine in found.items()}
    return tuple(
        VitolaDay(vitola=vitola, rejected=dict(made.run.faults), **figures(made))
        for vitola, made in whole.items()
    )


def by_buncher(benches: Iterable[tuple[str | None, Made]]) -> tuple[BuncherDay, ...]:
    """Each buncher over their benches, in the benches' order; a bench without one is nobody's."""
    found: dict[str, list[Made]] = {}
    for buncher, whole in benches:
        if buncher is not None:
            found.setdefault(buncher, []).append(whole)
    together_by = {buncher: together(mine) for buncher, mine in found.items()}
    return tuple(
        BuncherDay(buncher=buncher, rejected=dict(made.run.faults), **figures(made))
        for buncher, made in together_by.items()
    )
