"""The demo's house book: what it promises to show."""

from __future__ import annotations

from core.desk.load import examine
from core.house.model import HouseBook
from core.line.new_parts import NewParts, NoParts, new_parts
from demo.house import HOUSE_TOML


def test_the_house_has_24_benches_and_one_blend_in_eight_vitolas_from_42_to_60_ring(
    house: HouseBook,
) -> None:
    rings = [vitola.ring for vitola in house.vitolas]
    shapes = [vitola.shape for vitola in house.vitolas]
    assert (len(house.benches), len(house.blends), len(house.vitolas)) == (24, 1, 8)
    assert (min(rings), max(rings)) == (42, 60)
    assert (shapes.count("pressed"), shapes.count("figurado")) == (1, 2)


def test_every_vitola_is_rolled_at_some_bench(house: HouseBook) -> None:
    assert {bench.vitola for bench in house.benches} == set(house.vitola)


def test_the_house_book_has_no_problem_and_nothing_odd_in_it() -> None:
    read = examine(HOUSE_TOML.read_bytes(), HOUSE_TOML.name)
    assert (read.problems, read.odd) == ((), ())


def test_a_ligero_and_a_seco_in_reserve_can_take_their_place_alone_and_together(
    house: HouseBook,
) -> None:
    for without in (["LI-2"], ["SE-20"], ["LI-2", "SE-20"]):
        assert isinstance(new_parts(house, "B4", without), NewParts)
    assert isinstance(new_parts(house, "B4", ["VI-5"]), NoParts)
