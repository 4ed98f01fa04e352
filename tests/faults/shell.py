"""`bunchbook` as a process of its own, fed from a file, and what it said was saved."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
AT = "2026-05-04 09:15"
PATIENCE_S = 30.0


class Typist(NamedTuple):
    """An `enter -` at work on a file of lines. What it says goes to a file too."""

    process: subprocess.Popen[bytes]
    says: Path

    def saved(self) -> list[str]:
        """The lines that were acknowledged; a line not printed to its end was not."""
        whole, _, _ = self.says.read_bytes().decode().rpartition("\n")
        told = [json.loads(row) for row in whole.splitlines()]
        return [row["line"] for row in told if row["ok"]]


def enter(data: Path, terminal: str, lines: list[str], papers: Path) -> Typist:
    """Start a terminal that enters the lines, one after another."""
    papers.mkdir(exist_ok=True)
    typed, says = papers / f"{terminal}.typed", papers / f"{terminal}.says"
    typed.write_text("".join(f"{line}\n" for line in lines))
    words = ["enter", "-", "--json", "--data", str(data), "--at", AT, "--terminal", terminal]
    with typed.open("rb") as stdin, says.open("wb") as stdout:
        process = subprocess.Popen(
            [sys.executable, "-m", "floor.main", *words], cwd=ROOT, stdin=stdin, stdout=stdout
        )
    return Typist(process, says)


def until(holds: Callable[[], object], what: str) -> None:
    """Wait until the condition holds, for as long as a slow machine needs."""
    last = time.monotonic() + PATIENCE_S
    while not holds():
        assert time.monotonic() < last, f"waited in vain for {what}"
        time.sleep(0.005)
