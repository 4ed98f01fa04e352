"""The share of the filler issued that a house allows to be lost before the bunch."""

from __future__ import annotations

import orjson
import pytest

from core.house.read import read_house
from core.house.stored import restore, store

HOUSE = '[house]\nname = "H"\nstandard_moisture = "13 %"\nscale_division = "0.1 g"\n'


def test_a_house_that_gives_none_allows_nothing() -> None:
    read = read_house(HOUSE, "h.toml")
    assert read.house is not None
    assert read.house.house.loss_allowance == 0.0


@pytest.mark.parametrize("typed", ['"6 %"', "6", "6.0"])
def test_it_is_a_share_and_is_kept(typed: str) -> None:
    read = read_house(f"{HOUSE}loss_allowance = {typed}\n", "h.toml")
    assert read.house is not None, read.problems
    assert read.house.house.loss_allowance == pytest.approx(0.06)
    assert restore(orjson.loads(orjson.dumps(store(read.house)))) == read.house


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ('"51 %"', "outside 0.2 % to 50 %"),
        ("0.06", "outside 0.2 % to 50 % (a bare number is in %)"),
        ('"-6 %"', "outside 0.2 % to 50 %"),
        ('"6 g"', "is not a percentage"),
        ('"some"', "loss_allowance"),
    ],
)
def test_what_is_no_such_share_is_refused(typed: str, says: str) -> None:
    read = read_house(f"{HOUSE}loss_allowance = {typed}\n", "h.toml")
    assert read.house is None
    (problem,) = read.problems
    assert says in problem.says
