"""A file that a command was told to write: a new one, whole or not at all."""

from __future__ import annotations

from pathlib import Path

from core.problems import BadInput, Problem
from core.records.disk import unusable
from core.records.newfile import new_file


def write_new(path: Path, text: str) -> None:
    """Write the text; BadInput where the file is there already, StoreUnusable if it cannot be."""
    there = Problem(str(path), "is there already; name another file, or move it away")
    if path.exists():
        raise BadInput(there)
    try:
        with new_file(path) as file:
            file.write(text.encode())
    except FileExistsError:
        raise BadInput(there) from None
    except OSError as error:
        raise unusable(error, path, "write it") from error
