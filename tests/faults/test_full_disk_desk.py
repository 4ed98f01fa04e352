"""A full disk as somebody at a shell or a floor meets it: a sentence, the line kept, one entry."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import NotSaved, Recorded
from tests.commands.conftest import HOUSE, Bunchbook
from tests.desk.conftest import MORNING, HandClock, load
from tests.faults.disk import fill_up, refuse_to_write

NOTES = [f"7 note {n} {'x' * 300}" for n in range(400)]
FULL = "the disk is full; free some space on it, then try again"


def notes(bunchbook: Bunchbook, data: tuple[str, str]) -> list[str]:
    kept = bunchbook("day", "--json", *data).json["notes"]
    return [f"{note['bench']} note {note['text']}" for note in kept]


def test_lines_a_full_disk_does_not_take_are_named_and_taken_later(
    small_disk: Path, bunchbook: Bunchbook
) -> None:
    data = ("--data", str(small_disk))
    assert bunchbook("house", "load", str(HOUSE), *data).code == 0
    spare = small_disk / "spare"
    spare.write_bytes(bytes(32_768))
    ran = bunchbook("enter", "-", "--json", *data, typed="\n".join(NOTES))
    assert ran.code == 3
    saved = [row["line"] for row in ran.lines if row["ok"]]
    refused = [row for row in ran.lines if not row["ok"]]
    assert [*saved, *(row["line"] for row in refused)] == NOTES
    assert saved
    assert all(FULL in row["problem"] for row in refused)
    assert notes(bunchbook, data) == saved
    spare.unlink()
    again = [row["line"] for row in refused[:20]]
    assert bunchbook("enter", "-", *data, typed="\n".join(again)).code == 0
    assert notes(bunchbook, data) == [*saved, *again]
    assert bunchbook("verify", *data).code == 0


def test_a_message_for_a_person_names_the_line_and_what_to_do(
    small_disk: Path, bunchbook: Bunchbook
) -> None:
    data = ("--data", str(small_disk))
    assert bunchbook("house", "load", str(HOUSE), *data).code == 0
    fill_up(small_disk)
    ran = bunchbook("enter", "7 made 50", *data)
    assert (ran.code, ran.out) == (3, "")
    assert ran.err.startswith("not saved: 7 made 50: ")
    assert FULL in ran.err


def test_a_day_that_cannot_begin_begins_when_there_is_room(
    small_disk: Path, bunchbook: Bunchbook
) -> None:
    data = ("--data", str(small_disk))
    assert bunchbook("house", "load", str(HOUSE), *data).code == 0
    spare = fill_up(small_disk)
    for _ in range(2):
        assert bunchbook("enter", "7 made 50", *data).code == 3
        assert bunchbook("day", "--json", *data).json["entries"] == 0
        assert bunchbook("card", "7", *data).code == 0
    spare.unlink()
    assert bunchbook("enter", "7 made 50", *data).code == 0
    assert bunchbook("day", "--json", *data).json["totals"]["made"] == 50
    assert bunchbook("verify", "--json", *data).json["repaired"] == []


def test_a_day_that_could_not_begin_is_no_damage(small_disk: Path, bunchbook: Bunchbook) -> None:
    data = ("--data", str(small_disk))
    assert bunchbook("house", "load", str(HOUSE), *data).code == 0
    fill_up(small_disk)
    assert bunchbook("enter", "7 made 50", *data).code == 3
    assert bunchbook("verify", *data).code == 0


def test_what_was_rolled_outlives_a_day_that_never_began(
    small_disk: Path, bunchbook: Bunchbook
) -> None:
    data = ("--data", str(small_disk))
    assert bunchbook("house", "load", str(HOUSE), *data).code == 0
    assert bunchbook("enter", "7 roll corona", "LI-1 15%", *data).code == 0
    spare = fill_up(small_disk)
    assert bunchbook("enter", "7 made 50", *data, at="2026-05-05 09:00").code == 3
    spare.unlink()
    for at in ("2026-05-05 10:00", "2026-05-06 09:00"):
        card = bunchbook("card", "7", "--json", *data, at=at).json
        assert card["vitola"] == "corona", at
        assert {row["leaf"]: row["moisture"] for row in card["classes"]}["LI-1"] == 0.15, at


def test_a_day_that_cannot_be_closed_stays_open(small_disk: Path, bunchbook: Bunchbook) -> None:
    data = ("--data", str(small_disk))
    assert bunchbook("house", "load", str(HOUSE), *data).code == 0
    spare = small_disk / "spare"
    spare.write_bytes(bytes(32_768))
    bunchbook("enter", "-", *data, typed="\n".join(NOTES))
    while bunchbook("enter", "note x", *data).code == 0:
        pass
    ran = bunchbook("close", *data)
    assert (ran.code, ran.out) == (3, "")
    assert FULL in ran.err
    assert not bunchbook("day", "--json", *data).json["closed"]
    spare.unlink()
    assert bunchbook("close", *data).code == 0
    assert bunchbook("day", "--json", *data).json["closed"]
    assert bunchbook("verify", *data).code == 0


def test_a_summary_that_cannot_be_kept_is_told_and_can_be_made_good(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, bunchbook: Bunchbook
) -> None:
    """The day's own book takes the closing; the book that keeps the summaries takes nothing."""
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    with monkeypatch.context() as full:
        refuse_to_write(full, lambda path: path.parent.name != "days")
        ran = bunchbook("close")
    assert "the disk is full" in ran.out + ran.err
    assert "close it again" in ran.out + ran.err
    assert bunchbook("day", "--json").json["closed"]
    assert bunchbook("close").code == 0
    assert bunchbook("verify").code == 0


def test_a_summary_that_cannot_be_kept_is_no_success(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, bunchbook: Bunchbook
) -> None:
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    with monkeypatch.context() as full:
        refuse_to_write(full, lambda path: path.parent.name != "days")
        assert bunchbook("close").code == 3


def test_a_line_kept_by_a_floor_is_one_entry_when_there_is_room(small_disk: Path) -> None:
    desk = Desk(small_disk, HandClock(MORNING), "T1")
    load(desk)
    spare = fill_up(small_disk)
    outcome = desk.enter("10.8", "7")
    assert isinstance(outcome, NotSaved)
    assert outcome.line == "10.8"
    assert FULL in outcome.says
    assert desk.log() == ()
    assert desk.open_check("7") is None
    spare.unlink()
    assert isinstance(desk.enter(outcome.line, "7"), Recorded)
    assert [line.id for line in Desk(small_disk, HandClock(MORNING), "T2").log()] == [1]
    desk.folder.close()
