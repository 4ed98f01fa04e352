"""Terminals killed at random moments lose no entry that they had acknowledged."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from core.records.verify import verify_journal
from tests.records.books import day_book, day_path

ROOT = Path(__file__).parents[2]


def start(data: Path, name: str, *count: str) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", "tests.faults.writer", str(data), name, *count]
    return subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE)


def said(process: subprocess.Popen[bytes]) -> list[str]:
    """The events that a terminal said are safe."""
    out, _ = process.communicate()
    whole, _, _torn = out.decode().rpartition("\n")
    return [line for line in whole.split("\n") if line not in ("ready", "")]


def kill_at_random(data: Path, writers: int, rounds: int, seed: int) -> list[str]:
    """Rounds of writers that are all killed, one after another; the events they had safe."""
    moments = random.Random(seed)
    safe: list[str] = []
    for turn in range(rounds):
        crew = [start(data, f"{turn}.{n}") for n in range(writers)]
        for process in crew:
            assert process.stdout is not None
            process.stdout.readline()
        for process in crew:
            time.sleep(moments.uniform(0.0, 0.1))
            process.kill()
        for process in crew:
            safe += said(process)
    return safe


def check(data: Path, safe: list[str]) -> None:
    """Every safe event once, numbers without a gap, and no damage but torn lines."""
    book = day_book(data)
    entries = book.table("entries").all()
    events = [entry["event"] for entry in entries]
    assert set(safe) <= set(events)
    assert len(events) == len(set(events))
    assert [entry["id"] for entry in entries] == list(range(1, len(entries) + 1))
    report = verify_journal(day_path(data))
    assert report.chain_sound
    assert {each.kind for each in report.damage} <= {"torn"}
    book.close()


def test_killed_terminals_lose_nothing_acknowledged(tmp_path: Path) -> None:
    safe = kill_at_random(tmp_path, writers=4, rounds=3, seed=1)
    assert safe
    check(tmp_path, safe)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(5))
def test_many_killed_terminals_lose_nothing_acknowledged(tmp_path: Path, seed: int) -> None:
    safe = kill_at_random(tmp_path, writers=16, rounds=20, seed=seed)
    assert safe
    check(tmp_path, safe)


def test_terminals_writing_at_once_lose_nothing(tmp_path: Path) -> None:
    crew = [start(tmp_path, f"w{n}", "50") for n in range(4)]
    safe = [event for process in crew for event in said(process)]
    assert len(safe) == 200
    check(tmp_path, safe)
    assert not verify_journal(day_path(tmp_path)).damage


@pytest.mark.slow
def test_sixteen_terminals_writing_at_once_lose_nothing(tmp_path: Path) -> None:
    crew = [start(tmp_path, f"w{n}", "1000") for n in range(16)]
    safe = [event for process in crew for event in said(process)]
    assert len(safe) == 16_000
    check(tmp_path, safe)
    assert not verify_journal(day_path(tmp_path)).damage
