"""Books of a newer program are refused in words and left as they are; older ones are read."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest

from core.desk.desk import Desk
from core.desk.faces import NotSaved, Recorded
from tests.commands.conftest import HOUSE, Bunchbook
from tests.desk.conftest import HandClock
from tests.floor.hall import floor
from tests.records.books import in_use, signed, sum_in

DAY_FILE, HOUSE_FILE = "days/2026-05-04.jsonl", "house.jsonl"
NEWER = "newer version of this program"
START = "0" * 32


def chained(*bodies: dict[str, Any]) -> bytes:
    """A book's lines as the format says, each naming the sum before it."""
    lines, prev = b"", START
    for body in bodies:
        line = signed(body, prev)
        prev = sum_in(line)
        lines += line
    return lines


def newer(kind: str) -> bytes:
    head = {"format": 2, "kind": kind, "day": "2026-05-04"}
    return chained({"book": head}, {"set": {"entries": {"1": {"id": 1, "kind": "hours"}}}})


def digest(folder: Path) -> dict[str, str]:
    """What every book of the folder holds."""
    books = sorted(folder.rglob("*.jsonl"))
    return {str(b): hashlib.sha256(b.read_bytes()).hexdigest() for b in books}


OF_THE_DAY = (
    ("enter", "7 made 5"),
    ("card", "7"),
    ("day",),
    ("day", "--json"),
    ("close",),
    ("reopen", "more to enter"),
    ("verify",),
)
OF_THE_HOUSE = (*OF_THE_DAY, ("house", "show"), ("house", "load", str(HOUSE)), ("line", "B1"))


@pytest.mark.parametrize(
    ("file", "words"),
    [(DAY_FILE, words) for words in OF_THE_DAY] + [(HOUSE_FILE, words) for words in OF_THE_HOUSE],
    ids=lambda part: " ".join(part) if isinstance(part, tuple) else part.split("/")[-1],
)
def test_a_newer_programs_book_is_refused_by_every_command(
    loaded: Bunchbook, tmp_path: Path, file: str, words: tuple[str, ...]
) -> None:
    data = tmp_path / "data"
    assert loaded("enter", "7 made 50").code == 0
    (data / file).write_bytes(newer("day" if file == DAY_FILE else "house"))
    before = digest(data)
    ran = loaded(*words)
    assert (ran.code, ran.out) == (3, ""), ran
    assert NEWER in ran.err
    assert "update this program" in ran.err
    assert str(data / file) in ran.err
    assert digest(data) == before


def test_a_newer_programs_day_does_not_keep_the_next_from_being_worked_on(
    loaded: Bunchbook, tmp_path: Path
) -> None:
    """What it carried over cannot be read, so that is refused too, not guessed."""
    (tmp_path / "data" / "days").mkdir()
    (tmp_path / "data" / DAY_FILE).write_bytes(newer("day"))
    ran = loaded("enter", "7 made 5", at="2026-05-05 09:00")
    assert ran.code == 3
    assert NEWER in ran.err


@pytest.mark.parametrize("file", [DAY_FILE, HOUSE_FILE])
async def test_an_open_floor_says_so_and_writes_nothing(
    desk: Desk, tmp_path: Path, file: str
) -> None:
    data = tmp_path / "data"
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    async with floor(desk) as hall:
        copy = tmp_path / "copy"
        copy.write_bytes(newer("day" if file == DAY_FILE else "house"))
        copy.rename(data / file)
        before = digest(data)
        await hall.shows("update this program")
        await hall.shows(f"{file}: a newer version")
        hall.type("7 made 5\r")
        await hall.shows("NOT SAVED, the line is kept")
        assert hall.app.clerk.draft.text == "7 made 5"
        assert digest(data) == before
        assert isinstance(desk.enter("7 made 5", None), NotSaved)
    assert digest(data) == before


def test_a_day_written_by_the_first_version_is_read(loaded: Bunchbook, tmp_path: Path) -> None:
    """No key that was not there at first is needed: not in the opening, not in an entry."""
    stamp = {"at": "2026-05-04T06:00:00.000Z", "offset": 120, "terminal": "T1", "house": 1}
    at_bench = {"bench": "7", "blend": "B1", "vitola": "corona"}
    entries = (
        {"id": 1, "kind": "made", **stamp, "event": "a1", **at_bench, "n": 50},
        {"id": 2, "kind": "note", **stamp, "event": "a2", "text": "first"},
    )
    carried = {"blend": "B1", "vitola": "corona", "quota": None, "house": 1}
    opening = {"house": 1, "seats": {"7": carried}, "moistures": {}}
    lines = chained(
        {"book": {"format": 1, "kind": "day", "day": "2026-05-04"}},
        {"set": {"opening": {"1": opening}}},
        *({"set": {"entries": {str(entry["id"]): entry}}} for entry in entries),
    )
    day = tmp_path / "data" / DAY_FILE
    day.parent.mkdir(exist_ok=True)
    day.write_bytes(lines)
    assert loaded("card", "7", "--json").json["vitola"] == "corona"
    report = loaded("day", "--json").json
    assert (report["totals"]["made"], report["entries"], report["damaged_lines"]) == (50, 2, 0)
    ran = loaded("enter", "7 made 5", "--json")
    assert json.loads(ran.out)["entry"] == 3
    assert day.read_bytes().startswith(lines)
    assert loaded("verify", "--json").json["sound"]
    assert loaded("card", "7", "--json", at="2026-05-05 09:00").json["vitola"] == "corona"


def test_keys_of_a_later_program_in_a_book_of_this_format_do_no_harm(
    desk: Desk, clock: HandClock, tmp_path: Path
) -> None:
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    day = tmp_path / "data" / DAY_FILE
    last = sum_in(in_use(day).splitlines()[-1])
    entry = dict(desk.ledger.entries[1]) | {"id": 2, "event": "later", "shift": "late"}
    with day.open("r+b") as book:
        book.seek(len(in_use(day)))
        book.write(signed({"set": {"entries": {"2": entry}}}, last))
    assert desk.follow() is not None
    assert desk.report().totals.made == 100
