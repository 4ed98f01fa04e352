"""A file or folder that a command was told to write: a new one, whole or not at all."""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Mapping
from pathlib import Path

from core.problems import BadInput, Problem
from core.records.disk import sync_folder, unusable
from core.records.newfile import new_file
from core.say import say


def write_new(path: Path, text: str) -> None:
    """Write the text; BadInput where the file is there already, StoreUnusable if it cannot be."""
    there = Problem(str(path), say("is there already; name another file, or move it away"))
    if path.exists():
        raise BadInput(there)
    try:
        with new_file(path) as file:
            file.write(text.encode())
    except FileExistsError:
        raise BadInput(there) from None
    except OSError as error:
        raise unusable(error, path, say("write it")) from error


def write_folder(path: Path, files: Mapping[str, str]) -> None:
    """Write the files into a new or empty folder: all of them, or none.

    BadInput where something is there already, StoreUnusable if they cannot be written.
    """
    there = Problem(str(path), say("is there already and not empty; name another folder"))
    target = path.resolve()
    beside = target.with_name(f".{target.name[:200]}.{os.urandom(4).hex()}.part")
    try:
        if target.exists() and (not target.is_dir() or any(target.iterdir())):
            raise BadInput(there)
        beside.mkdir(0o700)
        for name, text in files.items():
            with new_file(beside / name) as file:
                file.write(text.encode())
        # In the place of an empty folder, never of one that has files by now.
        beside.rename(target)
        sync_folder(target.parent)
    except (FileExistsError, NotADirectoryError):
        raise BadInput(there) from None
    except OSError as error:
        if error.errno == errno.ENOTEMPTY:
            raise BadInput(there) from None
        raise unusable(error, path, say("write it")) from error
    finally:
        shutil.rmtree(beside, ignore_errors=True)
