"""The floor on a real pseudo-terminal: bursts, pastes, signals, stalls, plain terminals."""

from __future__ import annotations

import re
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.desk.desk import Desk
from tests.desk.conftest import MORNING, HandClock, load
from tests.floor.hall import ESC, F5, F8, F10
from tests.floor.terminal import Terminal, opened

PAPER = ["-m", "tests.floor.stage", "paper"]
DESK = ["-m", "tests.floor.stage", "desk"]
READY = "▸"
SGR = re.compile(rb"\x1b\[([\d;]*)m")


class Sheet:
    """The file a paper desk writes each line into as it is entered."""

    def __init__(self, path: Path) -> None:
        self.path = path
        path.touch()

    @property
    def lines(self) -> list[str]:
        """The lines entered on bench 7's card."""
        rows = self.path.read_text(encoding="utf-8").splitlines()
        return [line for at, line in (row.split("\t") for row in rows) if at == "7"]


@pytest.fixture
def sheet(tmp_path: Path) -> Sheet:
    return Sheet(tmp_path / "paper.txt")


@pytest.fixture
def terminal(sheet: Sheet) -> Iterator[Terminal]:
    with opened([*PAPER, str(sheet.path)]) as terminal:
        terminal.wait_for(READY)
        yield terminal


def readings(first: int, n: int) -> list[str]:
    return [f"{(first + i) / 1000:.3f}" for i in range(n)]


def test_bursts_ended_by_cr_lf_or_both_and_pastes_lose_nothing(
    terminal: Terminal, sheet: Sheet
) -> None:
    terminal.type("7\r")
    sent: list[str] = []
    for i, end in enumerate(("\r", "\n", "\r\n")):
        burst = readings(10_000 + 100 * i, 20)
        terminal.type("".join(f"{reading} g{end}" for reading in burst))
        sent += [f"{reading} g" for reading in burst]
        terminal.wait_for(f"saved, entry {len(sent)}: {sent[-1]}")
        assert sheet.lines == sent
    pasted = readings(11_000, 20)
    terminal.type("\x1b[200~" + "\n".join(pasted) + "\n12.5\x1b[201~")
    terminal.wait_for("bench 7 ▸ 12.5")
    assert sheet.lines == sent + pasted


def test_two_thousand_readings_in_one_burst_are_two_thousand(
    terminal: Terminal, sheet: Sheet
) -> None:
    burst = readings(10_000, 2_000)
    terminal.type("7\r" + "".join(f"{reading}\r\n" for reading in burst))
    terminal.wait_for("saved, entry 2000: 11.999", patience_s=60)
    assert sheet.lines == burst


def test_an_escape_right_before_a_reading_is_refused_aloud(
    terminal: Terminal, sheet: Sheet
) -> None:
    terminal.type("7\r")
    terminal.wait_for("bench 7")
    terminal.type(f"{ESC}10.8\r")
    terminal.wait_for("not recorded: an Esc ran into")
    assert "▸ ^10.8" in terminal.text
    assert sheet.lines == []


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_a_signal_ends_the_floor_in_order(terminal: Terminal, number: signal.Signals) -> None:
    terminal.signal(number)
    assert terminal.wait_for_end() == 0
    while terminal.drain(0) and not terminal.sent.endswith(b"\x1b[?1004l"):
        pass
    assert b"\x1b[?1049l" in terminal.sent[-80:]


def test_a_closed_terminal_ends_the_floor(terminal: Terminal) -> None:
    terminal.hang_up()
    terminal.wait_for_end()


def test_quit_and_ctrl_q_leave(terminal: Terminal) -> None:
    terminal.type("quit\r")
    assert terminal.wait_for_end() == 0


def test_entries_are_recorded_while_the_terminal_takes_no_output(
    terminal: Terminal, sheet: Sheet
) -> None:
    terminal.type("7\r")
    terminal.wait_for("bench 7")
    flips = (F5 + F10) * 40
    for byte in flips.encode():
        terminal.press(byte)
    for byte in b"/7\r10.8\r":
        terminal.press(byte)
    terminal.wait_undrained(lambda: sheet.lines == ["10.8"])
    terminal.wait_for("saved, entry 1: 10.8")
    terminal.wait_for("Card, bench 7")


def test_a_dark_terminal_gets_neither_colour_nor_anything_but_ascii(sheet: Sheet) -> None:
    paper = [*PAPER, str(sheet.path)]
    with opened(paper, TERM="xterm", NO_COLOR="1", LC_ALL="C") as terminal:
        terminal.wait_for("F1 Board")
        terminal.type(f"7\r10.8\r{F8}")
        terminal.wait_for("greatest diameter")
        assert terminal.sent.isascii()
        colours = {int(n) for codes in SGR.findall(terminal.sent) for n in codes.split(b";") if n}
        assert colours <= {0, 1, 3, 4, 7, 9, 39, 49}


def test_readings_are_in_the_records_and_another_terminal_shows_up(tmp_path: Path) -> None:
    clock = HandClock(MORNING)
    here = Desk(tmp_path / "data", clock, "T2")
    load(here)
    with opened([*DESK, str(tmp_path / "data")]) as terminal:
        terminal.wait_for("first piece")
        terminal.type("7\r10.8\r10.9\r11.0\r")
        terminal.wait_for("saved, entry 3: ")
        terminal.type(ESC)
        terminal.wait_for("Board")
        here = Desk(tmp_path / "data", lambda: MORNING.now().astimezone(), "T2")
        recorded = [line.says for line in here.log()]
        assert len(recorded) == 3
        for says, reading in zip(recorded, ("11.0 g", "10.9 g", "10.8 g"), strict=True):
            assert reading in says
        here.enter("8 good 33", None)
        terminal.wait_for("good 33 of 300")
