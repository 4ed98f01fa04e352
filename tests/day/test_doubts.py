"""What is asked about before it is recorded, of counts beside the good ones and of stock."""

from __future__ import annotations

from itertools import count

import pytest

from core.day.compose import compose
from core.day.doubts import doubt
from core.day.ledger import Ledger
from core.day.room import Room, Stamp
from core.entry import requests as ask
from core.house.model import HouseBook
from core.problems import BadInput
from core.recipe.card import Card, recipe_card
from tests.day.book import HOUSE

CARRIED_LOT = {"leaf": "SE-1", "received": "2026-04-02", "received_g": 36_000.0}


class Floor:
    """A terminal: what is typed is asked about, or it is recorded."""

    def __init__(self, house: HouseBook = HOUSE, **opening: object) -> None:
        began = {"house": 1, "seats": {}, "moistures": {}, **opening}
        self.ledger = Ledger({1: house}, began)  # type: ignore[arg-type]
        self._house = house
        self._numbers = count(1)

    def _card(self, blend: str, vitola: str) -> Card:
        return recipe_card(
            self._house, blend=blend, vitola=vitola, moistures=self.ledger.moistures(1)
        )

    def asks(self, request: ask.Request, terminal: str = "T1") -> str | None:
        """The question; the entry is recorded where there is none."""
        return self._put(request, terminal, sure=False)

    def records(self, request: ask.Request) -> None:
        self._put(request, "T1", sure=True)

    def _put(self, request: ask.Request, terminal: str, *, sure: bool) -> str | None:
        number = next(self._numbers)
        stamp = Stamp("2026-05-04T08:00:00.000Z", 0, f"{number:016x}", terminal)
        room = Room(self._house, 1, self.ledger, self._card)
        entry = compose(request, room, stamp, number)
        why = None if sure else doubt(entry, room)
        if why is None:
            self.ledger.add(entry)
        return why


def lot(name: str, on_hand_g: float) -> dict[str, object]:
    return {**CARRIED_LOT, "lot": name, "on_hand_g": on_hand_g}


def take(grams: float, name: str | None = None, bench: str = "7") -> ask.Leaf:
    return ask.Leaf(bench, "take", "SE-1", grams, name)


def receive(name: str, grams: float, moisture: float | None = None) -> ask.Receive:
    return ask.Receive("SE-1", name, grams, moisture)


@pytest.mark.parametrize(
    "request_",
    [ask.Hold("7", 26), ask.Count("7", "workers", 26), ask.Count("7", "panel", 26)],
    ids=str,
)
def test_no_more_is_set_aside_or_given_away_than_there_are_good_ones(
    request_: ask.Hold | ask.Count,
) -> None:
    floor = Floor()
    assert floor.asks(ask.Count("7", "good", 50)) is None
    assert floor.asks(ask.Count("7", "workers", 15)) is None
    assert floor.asks(ask.Hold("7", 10, "too wet")) is None
    assert floor.asks(request_) == "26 is more than the 25 good cigars at hand"
    assert floor.asks(request_._replace(n=25)) is None
    assert floor.asks(request_._replace(n=1)) == "1 is more than the 0 good cigars at hand"


def test_the_good_ones_of_another_bench_are_not_this_ones() -> None:
    floor = Floor()
    assert floor.asks(ask.Count("8", "good", 50)) is None
    assert floor.asks(ask.Hold("7", 1)) == "1 is more than the 0 good cigars at hand"


def test_more_seconds_than_good_ones_are_asked_about() -> None:
    floor = Floor()
    assert floor.asks(ask.Count("7", "good", 5)) is None
    assert floor.asks(ask.Count("7", "second", 3)) is None
    assert floor.asks(ask.Count("7", "second", 2)) is None
    asked = floor.asks(ask.Count("7", "second", 1))
    assert asked == "that makes 6 seconds, more than the 5 good cigars so far"


@pytest.mark.parametrize("kind", ["second", "workers", "panel"])
def test_more_at_once_than_the_quota_is_asked_about_as_for_made(kind: str) -> None:
    floor = Floor()
    floor.records(ask.Count("7", "good", 1_000))
    asked = floor.asks(ask.Count("7", kind, 301))  # type: ignore[arg-type]
    assert asked == "301 at once is more than the day's quota of 300"


def test_no_more_is_let_go_than_is_on_hold_that_of_earlier_days_with_it() -> None:
    floor = Floor(held={"7": 40})
    assert floor.asks(ask.Count("7", "release", 41)) == "41 is more than the 40 on hold"
    assert floor.asks(ask.Count("7", "release", 30)) is None
    assert floor.asks(ask.Count("7", "release", 11)) == "11 is more than the 10 on hold"
    assert floor.asks(ask.Count("8", "release", 1)) == "1 is more than the 0 on hold"


def test_what_was_held_on_an_earlier_day_may_be_given_away_once_it_is_let_go() -> None:
    floor = Floor(held={"7": 40})
    assert floor.asks(ask.Count("7", "workers", 4)) == "4 is more than the 0 good cigars at hand"
    assert floor.asks(ask.Count("7", "release", 40)) is None
    assert floor.asks(ask.Count("7", "workers", 4)) is None


def test_a_hold_undone_gives_the_good_ones_back() -> None:
    floor = Floor()
    floor.records(ask.Count("7", "good", 25))
    floor.records(ask.Hold("7", 25))
    assert floor.asks(ask.Count("7", "workers", 4)) is not None
    assert floor.asks(ask.Undo(2)) is None
    assert floor.asks(ask.Count("7", "workers", 4)) is None


def test_a_lot_that_would_fall_short_is_asked_about_with_those_that_have_more() -> None:
    floor = Floor(lots=[lot("24-118", 1_200.0), lot("24-131", 0.4), lot("24-140", 9_000.0)])
    asked = floor.asks(take(1_300.0))
    assert asked == ("lot 24-118: by the records only 1200 g are on hand; there is more in 24-140")
    assert floor.asks(take(1_200.0)) is None
    assert floor.asks(take(1_300.0, "24-118")) == (
        "lot 24-118: by the records only 0 g are on hand; there is more in 24-140"
    )


def test_the_last_lot_falls_short_of_all() -> None:
    floor = Floor(lots=[lot("24-118", 300.0)])
    asked = floor.asks(take(400.0))
    assert asked == "lot 24-118: by the records only 300 g are on hand"


def test_what_is_on_hand_is_told_as_it_lies_on_the_scale() -> None:
    """870 g at 13 % hold 756.9 g of dry leaf, which at 20 % weigh 946.125 g."""
    floor = Floor(lots=[lot("24-118", 870.0)])
    floor.records(ask.Moisture("SE-1", 0.20))
    assert "only 946 g are on hand" in str(floor.asks(take(1_000.0)))
    assert floor.asks(take(946.0)) is None


def test_what_the_scale_cannot_tell_is_not_short() -> None:
    """The scale shows tenths of a gram."""
    assert Floor(lots=[lot("24-118", 449.95)]).asks(take(450.0)) is None
    assert Floor(lots=[lot("24-118", 449.85)]).asks(take(450.0)) is not None


def test_leaf_of_no_lot_is_not_asked_about() -> None:
    assert Floor().asks(take(450.0)) is None


def test_a_lot_undone_from_which_leaf_was_issued_is_asked_about() -> None:
    floor = Floor()
    floor.records(receive("24-118", 2_000.0))
    floor.records(receive("24-131", 2_000.0))
    floor.records(take(450.0))
    assert floor.asks(ask.Undo(2)) is None
    asked = floor.asks(ask.Undo(1))
    assert asked == (
        "leaf of lot 24-118 was issued since: by the records less than none would be on hand"
    )


def test_a_return_undone_whose_leaf_went_out_again_is_asked_about() -> None:
    floor = Floor(lots=[lot("24-118", 450.0)])
    floor.records(take(450.0))
    floor.records(ask.Leaf("7", "back", "SE-1", 200.0))
    floor.records(take(200.0, bench="8"))
    assert "lot 24-118 was issued since" in str(floor.asks(ask.Undo(2)))


def test_a_count_since_then_stands_whatever_is_undone_before_it() -> None:
    floor = Floor()
    floor.records(receive("24-118", 2_000.0))
    floor.records(take(450.0))
    floor.records(ask.Stocktake("SE-1", "24-118", 1_500.0))
    assert floor.asks(ask.Undo(1)) is None


def test_more_of_a_lot_is_asked_about_however_it_is_spelt() -> None:
    floor = Floor(lots=[lot("B-12", 100.0)])
    asked = floor.asks(receive("b-12", 5_000.0))
    assert asked == "lot B-12 is in stock already, and this adds to it"
    assert floor.asks(receive("B-13", 5_000.0)) is None


@pytest.mark.parametrize(
    ("grams", "why"),
    [
        (36.2, "36.2 g is little for a lot; kilograms are typed as 36.2kg"),
        (36_200.0, None),
        (36_200_000.0, "a great deal for a lot"),
    ],
)
def test_a_lot_typed_in_the_wrong_unit_is_asked_about(grams: float, why: str | None) -> None:
    assert Floor().asks(receive("24-118", grams)) == why


@pytest.mark.parametrize(
    ("found_g", "why"),
    [
        (9_500.0, None),
        (10_900.0, None),
        (8_000.0, "that is 2.0 kg less than the records have on hand"),
        (0.0, "that is 10.0 kg less than the records have on hand"),
        (12_000.0, "that is 2.0 kg more than the records have on hand"),
    ],
)
def test_a_count_far_from_the_records_is_asked_about(found_g: float, why: str | None) -> None:
    floor = Floor(lots=[lot("24-118", 10_000.0)])
    assert floor.asks(ask.Stocktake("SE-1", "24-118", found_g)) == why


def test_a_count_of_a_lot_that_never_came_is_asked_about_and_then_it_is_there() -> None:
    floor = Floor(lots=[lot("24-118", 10_000.0)])
    found = ask.Stocktake("SE-1", "24-999", 3_000.0)
    assert floor.asks(found) == "lot 24-999 of SE-1 was never received"
    floor.records(found)
    assert floor.asks(take(450.0, "24-999")) is None


@pytest.mark.parametrize(
    ("request_", "what"),
    [
        (ask.Scrap("7", 20_001.0, kind="stem"), "stem"),
        (ask.Scrap("7", 20_001.0, "SE-1"), "cuttings"),
        (ask.Sweepings(20_001.0), "sweepings"),
    ],
)
def test_a_great_deal_swept_up_or_cut_off_is_asked_about(request_: ask.Request, what: str) -> None:
    assert Floor().asks(request_) == f"a great deal of {what} at once"


def test_a_lot_that_is_not_there_is_refused_by_name() -> None:
    floor = Floor(lots=[lot("24-118", 10_000.0), lot("24-131", 10_000.0)])
    with pytest.raises(BadInput, match="no lot 24-999: in stock are 24-118, 24-131; a new lot"):
        floor.asks(take(450.0, "24-999"))
    with pytest.raises(BadInput, match="LI-1 has no lot 24-118: no lot of it is in stock"):
        floor.asks(ask.Leaf("7", "take", "LI-1", 450.0, "24-118"))


def test_the_same_check_typed_twice_soon_is_asked_about() -> None:
    floor = Floor()  # the quarter of an hour is common practice, no source
    floor.records(ask.Check("7", "bunch", (10.8, 10.9)))
    again = floor.asks(ask.Check("7", "bunch", (10.8, 10.9)))
    assert again == "the same readings are recorded already, entry 1 at 08:00"
    assert floor.asks(ask.Check("7", "bunch", (10.9, 10.8))) is None
    floor.records(ask.Check("7", "bunch", (10.8,)))
    assert floor.asks(ask.Check("7", "bunch", (10.8,))) is None
