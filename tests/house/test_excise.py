"""`[excise]` and a bench's hours in a house book."""

from __future__ import annotations

import orjson
import pytest

from core.house.model import Excise, HouseBook
from core.house.read import read_house
from core.house.stored import restore, store

HOUSE = '[house]\nname = "H"\nstandard_moisture = "13 %"\nscale_division = "0.1 g"\n'


def house(more: str) -> HouseBook:
    read = read_house(HOUSE + more, "h.toml")
    assert read.house is not None, read.problems
    return read.house


def test_a_house_without_it_has_none() -> None:
    assert house("").excise is None
    assert house("").house.hours_min is None


def test_it_is_read_and_kept() -> None:
    found = house('hours = "8 h"\n[excise]\nrate = "52.75 %"\ncap = 402.60\nabove = "3 lb/1000"\n')
    assert found.house.hours_min == 480
    assert found.excise is not None
    assert found.excise.rate == pytest.approx(0.5275)
    assert found.excise.cap_per_1000 == 402.6
    assert found.excise.above_g == pytest.approx(1.36077711, abs=5e-9)
    assert restore(orjson.loads(orjson.dumps(store(found)))) == found


def test_cap_and_weight_may_be_left_out() -> None:
    assert house('[excise]\nrate = "5 %"\n').excise == Excise(rate=0.05)


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("[excise]\ncap = 400\n", 'rate is missing; expected a percentage such as "13 %"'),
        ("[excise]\nrate = 0.5275\n", "rate 0.5275 % is outside 1 % to 500 %"),
        ('[excise]\nrate = "5 %"\nceiling = 4\n', "unknown key"),
        ('[[excise]]\nrate = "5 %"\n', "[excise] must be one table headed [excise]"),
    ],
)
def test_what_is_wrong_with_it_is_said(table: str, says: str) -> None:
    (problem,) = read_house(HOUSE + table, "h.toml").problems
    assert says in str(problem)
