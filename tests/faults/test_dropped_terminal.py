"""The floor's terminal stalls, then is closed or the floor killed: what was saved is saved.

Every line that was shown as saved is in the records; of those typed after, what is there are
the first so many, whole and in order.
"""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded
from tests.desk.conftest import HandClock, load
from tests.faults.shell import ROOT, until
from tests.floor.hall import F5, F10
from tests.floor.terminal import Terminal

FLOOR = ["-m", "floor.main", "--at", "2026-05-04 09:15", "--terminal", "T1", "--data"]
SHOWN, UNSEEN = 10, 15
READINGS = [f"{10_300 + n}" for n in range(SHOWN + UNSEEN)]
"""Milligrams, so that each is its own: 10.300 g, 10.301 g …"""

Drop = Callable[[Terminal], None]


def hang_up(terminal: Terminal) -> None:
    terminal.hang_up()


def kill(terminal: Terminal) -> None:
    terminal.signal(signal.SIGKILL)


def end(terminal: Terminal) -> None:
    terminal.signal(signal.SIGTERM)


DROPS = pytest.mark.parametrize("drop", [hang_up, kill, end])


@pytest.fixture
def data(tmp_path: Path, clock: HandClock) -> Path:
    folder = tmp_path / "data"
    load(Desk(folder, clock, "T2"))
    return folder


@pytest.fixture
def terminal(data: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Terminal]:
    monkeypatch.chdir(ROOT)
    with Terminal([*FLOOR, str(data)], {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8"}) as floor:
        floor.wait_for("first piece")
        floor.type("7\r")
        floor.wait_for("Card, bench 7")
        for nth, reading in enumerate(READINGS[:SHOWN], start=1):
            floor.type(f"{reading}mg\r")
            if nth % 3:
                floor.wait_for(f"saved, entry {nth}:")
        floor.wait_for(f"saved, entry {SHOWN}:")
        yield floor


def recorded(data: Path, clock: HandClock) -> list[str]:
    """The readings in the records, in milligrams, in the order they were recorded."""
    desk = Desk(data, clock, "T9")
    found = [r for check in desk.recent_checks("7", 1000) for r in check.readings]
    waiting = desk.log(1000)
    assert len(waiting) == len(found), "nothing but readings was recorded"
    desk.folder.close()
    return [f"{1000 * reading:.0f}" for reading in found]


def stall(terminal: Terminal) -> None:
    """Have the floor draw more than the terminal takes; nobody reads it from here on."""
    for byte in ((F5 + F10) * 40 + "/7\r").encode():
        terminal.press(byte)


@DROPS
def test_readings_typed_at_a_stalled_terminal_outlive_it(
    terminal: Terminal, data: Path, clock: HandClock, drop: Drop
) -> None:
    stall(terminal)
    for byte in "".join(f"{reading}mg\r" for reading in READINGS[SHOWN:]).encode():
        terminal.press(byte)
    until(lambda: recorded(data, clock) == READINGS, "all readings to be recorded")
    drop(terminal)
    terminal.wait_for_end()
    assert recorded(data, clock) == READINGS


@DROPS
def test_a_terminal_that_drops_in_the_middle_leaves_whole_readings_in_order(
    terminal: Terminal, data: Path, clock: HandClock, drop: Drop
) -> None:
    stall(terminal)
    for byte in "".join(f"{reading}mg\r" for reading in READINGS[SHOWN:]).encode():
        terminal.press(byte)
    drop(terminal)
    terminal.wait_for_end()
    found = recorded(data, clock)
    assert found[:SHOWN] == READINGS[:SHOWN]
    assert found == READINGS[: len(found)]
    outcome = Desk(data, clock, "T9").enter("8 made 5", None)
    assert isinstance(outcome, Recorded)
