"""The ledger: seats, moistures, open checks and voids, from entries alone."""

from __future__ import annotations

from typing import Any, cast

from core.day.entries import Opening
from core.day.ledger import Ledger, Seat
from core.house.model import Bench, HouseBook
from tests.day.book import HOUSE, Writer


def with_bench(house: HouseBook, **fields: Any) -> HouseBook:
    benches = tuple(b._replace(**fields) if b.number == "7" else b for b in house.benches)
    return house._replace(benches=benches)


def with_moisture(house: HouseBook, code: str, moisture: float) -> HouseBook:
    leaves = tuple(
        leaf._replace(moisture=moisture) if leaf.code == code else leaf for leaf in house.leaves
    )
    return house._replace(leaves=leaves)


def test_a_bench_rolls_what_the_house_book_says_until_it_is_told_otherwise() -> None:
    day = Writer()
    assert day.ledger.seat("7", 1) == Seat("B1", "toro", 300)
    day("roll", vitola="corona")
    assert day.ledger.seat("7", 1) == Seat("B1", "corona", 300)
    day("roll", vitola="toro", quota=250)
    assert day.ledger.seat("7", 1) == Seat("B1", "toro", 250)


def test_an_undone_roll_gives_the_bench_back_what_it_rolled() -> None:
    day = Writer()
    day("undo", voids=day("roll", vitola="corona"))
    assert day.ledger.seat("7", 1).vitola == "toro"


def test_a_new_house_book_moves_a_bench_only_if_it_says_something_new_of_it() -> None:
    day = Writer()
    day("roll", vitola="corona")
    day.ledger.houses = {
        1: HOUSE,
        2: with_moisture(HOUSE, "SE-1", 0.15),
        3: with_bench(HOUSE, quota=280),
    }
    assert day.ledger.seat("7", 2).vitola == "corona"
    assert day.ledger.seat("7", 3) == Seat("B1", "toro", 280)


def test_a_roll_of_a_vitola_that_is_gone_from_the_house_book_does_not_stand() -> None:
    day = Writer()
    day("roll", vitola="corona")
    gone = HOUSE._replace(
        vitolas=HOUSE.vitolas[:1], approved=HOUSE.approved[:1], benches=HOUSE.benches[:2]
    )
    day.ledger.houses = {1: HOUSE, 2: gone}
    assert day.ledger.seat("7", 2).vitola == "toro"


def test_moisture_is_the_last_measured_else_the_house_books() -> None:
    day = Writer()
    assert day.ledger.moisture("SE-1", 1) == (0.13, None)
    day("moisture", leaf="SE-1", moisture=0.15)
    wrong = day("moisture", leaf="SE-1", moisture=0.55)
    day("undo", voids=wrong)
    assert day.ledger.moisture("SE-1", 1).moisture == 0.15
    day.ledger.houses = {1: HOUSE, 2: with_moisture(HOUSE, "SE-1", 0.14)}
    assert day.ledger.moisture("SE-1", 2) == (0.14, None)


def test_the_next_day_starts_from_what_was_rolled_and_measured() -> None:
    day = Writer()
    day("roll", vitola="corona", quota=200)
    day("moisture", leaf="LI-1", moisture=0.16)
    opening = day.ledger.carry(1)
    assert set(opening["seats"]) == {"7"}
    assert set(opening["moistures"]) == {"LI-1"}
    next_day = Ledger({1: HOUSE}, opening)
    assert next_day.seat("7", 1) == Seat("B1", "corona", 200)
    assert next_day.moisture("LI-1", 1).moisture == 0.16
    assert next_day.carry(1) == opening


def test_readings_make_a_check_that_closes_when_it_has_all_it_needs() -> None:
    day = Writer()
    first = day("reading", measure="bunch", reading=12.0, check=1, needs=3)
    day("reading", measure="bunch", reading=12.1, check=first, needs=3)
    assert not day.ledger.bench("7").checks[0].closed
    wrong = day("reading", measure="bunch", reading=21.1, check=first, needs=3)
    assert day.ledger.bench("7").checks[0].closed
    day("undo", voids=wrong)
    (check,) = day.ledger.bench("7").checks
    assert check.readings == (12.0, 12.1)
    assert not check.closed
    day("done", check=first)
    assert day.ledger.bench("7").checks[0].closed


def test_a_check_stays_one_when_its_first_reading_is_voided() -> None:
    day = Writer()
    first = day("reading", measure="bunch", reading=9.0, check=1, needs=3)
    day("reading", measure="bunch", reading=12.1, check=first, needs=3)
    day("undo", voids=first)
    day("reading", measure="bunch", reading=12.3, check=first, needs=3)
    (check,) = day.ledger.bench("7").checks
    assert check.readings == (12.1, 12.3)


def test_a_terminals_last_entry_skips_what_is_void_and_what_others_wrote() -> None:
    day = Writer()
    mine = day("made", n=50)
    day("undo", voids=day("good", n=40))
    day("made", n=10, terminal="T2")
    assert day.ledger.last_of("T1") == mine
    assert day.ledger.last_of("T3") is None


def test_on_hold_is_what_was_held_before_and_today_less_what_was_let_go() -> None:
    opening = {"house": 1, "seats": {}, "moistures": {}, "held": {"7": 40, "9": 5}}
    day = Writer()
    day.ledger = Ledger(day.ledger.houses, cast(Opening, opening))
    wrong = day("hold", n=25, reason="too wet")
    day("release", n=30)
    assert day.ledger.held("7") == 35
    day("undo", voids=wrong)
    assert (day.ledger.held("7"), day.ledger.held("8"), day.ledger.held("9")) == (10, 0, 5)


def test_more_let_go_than_was_held_is_none_on_hold() -> None:
    day = Writer()
    day("hold", n=5)
    day("release", n=8)
    assert day.ledger.held("7") == 0
    assert "held" not in day.ledger.carry(1)


def test_the_next_day_starts_with_what_is_still_on_hold() -> None:
    day = Writer()
    day("hold", n=25)
    day("hold", "8", n=10)
    day("release", "8", n=10)
    opening = day.ledger.carry(1)
    assert opening["held"] == {"7": 25}
    assert Ledger({1: HOUSE}, opening).carry(1) == opening


def test_a_hold_counts_for_the_vitola_it_was_made_of_and_the_bench_for_all() -> None:
    day = Writer()
    day("hold", n=25)
    day("roll", vitola="corona")
    day("hold", n=5, vitola="corona")
    day("release", n=10, vitola="corona")
    held = {key.vitola: run.held for key, run in day.ledger.bench("7").runs.items()}
    assert held == {"toro": 25, "corona": -5}
    assert day.ledger.held("7") == 20


def test_sweepings_and_stock_are_of_the_room_and_only_those_that_stand() -> None:
    day = Writer()
    day("sweepings", grams=140.0, moisture=0.13)
    wrong = day("sweepings", leaf="LI-1", grams=20.0, moisture=0.13)
    came = day("receive", leaf="SE-1", lot="L8", grams=9_000.0, moisture=0.13)
    taken = day("take", leaf="SE-1", lot="L8", grams=450.0, moisture=0.13)
    other = day("take", leaf="LI-1", grams=450.0, moisture=0.13)
    day("undo", voids=wrong)
    assert [entry["grams"] for entry in day.ledger.sweepings()] == [140.0]
    assert [entry["id"] for entry in day.ledger.stock_entries("SE-1")] == [came, taken]
    day("undo", voids=came)
    assert [entry["id"] for entry in day.ledger.stock_entries("SE-1")] == [taken]
    assert [entry["id"] for entry in day.ledger.stock_entries("LI-1")] == [other]
    assert day.ledger.benches() == ("7",)


def test_stem_lies_with_the_cuttings_and_says_what_it_is() -> None:
    day = Writer()
    day("scrap", grams=35.0, moisture=0.13)
    day("stem", leaf="LI-1", grams=12.0, moisture=0.13)
    assert [(cut.leaf, cut.stem) for cut in day.ledger.bench("7").offcuts] == [
        (None, False),
        ("LI-1", True),
    ]


def test_a_bench_dropped_from_the_house_book_keeps_its_entries() -> None:
    day = Writer()
    day("made", n=50)
    rest = HOUSE._replace(benches=(Bench(number="8", blend="B1", vitola="toro"),))
    day.ledger.houses = {1: HOUSE, 2: rest}
    assert day.ledger.benches() == ("7",)
    assert set(day.ledger.carry(2)["seats"]) == set()
