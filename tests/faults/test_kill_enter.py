"""Terminals that enter lines are killed at random: every line said to be saved is in the day."""

from __future__ import annotations

import random
import time
from functools import partial
from pathlib import Path

import pytest

from tests.commands.conftest import Bunchbook
from tests.faults.shell import Typist, enter, until


def kill_at_random(tmp_path: Path, terminals: int, rounds: int, seed: int) -> list[str]:
    """Rounds of terminals that are all killed, one after another; the notes they had saved."""
    moments = random.Random(seed)
    saved: list[str] = []
    for turn in range(rounds):
        names = [f"w{turn}x{n}" for n in range(terminals)]
        crew = [
            enter(
                tmp_path / "data",
                name,
                [f"7 note {name} {nth}" for nth in range(2000)],
                tmp_path / "papers",
            )
            for name in names
        ]
        for typist in crew:
            until(partial(has_saved, typist, moments.randint(1, 20)), "lines to be saved")
            time.sleep(moments.uniform(0.0, 0.02))
            typist.process.kill()
        saved += [line for typist in crew for line in ended(typist)]
    return saved


def has_saved(typist: Typist, n: int) -> bool:
    return len(typist.saved()) >= n


def ended(typist: Typist) -> list[str]:
    typist.process.wait()
    return typist.saved()


def check(bunchbook: Bunchbook, saved: list[str]) -> None:
    """Every saved note once in the day, and records that are sound but for torn lines."""
    day = bunchbook("day", "--json").json
    notes = [f"{note['bench']} note {note['text']}" for note in day["notes"]]
    assert set(saved) <= set(notes)
    assert len(notes) == len(set(notes)) == day["entries"]
    ran = bunchbook("verify", "--json")
    assert ran.code == 0
    assert (ran.json["sound"], ran.json["problems"]) == (True, [])
    assert ran.json["entries"] == day["entries"]


def test_killed_terminals_lose_no_saved_line(loaded: Bunchbook, tmp_path: Path) -> None:
    saved = kill_at_random(tmp_path, terminals=3, rounds=2, seed=7)
    assert saved
    check(loaded, saved)
    assert loaded("enter", "7 made 5").code == 0


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(3))
def test_many_killed_terminals_lose_no_saved_line(
    loaded: Bunchbook, tmp_path: Path, seed: int
) -> None:
    saved = kill_at_random(tmp_path, terminals=8, rounds=4, seed=seed)
    assert saved
    check(loaded, saved)
