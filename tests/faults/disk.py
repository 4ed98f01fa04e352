"""Disks that are filled up, and writes that are refused by the file they go to."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest


def fill_up(disk: Path) -> Path:
    """Take all the room there is; the file that takes it."""
    spare = disk / "spare"
    with spare.open("wb", buffering=0) as file:
        for size in (4096, 1):
            with suppress(OSError):
                while file.write(bytes(size)):
                    pass
    return spare


def refuse_to_write(monkeypatch: pytest.MonkeyPatch, refused: Callable[[Path], bool]) -> None:
    """Let no byte into the files named by `refused`, as on a disk that is full."""
    real = os.pwrite

    def write(fd: int, data: bytes, at: int) -> int:
        path = Path(f"/proc/self/fd/{fd}").readlink()
        if path.suffix == ".jsonl" and refused(path):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return real(fd, data, at)

    monkeypatch.setattr(os, "pwrite", write)
