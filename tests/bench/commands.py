"""How soon a command has answered, from nothing."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from tests.bench.row import Row, interleaved
from tests.bench.workshop import desk, fill

PEER = "import pydantic, tinydb"
BARE, MORE_MS = 1.3, 60.0
"""Help takes at most so many times as long as bare Python, and so many milliseconds more."""


def measure(place: Path) -> list[Row]:
    """A cold card beside the bare imports of what it stands on; help beside bare Python."""
    folder = place / "commands"
    fill(desk(folder, benches=24), 500)
    script = "from floor.main import run; run()"  # what the installed command holds
    at = ["--data", str(folder), "--at", "2026-05-04 12:00"]
    card = ["-c", script, "card", "7", "--json", *at]
    ours, theirs = interleaved(21, seconds(*card), seconds("-c", PEER))
    help_ = ["-c", script, "--help", "--data", str(folder)]
    english, spanish, bare = interleaved(
        21, seconds(*help_), seconds(*help_, "--lang", "es"), seconds("-c", "pass")
    )
    promised_ms = BARE * 1000 * bare + MORE_MS
    beside = f"{BARE:g} × python -c pass + {MORE_MS:g} ms"
    return [
        Row("cold card 7 --json", 1000 * ours, "ms", PEER, 1000 * theirs, bar=2.5),
        Row("--help", 1000 * english, "ms", beside, promised_ms, bar=1.0),
        Row("--help --lang es", 1000 * spanish, "ms", beside, promised_ms, bar=1.0),
    ]


def seconds(*words: str) -> Callable[[], float]:
    """Runs Python with these words, to its end; the seconds it took."""

    def run() -> float:
        began = time.perf_counter()
        subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL)
        return time.perf_counter() - began

    return run
