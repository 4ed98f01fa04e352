"""How soon the floor is on the screen, and how soon a key shows, on a pseudo-terminal."""

from __future__ import annotations

import compileall
import datetime as dt
import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from typing import NamedTuple

from demo.build import build
from tests.bench.row import Row, interleaved
from tests.bench.workshop import desk, fill

PATIENCE_S = 30.0
QUIET_S = 0.15
MANY_AT = dt.datetime(2026, 5, 4, 12, tzinfo=dt.UTC)
KEYS = 40

BARE = """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        self.shown = Static("ready")
        yield self.shown
    def on_key(self, event):
        self.shown.update(f"bench {event.key}'s card")
Bare().run()
"""


class Running(NamedTuple):
    """The terminal's end of ours, and its process."""

    terminal: int
    process: int


class Program(NamedTuple):
    """A program on a terminal, and the bytes that show it is there."""

    words: list[str]
    ready: bytes


def measure(place: Path) -> list[Row]:
    """First paint, and key to changed cell, beside a bare Textual app's."""
    _compiled()
    bare = Program(["-c", BARE], b"ready")
    demo = _floor(place / "demo", build(place / "demo"))
    paint, bare_paint = interleaved(11, lambda: first_paint(demo), lambda: first_paint(bare))
    many = place / "floor"
    fill(desk(many, benches=300), 1500)
    floor = _floor(many, MANY_AT)
    paint_300, bare_300 = interleaved(9, lambda: first_paint(floor), lambda: first_paint(bare))
    key, bare_key = key_to_cell(floor, bare)
    peer = "a bare Textual app"
    return [
        Row("first paint, demo house", 1000 * paint, "ms", peer, 1000 * bare_paint, bar=1.6),
        Row("first paint, 300 benches", 1000 * paint_300, "ms", peer, 1000 * bare_300, bar=2.0),
        Row("key to changed cell", 1000 * key, "ms", peer, 1000 * bare_key, bar=15.0, apart=True),
    ]


def _compiled() -> None:
    """As after an installation: Python may have been told to leave no compiled files behind."""
    for room in ("core", "floor"):
        compileall.compile_dir(room, quiet=2)


def _floor(data: Path, at: dt.datetime) -> Program:
    told = ["--data", str(data), "--at", f"{at:%Y-%m-%d %H:%M}"]
    return Program(["-m", "floor.main", *told], b"P-0")


def first_paint(program: Program) -> float:
    """Seconds from the start of the process to its first picture."""
    began = time.perf_counter()
    with running(program):
        return time.perf_counter() - began


def key_to_cell(*programs: Program) -> list[float]:
    """The medians over keys typed in turn: seconds from the key to the cell it changes."""
    taken: list[list[float]] = []
    for program in programs:
        with running(program) as there:
            drain(there.terminal)
            taken.append([_one_key(there.terminal, f"{1 + n % 9}") for n in range(KEYS)])
    return [median(times) for times in taken]


def _one_key(terminal: int, key: str) -> float:
    began = time.perf_counter()
    os.write(terminal, key.encode())
    read_until(terminal, f"bench {key}'s card".encode())
    took = time.perf_counter() - began
    os.write(terminal, b"\x7f")
    drain(terminal)
    return took


@contextmanager
def running(program: Program) -> Iterator[Running]:
    """The program on a terminal of 80 × 24, from its first picture on."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    child = subprocess.Popen(
        [sys.executable, *program.words],
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env={**os.environ, "TERM": "xterm-256color", "COLUMNS": "80", "LINES": "24"},
        start_new_session=True,
    )
    os.close(slave)
    try:
        read_until(master, program.ready)
        yield Running(master, child.pid)
    finally:
        child.kill()
        child.wait()
        os.close(master)


def read_until(terminal: int, wanted: bytes) -> None:
    """Read what is drawn until these bytes are in it."""
    seen = b""
    until = time.monotonic() + PATIENCE_S
    while wanted not in seen:
        if time.monotonic() > until:
            raise TimeoutError(f"waited for {wanted!r}, saw {seen[-400:]!r}")
        if select.select([terminal], [], [], 0.5)[0]:
            seen += os.read(terminal, 65536)


def drain(terminal: int) -> None:
    """Read until nothing more is drawn for a while."""
    while select.select([terminal], [], [], QUIET_S)[0]:
        os.read(terminal, 65536)
