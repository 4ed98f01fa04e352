"""The house's PIN from the shell: set at a terminal, taken from the environment without one."""

from __future__ import annotations

from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from tests.commands.conftest import HOUSE, Bunchbook
from tests.floor.terminal import Terminal, opened

PIN = "471182"


@pytest.fixture
def locked(loaded: Bunchbook, tmp_path: Path) -> Bunchbook:
    """A house with a PIN, set at a pseudo-terminal; something recorded."""
    with set_at(tmp_path, "pin") as terminal:
        answer(terminal, "new PIN, 4 to 8 digits:", PIN)
        answer(terminal, "the new PIN again:", PIN)
        assert terminal.wait_for_end() == 0
        read_all(terminal)
        assert b"version 2 is in force, with the new PIN" in terminal.sent
        assert PIN.encode() not in terminal.sent
    assert loaded("enter", "7 made 10").code == 0
    return loaded


def set_at(tmp_path: Path, *words: str) -> AbstractContextManager[Terminal]:
    argv = ["-m", "floor.main", "--data", str(tmp_path / "data"), *words]
    return opened(argv)


def answer(terminal: Terminal, asked: str, typed: str) -> None:
    terminal.wait_for(asked)
    terminal.type(typed + "\r")


def read_all(terminal: Terminal) -> None:
    while terminal.drain(0):
        if not terminal.drain(0.05) or terminal.child.poll() is not None:
            break


def test_a_house_without_one_is_as_before(loaded: Bunchbook) -> None:
    assert loaded("enter", "7 made 10").code == 0
    assert loaded("close").code == 0
    assert loaded("reopen", "bundle found").code == 0
    assert loaded("house", "show", "--json").json["house"]["pin"] is False


def test_without_a_terminal_it_is_taken_from_the_environment(
    locked: Bunchbook, monkeypatch: pytest.MonkeyPatch
) -> None:
    ran = locked("close")
    assert ran.code == 2
    assert "a PIN is needed to close the day; type it at a terminal" in ran.err
    assert "BUNCHBOOK_PIN" in ran.err
    monkeypatch.setenv("BUNCHBOOK_PIN", "0000")
    ran = locked("close")
    assert (ran.code, ran.out) == (2, "")
    assert "the PIN is wrong; 2 more tries" in ran.err
    monkeypatch.setenv("BUNCHBOOK_PIN", PIN)
    assert locked("close").code == 0
    assert locked("reopen", "bundle found").code == 0
    for ran in (locked("house", "show"), locked("day", "--json"), locked("verify")):
        assert PIN not in ran.out + ran.err


def test_lines_that_ask_for_it_are_entered_with_it(
    locked: Bunchbook, monkeypatch: pytest.MonkeyPatch
) -> None:
    ran = locked("enter", "initials RM", "7 good 3", "iniciales LP", "undo", "7 good 4", "--json")
    assert [row["ok"] for row in ran.lines] == [True, True, True, False, True]
    assert "a PIN is needed to void entry 2" in ran.lines[3]["problem"]
    assert ran.lines[0]["says"] == "entries of this terminal carry RM from here on"
    assert ran.code == 2
    monkeypatch.setenv("BUNCHBOOK_PIN", PIN)
    assert locked("enter", "iniciales LP", "undo 2").code == 0


def test_the_house_book_is_changed_with_it_alone(
    locked: Bunchbook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert locked("house", "check", str(HOUSE)).code == 0
    ran = locked("house", "load", str(HOUSE), at=None)
    assert ran.code == 2
    assert "to change the house book" in ran.err
    assert locked("house", "show", "--json").json["versions"] == 2
    monkeypatch.setenv("BUNCHBOOK_PIN", PIN)
    own = tmp_path / "own.toml"
    own.write_text(locked("house", "show", at=None).out + "# changed\n", encoding="utf-8")
    ran = locked("house", "load", str(own), at=None)
    assert (ran.code, "has no PIN" in ran.err) == (0, False)
    assert locked("house", "show", "--json", at=None).json["house"]["pin"] is True
    ran = locked("house", "load", str(HOUSE), at=None)
    assert ran.code == 0
    assert "nothing asks for one now" in ran.err


def test_it_is_taken_away_with_itself(locked: Bunchbook, monkeypatch: pytest.MonkeyPatch) -> None:
    assert locked("pin", "--remove", at=None).code == 2
    monkeypatch.setenv("BUNCHBOOK_PIN", PIN)
    ran = locked("pin", "--remove", at=None)
    assert ran.code == 0
    assert "without a PIN" in ran.out
    monkeypatch.delenv("BUNCHBOOK_PIN")
    assert "the house has no PIN" in locked("pin", "--remove", at=None).err
    assert locked("close").code == 0
    shown = locked("house", "show", at=None).out
    assert shown.strip() == HOUSE.read_text(encoding="utf-8").strip()


def test_a_new_one_is_typed_at_a_terminal_and_not_in_the_past(loaded: Bunchbook) -> None:
    ran = loaded("pin", at=None)
    assert (ran.code, "a new PIN is typed at a terminal" in ran.err) == (2, True)
    ran = loaded("pin")
    assert (ran.code, "cannot be saved in the past" in ran.err) == (2, True)


def test_the_present_one_is_asked_first_and_the_new_one_twice(
    locked: Bunchbook, tmp_path: Path
) -> None:
    with set_at(tmp_path, "pin") as terminal:
        answer(terminal, "PIN to change the house book:", "9999")
        answer(terminal, "new PIN, 4 to 8 digits:", "1357")
        answer(terminal, "the new PIN again:", "1357")
        assert terminal.wait_for_end() == 2
        read_all(terminal)
        assert b"the PIN is wrong; 2 more tries" in terminal.sent
    with set_at(tmp_path, "pin") as terminal:
        answer(terminal, "PIN to change the house book:", PIN)
        answer(terminal, "new PIN, 4 to 8 digits:", "1357")
        answer(terminal, "the new PIN again:", "1358")
        assert terminal.wait_for_end() == 2
        read_all(terminal)
        assert b"the two were not the same" in terminal.sent
    assert locked("house", "show", "--json").json["versions"] == 2


def test_help_says_what_it_is_not(loaded: Bunchbook) -> None:
    said = " ".join(loaded("pin", "--help", at=None).out.split())
    assert "It keeps hands off, it is no safe" in said
    assert "whoever may write the data folder can get round it" in said


def test_bench_is_for_the_floor_alone(loaded: Bunchbook) -> None:
    ran = loaded("--bench", "7", "card", "7", at=None)
    assert ran.code == 2
    assert "--bench is for the floor alone" in ran.err
