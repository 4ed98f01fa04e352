"""A latch held by a stopped or a killed terminal: commands say who holds it, and go on after."""

from __future__ import annotations

import functools
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from core.desk import today
from core.records.folder import Folder
from tests.commands.conftest import Bunchbook
from tests.faults.shell import ROOT

Holder = subprocess.Popen[bytes]

HOLDS = """
import os, pathlib, signal, sys
from core.records.folder import Folder

folder = pathlib.Path(sys.argv[1])
with Folder(folder).latch:
    with open(folder / "days" / "2026-05-04.jsonl", "r+b", buffering=0) as day:
        day.seek(len(day.read().rstrip(b" ")))
        day.write(sys.argv[2].encode())
        os.write(1, b"held\\n")
        os.kill(os.getpid(), signal.SIGSTOP)
        day.write(sys.argv[3].encode())
"""
BEGUN = '{"sum":"0123456789'


@pytest.fixture
def begun(loaded: Bunchbook, monkeypatch: pytest.MonkeyPatch) -> Bunchbook:
    """A day with an entry; commands wait for the latch a tenth of a second."""
    assert loaded("enter", "7 made 50").code == 0
    monkeypatch.setattr(today, "Folder", functools.partial(Folder, wait_s=0.1))
    return loaded


@pytest.fixture
def held(begun: Bunchbook, tmp_path: Path) -> Iterator[Callable[..., Holder]]:
    """Starts a terminal that takes the latch, writes something, and is stopped."""
    started: list[Holder] = []

    def hold(first: str = "", then: str = "") -> Holder:
        command = [sys.executable, "-c", HOLDS, str(tmp_path / "data"), first, then]
        process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE)
        started.append(process)
        assert process.stdout is not None
        assert process.stdout.readline() == b"held\n"
        os.waitid(os.P_PID, process.pid, os.WSTOPPED | os.WNOWAIT)
        return process

    yield hold
    for process in started:
        process.kill()
        process.communicate()


def made(bunchbook: Bunchbook) -> int:
    found = bunchbook("day", "--json").json["totals"]["made"]
    assert isinstance(found, int)
    return found


def test_a_stopped_holder_is_named_and_questions_are_answered(
    begun: Bunchbook, held: Callable[..., Holder]
) -> None:
    holder = held()
    for words in (("enter", "7 made 5"), ("close",)):
        ran = begun(*words)
        assert (ran.code, ran.out) == (3, ""), ran
        assert f"process {holder.pid} has held the records" in ran.err
        assert "let it go on or end it, then try again" in ran.err
    for words in (("card", "7"), ("day",), ("line", "B1"), ("house", "show"), ("verify",)):
        assert begun(*words).code == 0, words
    assert made(begun) == 50


def test_every_line_of_several_is_kept(begun: Bunchbook, held: Callable[..., Holder]) -> None:
    held()
    ran = begun("enter", "-", typed="7 made 1\n7 made 2\n")
    assert ran.code == 3
    rows = ran.err.splitlines()
    assert [row.split(": ")[1] for row in rows] == ["7 made 1", "7 made 2"]


def test_a_stopped_holder_that_goes_on_lets_the_next_in(
    begun: Bunchbook, held: Callable[..., Holder]
) -> None:
    holder = held()
    assert begun("enter", "7 made 5").code == 3
    holder.send_signal(signal.SIGCONT)
    assert holder.wait() == 0
    assert begun("enter", "7 made 5").code == 0
    assert made(begun) == 55
    assert begun("verify", "--json").json["repaired"] == []


def test_a_holder_killed_within_a_line_leaves_the_latch_free_and_the_fragment_told(
    begun: Bunchbook, held: Callable[..., Holder]
) -> None:
    holder = held(BEGUN)
    assert begun("enter", "7 made 5").code == 3
    holder.kill()
    holder.wait()
    ran = begun("enter", "7 made 5", "7 made 6")
    assert ran.code == 0
    assert "1 damaged line in the records" in ran.err
    assert made(begun) == 61
    found = begun("verify", "--json").json
    assert (found["sound"], len(found["repaired"]), found["entries"]) == (True, 1, 3)
