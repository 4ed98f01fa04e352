"""What must hold between the tables of a house book, asked once every one of them was read.

That codes are there, used as what they are, and no two alike is seen while they are read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from core.house.model import DialWindow, DrawWindow, HouseBook
from core.house.places import entry_place
from core.problems import Problem
from core.say import say, say_many

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
            yield Problem(
                entry_place("blend", place, blend.code),
                say_many(
                    len(benches),
                    "bench {benches} rolls it, but nothing says how it is packed: weigh approved "
                    "bunches ([[approved]]), or give packing in [house] until there are any",
                    "benches {benches} roll it, but nothing says how it is packed: weigh approved "
                    "bunches ([[approved]]), or give packing in [house] until there are any",
                    benches=", ".join(benches),
                ),
            )


def draw_goes_one_way(house: HouseBook) -> Iterator[Problem]:
    """A dial says what a higher figure means; a pressure is always tighter the higher it is."""
    for place, vitola in enumerate(house.vitolas, start=1):
        where = entry_place("vitola", place, vitola.code)
        rises = vitola.draw_rises or house.house.draw_rises
        if isinstance(vitola.draw, DialWindow) and rises is None:
            yield Problem(
                where,
                say(
                    "draw is read on a dial, and nothing says what a higher figure means: give "
                    'draw_rises = "tighter" or draw_rises = "looser", here or in [house]'
                ),
            )
        elif isinstance(vitola.draw, DrawWindow) and vitola.draw_rises == "looser":
            yield Problem(
                where,
                say(
                    'draw_rises = "looser" is for a dial; a higher pressure is always a tighter '
                    "draw: leave it out, or give draw in readings of the dial, as "
                    '["3 dial", "7 dial"]'
                ),
            )


RULES: tuple[Rule, ...] = (rolled_blends_can_be_packed, draw_goes_one_way)
