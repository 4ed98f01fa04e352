"""`rounds`: the table and its JSON."""

from __future__ import annotations

from tests.commands.conftest import Bunchbook

LATER = "2026-05-04 10:27"


def test_the_rounds_as_a_table_and_as_json(loaded: Bunchbook) -> None:
    target = loaded("card", "7", "--json").json["targets"]["bunch"]["target_g"]
    assert loaded("enter", f"7 {target:.2f}").code == 0
    told = loaded("rounds", at=LATER)
    head, *rows = told.out.splitlines()
    assert head.split() == ["bench", "pair", "vitola", "why"]
    assert [row.split()[0] for row in rows] == ["7-A", "8", "7"]
    assert rows[-1].endswith("overdue by 12 min")
    assert max(map(len, told.out.splitlines())) <= 80
    found = loaded("rounds", "--json", at=LATER).json
    assert found[0] == {
        "bench": "7-A",
        "buncher": None,
        "vitola": "corona",
        "blend": "B1",
        "reason": "first piece",
        "says": "first piece: not weighed yet today",
        "due": None,
        "overdue_min": None,
    }
    assert (found[2]["bench"], found[2]["reason"]) == (7, "overdue")
    assert found[2]["overdue_min"] == 12.0
    assert found[2]["due"].startswith("2026-05-04T10:15:00")


def test_a_question_in_the_past_is_answered_as_of_then(loaded: Bunchbook) -> None:
    loaded("enter", "7 11.2 11.2 11.2 !", at=LATER)
    assert [line["reason"] for line in loaded("rounds", "--json").json] == ["first piece"] * 3


def test_without_a_house_book_there_is_nobody_to_weigh(bunchbook: Bunchbook) -> None:
    refused = bunchbook("rounds")
    assert (refused.code, refused.out) == (2, "")
    assert "no house book is loaded yet" in refused.err
