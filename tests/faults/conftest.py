"""Every test gives back the files that it opened; small disks and desks for those that ask."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.commands.conftest import bunchbook, loaded
from tests.desk.conftest import clock, desk, desk_at
from tests.records.books import opened

__all__ = ["bunchbook", "clock", "desk", "desk_at", "loaded"]


@pytest.fixture(autouse=True)
def _give_files_back() -> Iterator[None]:
    yield
    while opened:
        opened.pop().close()


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 128 kB of its own, where this machine lets the test mount one."""
    place = tmp_path / "disk"
    place.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", "size=128k", "tmpfs", str(place)]
    if os.geteuid() != 0 or subprocess.run(command, check=False, capture_output=True).returncode:
        pytest.skip("no small disk can be mounted here")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)
