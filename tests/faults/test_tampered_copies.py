"""Copies that were tampered with, and a disk that fails in the last step of making one."""

from __future__ import annotations

import errno
import zipfile
from pathlib import Path

import pytest

from core.problems import BadInput, StoreUnusable
from core.records import newfile
from core.records.backup import back_up
from core.records.copy import SEAL_BYTES, UNSEALED, seal_of
from core.records.folder import Folder
from core.records.opencopy import open_copy
from tests.records.books import written


def _resealed(copy: Path) -> None:
    with copy.open("r+b") as file:
        seal = seal_of(file)
        file.seek(-SEAL_BYTES, 2)
        file.write(seal)


def test_a_damaged_copy_of_another_packing_is_refused_in_a_sentence(tmp_path: Path) -> None:
    written(tmp_path / "data", [15.3] * 50)
    made, packed = tmp_path / "made.zip", tmp_path / "packed.zip"
    back_up(Folder(tmp_path / "data"), made, "2026-05-04T10:00:00Z", "1")
    with zipfile.ZipFile(made) as source, zipfile.ZipFile(packed, "w", zipfile.ZIP_LZMA) as target:
        for name in source.namelist():
            target.writestr(name, source.read(name))
        target.comment = UNSEALED
        entry = target.getinfo(source.namelist()[0])
    with packed.open("r+b") as file:
        file.seek(entry.header_offset + 30 + len(entry.filename) + entry.compress_size // 2)
        file.write(b"\xff" * 40)
    _resealed(packed)
    with pytest.raises(BadInput), open_copy(packed):
        pass


def test_a_copy_whose_name_was_not_confirmed_can_be_tried_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_: Path) -> None:
        raise OSError(errno.EIO, "Input/output error")

    written(tmp_path / "data", [15.3])
    folder, target = Folder(tmp_path / "data"), tmp_path / "copy.zip"
    with monkeypatch.context() as patched:
        patched.setattr(newfile, "sync_folder", fail)
        with pytest.raises(StoreUnusable):
            back_up(folder, target, "2026-05-04T10:00:00Z", "1")
    back_up(folder, target, "2026-05-04T10:00:00Z", "1")
