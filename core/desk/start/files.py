"""Paths as people type them, and files that are written whole or not at all."""

from __future__ import annotations

import contextlib
import os
import stat
from pathlib import Path

from core.problems import BadInput
from core.records.disk import make_folder, open_private, sync_folder, unusable
from core.say import say


def names_path(line: str) -> bool:
    """Whether a line is meant as a path where other words may be typed."""
    return "/" in line or line.casefold().endswith(".toml")


def path_of(line: str) -> Path:
    """The path as typed or dropped on the terminal: quotes around it are left out."""
    bare = line[1:-1] if len(line) > 2 and line[0] == line[-1] and line[0] in "'\"" else line
    if "\0" in bare:
        raise BadInput(say("a path has no NUL in it; type another path"))
    try:
        return Path(bare).expanduser()
    except RuntimeError:  # there is no such user
        return Path(bare)


def is_among_records(path: Path, folder: Path) -> bool:
    """Whether the data folder may have a file of its own there; a text it has none."""
    inside = Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))
    return inside and path.suffix.casefold() != ".toml"


def holds(path: Path, content: bytes) -> bool:
    """Whether the file has that very content already."""
    try:
        return path.stat().st_size == len(content) and path.read_bytes() == content
    except (OSError, ValueError):
        return False


def write_over(path: Path, content: bytes) -> None:
    """Write a file whole, or leave what was there as it was. StoreUnusable says why.

    A new one is as private as the records.
    """
    beside = path.with_name(f".{path.name[:200]}.{os.urandom(4).hex()}.part")
    try:
        make_folder(path.parent)
        with open(open_private(beside, os.O_WRONLY | os.O_TRUNC), "wb") as file:  # noqa: PTH123
            if path.exists():
                beside.chmod(stat.S_IMODE(path.stat().st_mode))
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
        sync_folder(path.parent)
    except OSError as error:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise unusable(error, path, say("write it")) from error
