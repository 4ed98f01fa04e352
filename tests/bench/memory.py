"""What a terminal's floor holds in memory with a full day open, beside a bare Textual app."""

from __future__ import annotations

from pathlib import Path

from tests.bench.floor import BARE, Program, running
from tests.bench.row import Row
from tests.bench.workshop import desk, fill

PROMISED_MB = 100
ENTRIES = 15_000


def measure(place: Path) -> list[Row]:
    """The most that each has held by its first picture, in a process of its own."""
    folder = place / "memory"
    fill(desk(folder, benches=300), ENTRIES)
    floor = ["-m", "floor.main", "--data", str(folder), "--at", "2026-05-04 12:00"]
    ours = most_mb(Program(floor, b"P-003"))
    bare = most_mb(Program(["-c", BARE], b"ready"))
    name = f"memory, a day of {ENTRIES:,} on 300 benches"
    return [
        Row(name, ours, "MB", "the promise", PROMISED_MB, 1.0),
        Row(name, ours, "MB", "a bare Textual app", bare),
    ]


def most_mb(program: Program) -> float:
    """The most memory that the process has held, as Linux counts it."""
    with running(program) as there:
        status = Path(f"/proc/{there.process}/status").read_text()
    kept_kb = next(line.split()[1] for line in status.splitlines() if line.startswith("VmHWM"))
    return int(kept_kb) / 1024
