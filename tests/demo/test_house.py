"""The demo's house book: what it promises to show, and its copy for a quick start."""

from __future__ import annotations

from core.desk.load import examine
from core.house.model import HouseBook
from demo.house import HOUSE_JSON, HOUSE_TOML, read_anew


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


def test_the_copy_for_a_quick_start_is_the_house_book() -> None:
    read = examine(HOUSE_TOML.read_bytes(), HOUSE_TOML.name)
    assert HouseBook.model_validate_json(HOUSE_JSON.read_bytes()) == read.house
    assert HOUSE_JSON.read_text(encoding="utf-8") == read_anew(), "run: python -m demo.house"
