"""A file that comes into being whole, or not at all, and never in another's place."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from core.records.disk import sync_folder


@contextlib.contextmanager
def new_file(target: Path) -> Iterator[BinaryIO]:
    """Write a file of its owner's alone beside `target`, which it becomes at the end, synced.

    FileExistsError where the target is there by then; whatever is raised leaves no file.
    """
    beside = target.with_name(f".{target.name[:200]}.{os.urandom(4).hex()}.part")
    made = os.open(beside, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(made, "w+b") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        _rename(beside, target)
        try:
            sync_folder(target.parent)
        except OSError:
            target.unlink()
            raise
    finally:
        beside.unlink(missing_ok=True)


def _rename(beside: Path, target: Path) -> None:
    """Give the file its name, unless another has it: a plain rename would take it away."""
    try:
        target.hardlink_to(beside)
    except FileExistsError:
        raise
    except OSError as error:  # a disk that knows no links, as sticks do
        if target.exists():
            raise FileExistsError(target) from error
        beside.rename(target)
