"""Two floors on one data folder: what one records the other shows, and neither loses anything."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from functools import partial
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock, load
from tests.floor.hall import ESC, F5, F7, PAGE_DOWN, UP
from tests.floor.terminal import Terminal

ROOT = Path(__file__).parents[2]
AT = "2026-05-04 09:15"
XTERM = {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8"}
BENCHES = 300
MANY = HOUSE_TOML[: HOUSE_TOML.index("[[bench]]")] + "".join(
    f'[[bench]]\nnumber = {n}\nbuncher = "P-{n}"\nblend = "B1"\nvitola = "toro"\nquota = 300\n'
    for n in range(1, BENCHES + 1)
)

OpenFloor = Callable[[str], Terminal]


@pytest.fixture
def data(tmp_path: Path) -> Path:
    folder = tmp_path / "data"
    load(Desk(folder, HandClock(MORNING), "T0"), MANY)
    return folder


@pytest.fixture
def open_floor(data: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[OpenFloor]:
    """Opens a floor at a terminal of that name, seen to be ready."""
    monkeypatch.chdir(ROOT)
    with ExitStack() as floors:

        def opened(name: str) -> Terminal:
            argv = ["-m", "floor.main", "--at", AT, "--data", str(data), "--terminal", name]
            terminal = floors.enter_context(Terminal(argv, XTERM))
            terminal.wait_for("Board")
            terminal.wait_for("▸   1")
            return terminal

        yield opened


def bunchbook(data: Path, *words: str, typed: str = "") -> str:
    """A command in a process of its own, as at a third terminal."""
    argv = ["-m", "floor.main", *words, "--at", AT, "--data", str(data), "--terminal", "T3"]
    ran = subprocess.run(
        [sys.executable, *argv], cwd=ROOT, input=typed, capture_output=True, text=True, check=True
    )
    return ran.stdout


def asked(data: Path) -> Desk:
    """The records as a desk of its own sees them."""
    return Desk(data, HandClock(MORNING), "T9")


def changed(before: list[str], after: list[str]) -> list[str]:
    """The rows that are other than they were."""
    return [new for old, new in zip(before, after, strict=True) if old != new]


# -- what another terminal records appears, and nothing moves --------------------------------


def test_the_board_shows_it_without_a_key_and_nothing_moves(
    data: Path, open_floor: OpenFloor
) -> None:
    bunchbook(data, "enter", "1 made 5")
    floor = open_floor("T1")
    floor.type(PAGE_DOWN * 3 + UP * 4)
    floor.wait_for("▸  45")
    floor.type("45 10.8 10")
    floor.wait_for("Enter: bench 45")
    before = floor.rows
    bunchbook(data, "enter", "40 good 33", "250 10.8 10.9 11.0")
    floor.wait_for("good 33 of")
    floor.wait_for(" 33/300")
    after = floor.rows
    row, totals = changed(before, after)
    assert row.split()[0] == "40"
    assert "good 33 of" in totals
    assert "▸  45" in floor.text
    assert " ▸ 45 10.8 10" in after


def test_the_card_of_that_bench_shows_it_and_the_open_check_stays(
    data: Path, open_floor: OpenFloor
) -> None:
    floor = open_floor("T1")
    floor.type("7\r")
    floor.wait_for("Card, bench 7")
    floor.type("10.8\r10.")
    floor.wait_for("saved, entry 1")
    bunchbook(data, "enter", "7 11.9 12.0 12.1")
    floor.wait_for("✕")
    assert "Card, bench 7" in floor.text
    assert "bench 7 ▸ 10." in floor.text
    assert "open check bunch: 2 to go, mean 10.8 g" in floor.text
    bunchbook(data, "enter", "7 roll corona")
    floor.wait_for("corona ring 42")
    assert "bench 7 ▸ 10." in floor.text


def test_the_day_and_the_log_show_it_where_they_stand(data: Path, open_floor: OpenFloor) -> None:
    bunchbook(data, "enter", "-", typed="".join(f"{n} made {n}\n" for n in range(1, 61)))
    floor = open_floor("T1")
    floor.type(F5)
    floor.wait_for("Rejects by fault")
    floor.type("7 good")
    bunchbook(data, "enter", "7 fail torn 3")
    floor.wait_for("torn")
    assert "▸ 7 good" in floor.text
    floor.type(F7)
    floor.wait_for("61  09:15")
    floor.type(PAGE_DOWN)
    floor.wait_for(lambda: "61  09:15" not in floor.text)
    top = floor.rows[1]
    bunchbook(data, "enter", "8 made 40", "9 made 41")
    floor.wait_for(" of 63 ")
    assert floor.rows[1] == top, "what is being read stays where it is"
    assert "▸ 7 good" in floor.text


# -- two at one bench ------------------------------------------------------------------------


def _says(floor: Terminal, words: str) -> bool:
    """Whether what is told of the entry that was saved, in one row or two, has those words."""
    rows = floor.rows
    at = next((n for n, row in enumerate(rows) if "saved, entry" in row), len(rows))
    return words in " ".join(rows[at : at + 2])


def test_open_checks_at_one_bench_are_each_terminals_own(data: Path, open_floor: OpenFloor) -> None:
    here, there = open_floor("T1"), open_floor("T2")
    for floor in (here, there):
        floor.type("7\r")
        floor.wait_for("Card, bench 7")
    for nth, (mine, theirs) in enumerate((("10.8", "11.9"), ("10.9", "12.0"), ("11.0", "12.1"))):
        here.type(f"{mine}\r")
        here.wait_for(f"saved, entry {2 * nth + 1}:")
        there.type(f"{theirs}\r")
        there.wait_for(f"saved, entry {2 * nth + 2}:")
    here.drain()
    for floor, says in ((here, "within"), (there, "heavy")):
        floor.wait_for("check of 3 closed")
        floor.wait_for(partial(_says, floor, says))
    checks = asked(data).recent_checks("7")
    assert [check.readings for check in checks] == [(10.8, 10.9, 11.0), (11.9, 12.0, 12.1)]
    assert [check.verdict.state for check in checks if check.verdict] == ["within", "out"]


# -- the day is closed by another ------------------------------------------------------------


def test_a_day_closed_elsewhere_is_told_and_nothing_typed_is_lost(
    data: Path, open_floor: OpenFloor
) -> None:
    here, there = open_floor("T1"), open_floor("T2")
    here.type("7 made 50\r")
    here.wait_for("saved, entry 1")
    here.type("7 good 45")
    here.wait_for("Enter: bench 7")
    there.type("close\r")
    there.wait_for("close the day?")
    there.type("\r")
    there.wait_for("day closed")
    here.wait_for("the day is closed and takes no entries")
    assert "closed" in here.rows[0]
    here.type("\r")
    here.wait_for("not recorded: the day is closed")
    assert "▸ 7 good 45" in here.text
    there.type("reopen a line was late\r")
    there.wait_for(lambda: "closed" not in there.rows[0])
    here.wait_for(lambda: "closed" not in here.rows[0])
    here.type("\r")
    here.wait_for("45 cigars good")
    assert asked(data).report().totals.good == 45


def test_readings_of_a_scale_into_a_closed_day_are_named_and_come_back(
    data: Path, open_floor: OpenFloor
) -> None:
    here = open_floor("T1")
    here.type("7\r10.8\r")
    here.wait_for("saved, entry 1")
    bunchbook(data, "close")
    here.wait_for(lambda: "closed" in here.rows[0])
    here.type("10.9\r11.0\r")
    here.wait_for("not recorded: the day is closed")
    here.wait_for("▸ 11.0")
    here.wait_for("10.9")
    bunchbook(data, "reopen", "a check was open")
    here.wait_for(lambda: "closed" not in here.rows[0])
    here.type("\r")
    here.wait_for("saved, entry 4")
    here.type("\x1b[A\x1b[A")
    here.wait_for("▸ 10.9")
    here.type("\r")
    here.wait_for("check of 3 closed")
    assert sorted(asked(data).recent_checks("7")[0].readings) == [10.8, 10.9, 11.0]


# -- a burst ---------------------------------------------------------------------------------


def test_a_burst_of_another_terminal_stops_no_key_and_loses_nothing(
    data: Path, open_floor: OpenFloor
) -> None:
    floor = open_floor("T1")
    burst = "".join(f"{1 + n % BENCHES} good 1\n" for n in range(500))
    argv = ["-m", "floor.main", "enter", "-", "--at", AT, "--data", str(data), "--terminal", "T3"]
    with subprocess.Popen(
        [sys.executable, *argv], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.DEVNULL
    ) as other:
        assert other.stdin is not None
        other.stdin.write(burst[: len(burst) // 2].encode())
        other.stdin.flush()
        for n in range(1, 21):
            for sign in f"{n} made {n}":
                floor.type(sign)
            floor.wait_for(f"▸ {n} made {n}")
            floor.type("\r")
            floor.wait_for(f"bench {n}, toro: {n} bunch")
        other.stdin.write(burst[len(burst) // 2 :].encode())
        other.stdin.close()
        floor.type("30 good ")
        floor.wait_for("▸ 30 good")
        floor.type("7\r")
        floor.wait_for("bench 30, toro: 7 cigars good")
        assert other.wait() == 0
    floor.wait_for("good 507 of")
    report = asked(data).report()
    assert (report.totals.made, report.totals.good, report.entries) == (210, 507, 521)
    assert isinstance(asked(data).enter("1 good 1", None), Recorded)
    floor.type(ESC)
    floor.wait_for("good 508 of")
