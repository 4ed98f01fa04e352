"""A line that drops or stalls, a window put away and taken up again: nothing saved is lost."""

from __future__ import annotations

import os
import shlex
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from core.desk.desk import Desk
from tests.desk.conftest import MORNING, HandClock, load
from tests.floor.rooms import ROOT, settle
from tests.floor.terminal import opened

AT = "2026-05-04 09:15"
STALL_S = 3.0
"""How long nobody reads the output: longer than any queue of it lasts."""


@pytest.fixture
def data(tmp_path: Path) -> Path:
    folder = tmp_path / "data"
    load(Desk(folder, HandClock(MORNING), "T0"))
    return folder


def argv(data: Path) -> list[str]:
    return ["-m", "floor.main", "--at", AT, "--data", str(data), "--terminal", "T1"]


def asked(data: Path) -> Desk:
    """The records as another terminal finds them."""
    return Desk(data, HandClock(MORNING), "T9")


def saved(data: Path) -> list[str]:
    """What the records say was entered, oldest first."""
    return [line.says for line in reversed(asked(data).log())]


@pytest.mark.parametrize("drop", ["hang-up signal and closed", "closed"])
def test_a_dropped_line_keeps_what_was_saved_and_the_next_goes_on_from_it(
    data: Path, drop: str
) -> None:
    with opened(argv(data)) as terminal:
        terminal.wait_for("first piece")
        terminal.type("7\r10.8\r10.9\r")
        terminal.wait_for("saved, entry 2")
        terminal.type("11.")
        terminal.wait_for("bench 7 ▸ 11.")
        if "signal" in drop:
            terminal.signal(signal.SIGHUP)
        terminal.hang_up()
        assert terminal.wait_for_end() == 0
    assert [says.split(",")[1].strip() for says in saved(data)] == ["10.8 g", "10.9 g"]
    with opened(argv(data)) as terminal:
        terminal.wait_for("2 of 3 open")
        terminal.type("7\r11.0\r")
        terminal.wait_for("saved, entry 3")
        terminal.wait_for("check of 3 closed")


def test_a_stall_delays_the_picture_and_no_entry(data: Path) -> None:
    with opened(argv(data)) as terminal:
        terminal.wait_for("first piece")
        terminal.type("7\r")
        terminal.wait_for("Card, bench 7")
        terminal.signal(signal.SIGWINCH)
        until = time.monotonic() + STALL_S
        made = 0
        while time.monotonic() < until:  # pages and entries come, and nobody reads what is drawn
            made += 1
            for byte in f"/{7 + made % 2}\rhelp\rday\r7 made {made}\r".encode():
                terminal.press(byte)
        terminal.wait_undrained(lambda: len(saved(data)) == made)
        terminal.wait_for(f"saved, entry {made}")
        terminal.wait_for(lambda: terminal.rows[0].startswith(" Day  "))
        total = made * (made + 1) // 2
        terminal.wait_for(f"made {total}")
        assert asked(data).report().totals.made == total


def test_ctrl_z_is_refused_in_plain_words(data: Path) -> None:
    with opened(argv(data)) as terminal:
        terminal.wait_for("first piece")
        terminal.type("7 10.8\x1a")
        terminal.wait_for("to leave the floor: Ctrl+Q, or type quit and Enter")
        assert "▸ 7 10.8" in terminal.text
        terminal.type("\r")
        terminal.wait_for("saved, entry 1")


def test_stopped_from_outside_it_goes_on_where_it_stood(data: Path) -> None:
    with opened(argv(data)) as terminal:
        terminal.wait_for("first piece")
        terminal.type("7\r10.8\r10.9\r11.")
        terminal.wait_for("bench 7 ▸ 11.")
        terminal.signal(signal.SIGTSTP)
        terminal.wait_for(lambda: stopped(terminal.child.pid))
        while terminal.drain(0.02) and b"\x1b[?1049l" not in terminal.sent[-80:]:
            pass
        terminal.clear()
        terminal.signal(signal.SIGCONT)
        terminal.wait_for("Card, bench 7")
        terminal.wait_for("bench 7 ▸ 11.")
        terminal.type("0\r")
        terminal.wait_for("saved, entry 3")
        terminal.wait_for("check of 3 closed")


def stopped(pid: int) -> bool:
    """Whether the system says so of the process."""
    return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] == "T"


# -- tmux ------------------------------------------------------------------------------------


Tmux = Callable[..., str]


@pytest.fixture
def tmux(tmp_path: Path) -> Iterator[Tmux]:
    """A tmux server of its own; its words in, what it prints out."""
    program = shutil.which("tmux")
    if program is None:
        if os.environ.get("CI"):
            pytest.fail("tmux is needed here to see a floor detached and taken up again")
        pytest.skip("tmux is not installed: detaching and reattaching is not seen")
    server = [program, "-f", os.devnull, "-S", str(tmp_path / "tmux")]
    env = {**os.environ, "LC_ALL": "C.UTF-8", "TERM": "xterm-256color"}

    def run(*words: str) -> str:
        ran = subprocess.run([*server, *words], capture_output=True, text=True, env=env, check=True)
        return ran.stdout

    yield run
    subprocess.run([*server, "kill-server"], capture_output=True, env=env, check=False)


def test_detached_and_taken_up_in_another_size_it_stands_as_it_was(
    data: Path, tmux: Tmux, tmp_path: Path
) -> None:
    command = shlex.join([sys.executable, *argv(data)])
    tmux("new-session", "-d", "-s", "bench", "-x", "80", "-y", "24", "-c", str(ROOT), command)
    client = ["-c", CLIENT, str(tmp_path / "tmux")]
    with opened(client) as terminal:
        terminal.wait_for("first piece")
        terminal.type("7\r10.8\r10.")
        terminal.wait_for("bench 7 ▸ 10.")
        terminal.type("\x02d")
        terminal.wait_for_end()
    assert "saved, entry 1" in tmux("capture-pane", "-p", "-t", "bench")
    asked(data).enter("8 made 40", None)
    with opened(client, (100, 30)) as terminal:
        terminal.wait_for("bench 7 ▸ 10.")
        terminal.wait_for(lambda: terminal.rows[0].startswith(" Card, bench 7"))
        terminal.wait_for(lambda: len(terminal.rows[0]) > 90)
        settle(terminal)
        terminal.type("9\r")
        terminal.wait_for("saved, entry 3")
        assert len(saved(data)) == 3


CLIENT = "import os, sys; os.execvp('tmux', ['tmux', '-S', sys.argv[1], 'attach', '-t', 'bench'])"
