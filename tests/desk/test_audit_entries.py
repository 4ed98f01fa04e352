"""Entries that do not fit, in lines whose checksums are right: each is told with its place."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from core.desk.audit import audit
from core.desk.desk import Desk
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


def test_an_opening_that_is_none(data: Path) -> None:
    path = data / DAY
    prev = sum_in(in_use(path).splitlines()[-1])
    put_in(path, signed({"set": {"opening": {"2": {"house": 1, "seats": 7}}}}, prev))
    (problem,) = told(data)
    assert problem.startswith("opening: is none: seats: ")


def test_a_house_book_that_cannot_be_read_is_told_once(desk: Desk, data: Path) -> None:
    path = data / "house.jsonl"
    prev = sum_in(in_use(path).splitlines()[-1])
    put_in(path, signed({"set": {"versions": {"2": {"at": "2026-05-04T07:00:00Z"}}}}, prev))
    plant(data, entry(4, "made", n=3, **{**AT_7, "house": 2}))
    (problem,) = audit(data).problems
    assert problem.startswith("house.jsonl: house book version 2 cannot be read")
