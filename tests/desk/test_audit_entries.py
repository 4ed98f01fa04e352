"""Entries that do not fit, in lines whose checksums are right: each is told with its place."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from core.desk.audit import audit
from core.desk.desk import Desk
from core.desk.faces import Recorded
from tests.desk.conftest import HandClock
from tests.records.books import in_use, put_in, signed, sum_in

DAY = "days/2026-05-04.jsonl"
RECORDED = ("7 made 50", "7 9.9", "undo 1")
"""Entries 1 to 3, as a desk records them; 2 opens a check."""

AT_7 = {"bench": "7", "blend": "B1", "vitola": "toro"}


@pytest.fixture
def data(desk: Desk) -> Path:
    for line in RECORDED:
        desk.enter(line, None)
    assert len(desk.ledger.entries) == len(RECORDED)
    return desk.data_folder


def entry(number: int, kind: str, **fields: Any) -> dict[str, Any]:
    stamp = {"id": number, "kind": kind, "at": "2026-05-04T09:00:00.000Z", "offset": 0}
    return {**stamp, "event": f"e{number}", "terminal": "T1", "house": 1, **fields}


def plant(data: Path, *entries: dict[str, Any] | None, numbers: tuple[int, ...] = ()) -> None:
    """Add lines by hand, with the right checksums."""
    path = data / DAY
    for n, document in enumerate(entries):
        number = numbers[n] if numbers else (document or {})["id"]
        prev = sum_in(in_use(path).splitlines()[-1])
        put_in(path, signed({"set": {"entries": {str(number): document}}}, prev))


def told(data: Path) -> list[str]:
    return [p.removeprefix(f"{DAY}: ") for p in audit(data).problems]


def test_what_a_desk_records_is_sound(data: Path) -> None:
    plant(data, entry(4, "made", n=3, **AT_7))
    assert told(data) == []


@pytest.mark.parametrize(
    ("document", "says"),
    [
        (entry(4, "made", n=3), "is no sound entry of kind made: bench: field required"),
        (entry(4, "check", **AT_7), "is no sound entry of kind check: measure: field required"),
        (entry(4, "made", n="many", **AT_7), "is no sound entry of kind made: n: "),
        (entry(4, "praise", **AT_7), "is of no known kind: praise"),
        (entry(4, "made", n=3, **AT_7, house=9), "judged by house book 9, which is not there"),
        (
            entry(4, "made", n=3, **{**AT_7, "bench": "70"}),
            "names bench 70, which house book 1 does not have",
        ),
        (
            entry(4, "made", n=3, **{**AT_7, "blend": "B9"}),
            "names blend B9, which house book 1 does not have",
        ),
        (
            entry(4, "roll", **{**AT_7, "vitola": "lancero"}),
            "names vitola lancero, which house book 1 does not have",
        ),
        (
            entry(4, "moisture", leaf="XX-1", moisture=0.14),
            "names leaf XX-1, which house book 1 does not have",
        ),
        (entry(4, "note", text="dry", bench="70"), "names bench 70, which house book 1"),
        (entry(4, "undo", voids=3), "voids entry 3, which is itself an undo"),
        (entry(4, "undo", voids=9), "voids entry 9, which is not there"),
        (entry(4, "undo", voids=1), "voids entry 1, which entry 3 had already voided"),
        (entry(4, "done", check=9, **AT_7), "belongs to check 9, which is not there"),
        (entry(4, "done", check=1, **AT_7), "belongs to check 1, which is an entry of kind made"),
        (entry(4, "done", check=4, **AT_7), "belongs to check 4, which is not there"),
        (entry(4, "reopen", reason="x"), "opens the day again, which is not closed"),
    ],
)
def test_an_entry_that_does_not_fit(data: Path, document: dict[str, Any], says: str) -> None:
    plant(data, document)
    (problem,) = told(data)
    assert problem.startswith(f"entry 4: {says}")


STOCK = {"leaf": "SE-1", "grams": 900.0, "moisture": 0.13}


@pytest.mark.parametrize(
    ("document", "says"),
    [
        (entry(5, "hold", n=3, reason=7, **AT_7), "is no sound entry of kind hold: reason: "),
        (entry(5, "second", **AT_7), "is no sound entry of kind second: n: field required"),
        (entry(5, "release", n=3), "is no sound entry of kind release: bench: field required"),
        (entry(5, "stem", leaf="LI-1", **AT_7), "is no sound entry of kind stem: grams: "),
        (entry(5, "sweepings", grams=20.0), "is no sound entry of kind sweepings: moisture: "),
        (entry(5, "receive", **STOCK), "is no sound entry of kind receive: lot: field required"),
        (
            entry(5, "receive", **STOCK, lot="L9", crop="old"),
            "is no sound entry of kind receive: crop: ",
        ),
        (
            entry(5, "stocktake", **{**STOCK, "leaf": "XX-1"}, lot="L9"),
            "names leaf XX-1, which house book 1 does not have",
        ),
        (
            entry(5, "take", **STOCK, **AT_7, lot="L9"),
            "is of lot L9 of SE-1, which was never received",
        ),
        (
            entry(5, "back", **STOCK, **AT_7, lot="L9"),
            "is of lot L9 of SE-1, which was never received",
        ),
    ],
    ids=lambda value: value["kind"] if isinstance(value, dict) else "",
)
def test_an_entry_of_output_or_stock_that_does_not_fit(
    data: Path, document: dict[str, Any], says: str
) -> None:
    plant(data, entry(4, "receive", **STOCK, lot="L8"), document)
    (problem,) = told(data)
    assert problem.startswith(f"entry 5: {says}")


def test_leaf_of_a_lot_that_came_or_was_found_is_sound(data: Path) -> None:
    plant(
        data,
        entry(4, "receive", **STOCK, lot="L8"),
        entry(5, "take", **STOCK, **AT_7, lot="L8"),
        entry(6, "stocktake", **STOCK, lot="L9"),
        entry(7, "back", **STOCK, **AT_7, lot="L9"),
        entry(8, "take", **STOCK, **AT_7),
    )
    assert told(data) == []


def test_a_leaf_without_lots_says_nothing_of_the_lot_it_was_issued_of(data: Path) -> None:
    """The line that received it may be the damaged one, and it is told."""
    plant(data, entry(4, "take", **STOCK, **AT_7, lot="L8"))
    plant(data, entry(5, "receive", **{**STOCK, "leaf": "LI-1"}, lot="L8"))
    assert told(data) == []


def test_a_lot_that_the_day_began_with_is_known(desk: Desk, clock: HandClock) -> None:
    desk.enter("receive SE-1 L8 9kg", None)
    clock.forward(days=1)
    for line in ("7 take SE-1 450", "receive SE-1 L9 9kg", "7 back SE-1 60 lot l8"):
        assert isinstance(desk.enter(line, None), Recorded)
    assert desk.day.isoformat() == "2026-05-05"
    assert audit(desk.data_folder).problems == ()


def test_entries_after_a_close_need_a_reopen(data: Path) -> None:
    made = {"n": 3, **AT_7}
    plant(data, entry(4, "close"), entry(5, "made", **made), entry(6, "close"))
    closed = "comes after the day was closed, and nothing opened it again"
    assert told(data) == [f"entry 5: {closed}", f"entry 6: {closed}"]
    plant(data, entry(7, "reopen", reason="found"), entry(8, "made", **made))
    assert told(data) == [f"entry 5: {closed}", f"entry 6: {closed}"]
    plant(data, entry(9, "undo", voids=4))
    assert told(data)[2:] == ["entry 9: voids entry 4, which is a close"]


def test_an_entry_out_of_order(data: Path) -> None:
    plant(data, entry(6, "made", n=3, **AT_7), entry(5, "made", n=3, **AT_7))
    assert told(data) == ["entry 5: comes after entry 6, out of order"]


def test_an_entry_under_anothers_number(data: Path) -> None:
    plant(data, entry(9, "made", n=3, **AT_7), numbers=(4,))
    assert told(data) == ["entry 4: calls itself entry 9"]


def test_an_entry_changed_or_taken_out_by_a_later_line(data: Path) -> None:
    plant(data, entry(1, "made", n=90, **AT_7))
    assert told(data) == ["entry 1: comes after entry 3, out of order"]
    plant(data, None, numbers=(2,))
    assert "entry 2: was taken out of the records" in told(data)[1]


def began(**wrong: Any) -> dict[str, Any]:
    return {"house": 1, "seats": {}, "moistures": {}, **wrong}


@pytest.mark.parametrize(
    ("opening", "where"),
    [
        (began(seats=7), "seats"),
        (began(lots=7), "lots"),
        (began(lots=None), "lots"),
        (began(lots=[{"leaf": ["SE-1"], "lot": "L8"}]), "lots.0.leaf"),
        (began(held={"7": "some"}), "held.7"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_an_opening_that_is_none(data: Path, opening: dict[str, Any], where: str) -> None:
    path = data / DAY
    prev = sum_in(in_use(path).splitlines()[-1])
    put_in(path, signed({"set": {"opening": {"2": opening}}}, prev))
    (problem,) = told(data)
    assert problem.startswith(f"opening: is none: {where}: ")


def test_a_house_book_that_cannot_be_read_is_told_once(desk: Desk, data: Path) -> None:
    path = data / "house.jsonl"
    prev = sum_in(in_use(path).splitlines()[-1])
    put_in(path, signed({"set": {"versions": {"2": {"at": "2026-05-04T07:00:00Z"}}}}, prev))
    plant(data, entry(4, "made", n=3, **{**AT_7, "house": 2}))
    (problem,) = audit(data).problems
    assert problem.startswith("house.jsonl: house book version 2 cannot be read")
