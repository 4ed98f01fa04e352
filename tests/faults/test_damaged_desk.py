"""A damaged day or house file: the desk opens, keeps what is sound, says so, and goes on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded
from tests.commands.conftest import Bunchbook
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock, load
from tests.records.books import in_use

DAY, HOUSE = "days/2026-05-04.jsonl", "house.jsonl"
LINES = ("7 made 50", "7 good 45", "8 10.8 10.9 11.0", "7 fail plugged 2", "8 take LI-1 450")
FIRST_ENTRY_LINE = 2
"""The head is line 0, the day's opening line 1."""
HOUSE_TOML_2 = HOUSE_TOML.replace('"0.6 g"', '"0.7 g"')

Damage = Callable[[bytes, int], bytes]


def flip(whole: bytes, at: int) -> bytes:
    return whole[:at] + bytes([whole[at] ^ 1 << at % 8]) + whole[at + 1 :]


def cut(whole: bytes, at: int) -> bytes:
    return whole[:at]


DAMAGES = pytest.mark.parametrize("damage", [flip, cut])


def places(whole: bytes, every: int) -> Iterator[int]:
    """Bytes spread over the file, and those about each line's end."""
    ends = [at for at in range(len(whole)) if whole[at : at + 1] == b"\n"]
    near = {at + step for at in ends for step in (-1, 0, 1)}
    yield from sorted({*range(0, len(whole), every), *near} & set(range(len(whole))))


def untouched(whole: bytes, damage: Damage, at: int) -> list[int]:
    """The entries whose lines the damage left alone."""
    line = whole.count(b"\n", 0, at)
    if damage is cut:
        last = line - (whole[at : at + 1] != b"\n")  # a whole line that only lacks its end is kept
        return [n for n in range(1, len(LINES) + 1) if n - 1 + FIRST_ENTRY_LINE <= last]
    hurt = line - FIRST_ENTRY_LINE + 1 if whole[at : at + 1] != b"\n" else 0
    return [n for n in range(1, len(LINES) + 1) if n != hurt]


@pytest.fixture
def data(desk: Desk, tmp_path: Path) -> Path:
    """A folder with two versions of the house book and a day's entries."""
    load(desk, HOUSE_TOML_2)
    for line in LINES:
        assert isinstance(desk.enter(line, None), Recorded)
    desk.folder.close()
    return tmp_path / "data"


def reopened(data: Path) -> Desk:
    return Desk(data, HandClock(MORNING + dt.timedelta(hours=1)), "T2")


def day_is_kept(data: Path, damage: Damage, every: int) -> None:
    whole = in_use(data / DAY)
    for at in places(whole, every):
        (data / DAY).write_bytes(damage(whole, at))
        desk = reopened(data)
        assert sorted(line.id for line in desk.log()) == untouched(whole, damage, at)
        assert len(desk.board()) == 3
        told = desk.report()
        assert desk.damaged == told.damaged_lines
        torn = whole[at - 1 : at] != b"\n" and whole[at : at + 1] != b"\n" and at > 0
        assert bool(desk.damaged) == (damage is flip or torn)
        assert any("damaged line" in says for says in told.warnings) == bool(desk.damaged)
        goes_on(desk, data)
        desk.folder.close()


def goes_on(desk: Desk, data: Path) -> None:
    """A new entry is recorded, and is there for the next terminal."""
    before = {line.id for line in desk.log()}
    outcome = desk.enter("7 good 1", None)
    assert isinstance(outcome, Recorded), outcome
    another = reopened(data)
    assert {line.id for line in another.log()} == {*before, outcome.entry}
    another.folder.close()


def house_is_kept(data: Path, damage: Damage, every: int) -> None:
    """One version of two is always left: with it every bench is there and takes entries."""
    whole, day = (data / HOUSE).read_bytes(), in_use(data / DAY)
    first = whole.index(b"\n", whole.index(b"\n") + 1)
    for at in places(whole, every):
        if damage is cut and at < first:
            continue
        (data / DAY).write_bytes(day)
        (data / HOUSE).write_bytes(damage(whole, at))
        desk = reopened(data)
        assert len(desk.log()) == len(LINES)
        assert [line.number for line in desk.board()] == ["7", "7-A", "8"]
        assert desk.report().totals.made == 50
        if damage is flip:
            assert desk.damaged
            assert desk.report().damaged_lines == desk.damaged
        goes_on(desk, data)
        desk.folder.close()


@DAMAGES
def test_a_day_damaged_anywhere_is_worked_on(data: Path, damage: Damage) -> None:
    day_is_kept(data, damage, every=31)


@DAMAGES
def test_a_house_damaged_anywhere_is_worked_on(data: Path, damage: Damage) -> None:
    house_is_kept(data, damage, every=397)


@pytest.mark.slow
@DAMAGES
def test_a_day_damaged_at_any_byte_is_worked_on(data: Path, damage: Damage) -> None:
    day_is_kept(data, damage, every=1)


@pytest.mark.slow
@DAMAGES
def test_a_house_damaged_at_any_byte_is_worked_on(data: Path, damage: Damage) -> None:
    house_is_kept(data, damage, every=7)


@pytest.mark.parametrize("file", [DAY, HOUSE])
def test_commands_tell_damage_and_what_to_do(data: Path, bunchbook: Bunchbook, file: str) -> None:
    whole = (data / file).read_bytes()
    (data / file).write_bytes(flip(whole, len(whole) - 60))
    for words in (
        ("card", "8"),
        ("line", "B1"),
        ("house", "show"),
        ("day",),
        ("day", "--json"),
        ("enter", "8 made 1"),
        ("close",),
    ):
        ran = bunchbook(*words)
        assert ran.code == 0, ran
        assert "1 damaged line in the records; see: bunchbook verify" in ran.err, words
    assert bunchbook("day", "--json").json["damaged_lines"] == 1
    ran = bunchbook("verify")
    assert ran.code == 1
    assert f"{Path(file).name}: line" in ran.out


def test_a_lost_house_book_is_told_as_damage_and_loaded_again(
    desk: Desk, tmp_path: Path, bunchbook: Bunchbook
) -> None:
    """The only version is damaged: entries wait for it, and count again when it is back."""
    data = tmp_path / "data"
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    desk.folder.close()
    whole = (data / HOUSE).read_bytes()
    (data / HOUSE).write_bytes(flip(whole, len(whole) - 60))
    ran = bunchbook("enter", "7 made 1")
    assert ran.code == 2
    assert "1 damaged line in the records" in ran.err
    assert "house load" in ran.err
    text = tmp_path / "house.toml"
    text.write_text(HOUSE_TOML, encoding="utf-8")
    assert bunchbook("house", "load", str(text)).code == 0
    assert bunchbook("enter", "7 made 1").code == 0
    assert bunchbook("day", "--json").json["totals"]["made"] == 51


def test_what_was_rolled_outlives_a_damaged_opening(
    desk: Desk, tmp_path: Path, clock: HandClock
) -> None:
    assert isinstance(desk.enter("7 roll corona", None), Recorded)
    clock.forward(days=1)
    assert isinstance(desk.enter("8 made 5", None), Recorded)
    desk.folder.close()
    tuesday = tmp_path / "data" / "days" / "2026-05-05.jsonl"
    whole = tuesday.read_bytes()
    tuesday.write_bytes(flip(whole, whole.index(b"corona")))
    for _ in range(2):
        assert Desk(tmp_path / "data", clock, "T2").bench_line("7").vitola == "corona"
        clock.forward(days=1)
