"""A terminal that stalls in the middle of a write, then goes on or is dropped."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.problems import StoreUnusable
from core.records.folder import Folder
from tests.records.books import DAY, day_book, readings, weigh

ROOT = Path(__file__).parents[2]

STALLS = """
import os, pathlib, signal, sys
from core.records.folder import Folder
from tests.records.books import DAY

def make(number):
    os.write(1, b"writing\\n")
    os.kill(os.getpid(), signal.SIGSTOP)
    return {"id": number, "reading": 12.3}

Folder(pathlib.Path(sys.argv[1])).day(DAY).append("entries", make, "stalled")
os.write(1, b"safe\\n")
"""


@pytest.fixture
def stalled(tmp_path: Path) -> Iterator[subprocess.Popen[bytes]]:
    """A terminal stopped while it holds the latch, after another's first entry."""
    weigh(day_book(tmp_path), 12.1)
    command = [sys.executable, "-c", STALLS, str(tmp_path)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"writing\n"
        os.waitid(os.P_PID, process.pid, os.WSTOPPED | os.WNOWAIT)
        yield process
        process.kill()


def test_others_are_told_who_stalls_and_can_still_read(
    tmp_path: Path, stalled: subprocess.Popen[bytes]
) -> None:
    book = Folder(tmp_path, wait_s=0.1).day(DAY)
    assert readings(book) == [12.1]
    with pytest.raises(StoreUnusable, match=f"process {stalled.pid} has held the records"):
        weigh(book, 12.5)
    assert readings(book) == [12.1]


def test_a_stalled_terminal_goes_on(tmp_path: Path, stalled: subprocess.Popen[bytes]) -> None:
    stalled.send_signal(signal.SIGCONT)
    assert stalled.communicate()[0] == b"safe\n"
    book = day_book(tmp_path)
    assert weigh(book, 12.5)["id"] == 3
    assert readings(book) == [12.1, 12.3, 12.5]


def test_a_dropped_terminal_leaves_the_latch_free(
    tmp_path: Path, stalled: subprocess.Popen[bytes]
) -> None:
    stalled.kill()
    stalled.wait()
    book = day_book(tmp_path)
    assert weigh(book, 12.5)["id"] == 2
    assert readings(book) == [12.1, 12.5]
    assert book.damage == ()
