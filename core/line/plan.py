"""How much production a change of leaf is to last for, read from `plan=3` or `plan=80kg`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from core.entry.tokens import fold
from core.house.amounts import WEIGHT, Unreadable, parse
from core.house.written import Written, take_apart
from core.problems import BadInput, Problem
from core.say import say

WORD = "plan"
MOST_DAYS = 400


class Plan(NamedTuple):
    """So many days of the quotas, or so many standard grams of filler; 0 asks for no stock."""

    days: float = 1.0
    filler_g: float | None = None


def read_plan(words: Iterable[str]) -> tuple[tuple[str, ...], Plan]:
    """The words that are no plan, and the plan told; a day of the quotas where none is.

    Raises BadInput for a plan that cannot be read, and for two.
    """
    others: list[str] = []
    found: Plan | None = None
    for word in words:
        name, equals, amount = word.partition("=")
        if not equals or fold(name) != WORD:
            others.append(word)
        elif found is not None:
            raise BadInput(Problem(word, say("the plan is told twice; give one of them")))
        else:
            found = _plan(word, amount)
    return tuple(others), found or Plan()


def _plan(word: str, amount: str) -> Plan:
    written = take_apart(amount)
    if isinstance(written, Written) and not written.unit:
        days = float(written.number)
        if not 0 <= days <= MOST_DAYS:
            raise BadInput(
                Problem(
                    word,
                    say(
                        "expected 0 to {most} days of the quotas, or a weight of filler as "
                        "plan=80kg",
                        most=MOST_DAYS,
                    ),
                )
            )
        return Plan(days=days)
    grams = parse(amount.strip(), WEIGHT)
    if isinstance(grams, Unreadable) or grams < 0:
        raise BadInput(
            Problem(
                word,
                say(
                    "expected days of the quotas, as plan=3, or a weight of filler, as plan=80kg;"
                    ' found "{found}"',
                    found=amount,
                ),
            )
        )
    return Plan(filler_g=grams)
