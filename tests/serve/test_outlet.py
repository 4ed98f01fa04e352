"""A browser that takes no pictures keeps nobody from being recorded."""

from __future__ import annotations

import os
import threading

from floor.serve.outlet import LONGEST_QUEUE, Outlet

PICTURE = bytes(100_000)
"""More than a pipe holds (64 KB on Linux)."""


def test_what_is_not_taken_is_not_waited_for_and_comes_in_order() -> None:
    reads, writes = os.pipe()
    drained = threading.Event()
    outlet = Outlet(writes, drained.set)
    outlet.start()
    for _ in range(LONGEST_QUEUE):
        outlet.put(PICTURE)
    outlet.put(b"last")
    stalled = outlet.stalled
    assert stalled
    assert not drained.is_set()
    left = LONGEST_QUEUE * len(PICTURE) + len(b"last")
    got = b""
    while left:
        got = os.read(reads, 1 << 20)
        left -= len(got)
    assert got.endswith(b"last")
    assert drained.wait(10)
    assert not outlet.stalled
    outlet.finish()
    os.close(reads)
    os.close(writes)


def test_a_reader_that_is_gone_is_no_trouble() -> None:
    reads, writes = os.pipe()
    os.close(reads)
    outlet = Outlet(writes, lambda: None)
    outlet.start()
    assert outlet.put(PICTURE) == len(PICTURE)
    outlet.finish()
    os.close(writes)
