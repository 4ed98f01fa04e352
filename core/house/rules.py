"""What must hold between the tables of a house book, asked once every one of them was read.

That codes are there, used as what they are, and no two alike is seen while they are read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from core.house.model import HouseBook
from core.house.places import entry_place
from core.problems import Problem

Rule = Callable[[HouseBook], Iterator[Problem]]


def broken_rules(house: HouseBook) -> tuple[Problem, ...]:
    """Every problem of every rule, in the rules' order; places are within the file."""
    return tuple(problem for rule in RULES for problem in rule(house))


def rolled_blends_can_be_packed(house: HouseBook) -> Iterator[Problem]:
    """A blend at a bench has approved bunches, of its own or of every blend, or a packing."""
    if house.house.packing_g_per_cm3 is not None or any(a.blend is None for a in house.approved):
        return
    approved = {entry.blend for entry in house.approved}
    for place, blend in enumerate(house.blends, start=1):
        benches = [bench.number for bench in house.benches if bench.blend == blend.code]
        if benches and blend.code not in approved:
            word = "bench" if len(benches) == 1 else "benches"
            yield Problem(
                entry_place("blend", place, blend.code),
                f"{word} {', '.join(benches)} roll it, but nothing says how it is packed: weigh "
                "approved bunches ([[approved]]), or give packing in [house] until there are any",
            )


RULES: tuple[Rule, ...] = (rolled_blends_can_be_packed,)
