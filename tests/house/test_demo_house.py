"""The demo house: an example to copy, so it must be sound and plausible throughout."""

from __future__ import annotations

import pytest

from core.house.model import Bench
from core.house.read import read_house
from core.line.sheet import line_sheet
from core.recipe.card import recipe_card
from tests.house.books import DEMO, house

HOUSE = house(DEMO.read_text("utf-8"))


def test_it_loads_with_nothing_odd() -> None:
    read = read_house(DEMO.read_bytes(), "demo")
    assert (read.problems, read.odd) == ((), ())


def test_twenty_four_benches_roll_one_blend_in_every_vitola() -> None:
    assert [bench.number for bench in HOUSE.benches] == [str(n) for n in range(1, 25)]
    assert {bench.blend for bench in HOUSE.benches} == {"B4"}
    assert {bench.vitola for bench in HOUSE.benches} == set(HOUSE.vitola)
    shapes = sorted(vitola.shape for vitola in HOUSE.vitolas)
    assert shapes == ["figurado"] * 2 + ["parejo"] * 5 + ["pressed"]


@pytest.mark.parametrize("bench", HOUSE.benches, ids=lambda bench: bench.number)
def test_every_bench_has_a_card_of_plausible_weights(bench: Bench) -> None:
    card = recipe_card(HOUSE, blend=bench.blend, vitola=bench.vitola, moistures={})
    assert 8 <= card.targets["bunch"].target_g <= 25  # common practice, no source
    assert card.packing.low_g is not None  # approved bunches enough to tell the law's error


def test_only_the_thinnest_vitola_cannot_hold_the_blend_in_whole_pieces() -> None:
    sheet = line_sheet(HOUSE, "B4", {})
    assert [row.vitola for row in sheet.vitolas if not row.holds] == ["corona"]


def test_every_vitola_sells_above_its_cost() -> None:
    for row in line_sheet(HOUSE, "B4", {}).vitolas:
        assert row.cost.margin is not None
        assert row.cost.margin > 0
        assert row.cost.left_out == ()
