"""Checks carried from day to day, for charts to go on from."""

from __future__ import annotations

import datetime as dt
from typing import Any, cast

import pytest

from core.day.history import FORGOTTEN, Kind, carry, kind_carried, made_today, take_apart
from core.day.ledger import Ledger
from core.day.verify import examine_opening
from core.house.model import HouseBook
from tests.day.book import HOUSE

MONDAY = dt.date(2026, 5, 4)
TORO = Kind("bunch", "B1", "toro", "P-07")


def check(number: int, *readings: float, **more: Any) -> Any:
    """A bunch check at bench 7, 08:00 and as many minutes as its number, two hours east."""
    at = dt.datetime(2026, 5, 4, 6, 0, tzinfo=dt.UTC) + dt.timedelta(minutes=number)
    return {
        "id": number, "at": f"{at:%Y-%m-%dT%H:%M}:30.000Z", "offset": 120, "event": "e",
        "terminal": "T1", "house": 1, "bench": "7", "blend": "B1", "vitola": "toro",
        "kind": "check", "measure": "bunch", "readings": list(readings),
        "target": 15.0, "low": 14.4, "high": 15.6,
    } | more  # fmt: skip


def day_of(*entries: Any, houses: dict[int, HouseBook] | None = None) -> Ledger:
    ledger = Ledger(houses or {1: HOUSE})
    for entry in entries:
        ledger.add(entry)
    return ledger


def test_checks_come_back_as_they_were_to_a_thousandth() -> None:
    ledger = day_of(check(1, 15.1, 15.3), check(2, 14.9), check(3, 15.0, 15.0, 15.4))
    made = made_today("7", ledger.bench("7").checks, MONDAY, ledger.houses)[TORO].charted
    (carried,) = carry({}, ledger, MONDAY)["7"]
    assert kind_carried(carried) == TORO
    back = take_apart(carried)
    assert [(c.check, c.group.n) for c in back] == [(1, 2), (2, 1), (3, 3)]
    assert {c.day for c in back} == {MONDAY}
    for now, then in zip(back, made, strict=True):
        assert now.at == then.at.replace(second=0)
        assert now.group.mean == pytest.approx(then.group.mean, abs=0.0005)
        assert now.group.s == (then.group.s and pytest.approx(then.group.s, abs=0.0005))


def test_each_check_keeps_its_own_target() -> None:
    wetter = check(2, 15.4, 15.6, target=15.5, low=14.9, high=16.1)
    ledger = day_of(check(1, 14.9, 15.1), wetter)
    made = made_today("7", ledger.bench("7").checks, MONDAY, ledger.houses)
    assert [c.group.mean for c in made[TORO].charted] == pytest.approx([0.0, 0.0])


def test_the_latest_fifty_are_carried_over_the_days() -> None:
    first = carry({}, day_of(*(check(n, 15.0, 15.1) for n in range(1, 41))), MONDAY)
    tuesday = MONDAY + dt.timedelta(days=1)
    second = carry(first, day_of(*(check(n, 15.2, 15.3) for n in range(1, 21))), tuesday)
    checks = take_apart(second["7"][0])
    assert len(checks) == 50
    assert [c.check for c in checks] == [*range(11, 41), *range(1, 21)]
    assert [c.day for c in checks] == [MONDAY] * 30 + [tuesday] * 20


def test_a_bench_without_checks_carries_on_what_it_has_until_that_is_forgotten() -> None:
    first = carry({}, day_of(check(1, 15.0, 15.1)), MONDAY)
    assert carry(first, day_of(), MONDAY + FORGOTTEN) == first
    assert carry(first, day_of(), MONDAY + FORGOTTEN + dt.timedelta(days=1)) == {}


def test_open_and_undone_checks_are_not_carried() -> None:
    opened = check(2, kind="reading", reading=15.0, check=2, needs=3)
    del opened["readings"]
    undo = {**check(3), "kind": "undo", "voids": 1}
    assert carry({}, day_of(check(1, 15.0), opened, undo), MONDAY) == {}


def test_other_vitolas_measures_and_hands_are_apart() -> None:
    benches = tuple(b._replace(buncher="P-70") if b.number == "7" else b for b in HOUSE.benches)
    ledger = day_of(
        check(1, 15.0),
        check(2, 9.0, vitola="corona"),
        check(3, 10.0, measure="filler"),
        check(4, 15.0, house=2),
        check(5, 4.0, measure="portion", leaf="LI-1"),
        houses={1: HOUSE, 2: HOUSE._replace(benches=benches)},
    )
    assert [kind_carried(carried) for carried in carry({}, ledger, MONDAY)["7"]] == [
        TORO,
        Kind("bunch", "B1", "corona", "P-07"),
        Kind("filler", "B1", "toro", "P-07"),
        Kind("bunch", "B1", "toro", "P-70"),
        Kind("portion", "B1", "toro", "P-07", "LI-1"),
    ]


def test_draw_read_in_another_way_has_a_chart_of_its_own() -> None:
    """In millimetres of water, on a dial, and on a dial that falls as the draw gets tighter."""
    ledger = day_of(
        check(1, 60.0, measure="draw", unit="mmH2O", rises="tighter"),
        check(2, 5.0, measure="draw", unit="dial", rises="tighter"),
        check(3, 5.0, measure="draw", unit="dial", rises="looser"),
        check(4, 5.2, measure="draw", unit="dial", rises="looser"),
    )
    carried = carry({}, ledger, MONDAY)["7"]
    assert [kind_carried(each).of for each in carried] == ["mmH2O", "dial tighter", "dial looser"]
    assert [len(take_apart(each)) for each in carried] == [1, 1, 2]


def test_a_bundle_is_carried_as_one_of_its_cigars() -> None:
    ledger = day_of(check(1, 401.0, 399.0, measure="bundle", of=25, target=390.0))
    (carried,) = carry({}, ledger, MONDAY)["7"]
    assert take_apart(carried)[0].group.mean == pytest.approx(10 / 25)


def test_a_night_shifts_check_after_midnight_keeps_its_day_and_time() -> None:
    late = check(1, 15.0, at="2026-05-04T23:10:00.000Z")
    (carried,) = carry({}, day_of(late), MONDAY)["7"]
    (found,) = take_apart(carried)
    assert found.day == MONDAY
    assert found.at.isoformat() == "2026-05-05T01:10:00+02:00"


def test_an_opening_whose_columns_do_not_fit_is_a_problem() -> None:
    opening: dict[str, Any] = {"house": 1, "seats": {}, "moistures": {}}
    assert examine_opening("days/x", opening) == ()
    opening["checks"] = carry({}, day_of(check(1, 15.0), check(2, 15.1)), MONDAY)
    assert examine_opening("days/x", opening) == ()
    carried = cast(Any, opening["checks"]["7"][0])
    for column, wrong in (
        ("n", "1"),
        ("off", "0 x"),
        ("days", "2026-05-04"),
        ("at", "1 " + "9" * 20),
    ):
        damaged = {"7": [{**carried, column: wrong}]}
        (problem,) = examine_opening("days/x", {**opening, "checks": damaged})
        assert "checks of bench 7 whose columns do not fit" in str(problem)
