"""Portion checks: told by leaf, and nothing to do with what a bunch weighs."""

from __future__ import annotations

import pytest

from core.day.portions import portion_deviations
from tests.day.book import Writer


def portion(day: Writer, leaf: str, *readings: float, target: float = 4.0) -> int:
    """A portion check with a window of ± 0.2 g."""
    return day(
        "check", measure="portion", leaf=leaf, readings=list(readings), target=target,
        low=target - 0.2, high=target + 0.2, standard=1.0,
    )  # fmt: skip


def test_each_leaf_has_the_means_of_its_own_checks_oldest_first() -> None:
    day = Writer()
    portion(day, "LI-1", 4.4, 4.2)
    portion(day, "SE-1", 5.9, target=6.0)
    portion(day, "LI-1", 4.1)
    day.check(12.4)
    found = portion_deviations(day.ledger.bench("7"))
    assert found == {"LI-1": pytest.approx([0.3, 0.1]), "SE-1": pytest.approx([-0.1])}


def test_only_what_is_complete_not_void_and_of_what_is_rolled_now() -> None:
    day = Writer()
    portion(day, "LI-1", 4.9)
    day("roll", vitola="corona")
    portion(day, "LI-1", 2.5, target=2.4)
    day("undo", voids=portion(day, "LI-1", 3.9, target=2.4))
    day("reading", measure="portion", leaf="SE-1", reading=3.8, check=5, needs=3,
        target=3.6, low=3.4, high=3.8, standard=1.0)  # fmt: skip
    assert portion_deviations(day.ledger.bench("7")) == {"LI-1": pytest.approx([0.1])}


def test_a_portion_says_nothing_of_the_bunch() -> None:
    day = Writer()
    portion(day, "LI-1", 4.9)
    day.check(12.4)
    (checked,) = day.ledger.bench("7").checked.values()
    assert (checked.checks, checked.out, checked.n_dev) == (2, 1, 1)
    assert checked.mean is not None
    assert checked.mean.deviation_g == pytest.approx(0.4)


def test_first_pieces_are_the_first_weigh_ins_of_what_is_rolled() -> None:
    day = Writer()
    portion(day, "LI-1", 4.9)
    first = day.check(12.4)
    day.check(12.1)
    day("roll", vitola="corona")
    day("roll", vitola="toro")
    again = day.check(12.0)
    assert day.ledger.bench("7").firsts == {first, again}
    day("undo", voids=first)
    assert day.ledger.bench("7").firsts == {first + 1, again}
