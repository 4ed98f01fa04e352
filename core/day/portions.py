"""What portion checks say of each class of filler at a bench."""

from __future__ import annotations

from core.day.bench import BenchTally


def portion_deviations(tally: BenchTally) -> dict[str, list[float]]:
    """Mean less target of each complete portion check, by leaf, oldest first.

    In grams on the scale of a bunch's portion, of what the bench has rolled since its last
    change of vitola. A leaf without such a check is not there.
    """
    found: dict[str, list[float]] = {}
    for check in tally.since_roll:
        off_g = check.deviation
        if check.leaf is not None and check.closed and off_g is not None:
            found.setdefault(check.leaf, []).append(off_g)
    return found
