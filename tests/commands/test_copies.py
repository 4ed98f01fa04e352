"""`backup`, `restore` and `verify` as they are typed: what they say, and how they end."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.commands.conftest import Bunchbook

NAME = "days/2026-05-04.jsonl"


@pytest.fixture
def file(loaded: Bunchbook, tmp_path: Path) -> str:
    """A copy of a day with two entries."""
    loaded("enter", "7 made 50", "7 good 40")
    ran = loaded("backup", str(tmp_path / "copy.zip"))
    assert (ran.code, ran.err) == (0, "")
    assert "copied 1 day, 6 lines, " in ran.out
    return str(tmp_path / "copy.zip")


def test_a_copy_put_back_where_nothing_is(loaded: Bunchbook, file: str, tmp_path: Path) -> None:
    report = loaded("day", "--json").json
    shutil.rmtree(tmp_path / "data")
    ran = loaded("restore", file)
    assert (ran.code, ran.err) == (0, "")
    assert "the copy of 2026-05-04T" in ran.out
    assert "is in place: 1 day, 6 lines" in ran.out
    assert "2 books put" in ran.out
    assert loaded("day", "--json").json == report
    assert "2 were here already" in loaded("restore", file).out


def test_newer_records_are_refused_then_set_aside(
    loaded: Bunchbook, file: str, tmp_path: Path
) -> None:
    loaded("enter", "7 made 7")
    ran = loaded("restore", file)
    assert (ran.code, ran.out) == (2, "")
    assert f"{NAME}: goes on beyond the copy: 5 lines here, 4 in the copy" in ran.err
    assert "nothing was changed; with --replace" in ran.err
    assert loaded("day", "--json").json["totals"]["made"] == 57
    ran = loaded("restore", file, "--replace")
    assert ran.code == 0
    (aside,) = (tmp_path / "data").glob("replaced-20260504T*")
    assert f"what was replaced is kept in {aside}" in ran.err
    assert (aside / NAME).is_file()
    assert loaded("day", "--json").json["totals"]["made"] == 50


def test_as_json(loaded: Bunchbook, file: str, tmp_path: Path) -> None:
    made = loaded("backup", str(tmp_path / "second.zip"), "--json").json
    assert (made["days"], made["lines"], made["problems"]) == (1, 6, [])
    done = loaded("restore", file, "--json").json
    assert (done["put"], done["left"]) == ([], ["house.jsonl", NAME])
    assert (done["stay"], done["aside"]) == ([], [])


def test_damage_is_copied_and_told(loaded: Bunchbook, file: str, tmp_path: Path) -> None:
    book = tmp_path / "data" / NAME
    book.write_bytes(book.read_bytes().replace(b'"n":40', b'"n":90') + b'{"sum":"')
    ran = loaded("backup", str(tmp_path / "second.zip"))
    assert (ran.code, "copied 1 day, 7 lines" in ran.out) == (1, True)
    assert f"problem, copied as it is: {NAME}: line 4: changed after it was written" in ran.err
    assert f"torn line, copied as it is: {NAME}: line 5" in ran.err
    shutil.rmtree(tmp_path / "data")
    ran = loaded("restore", str(tmp_path / "second.zip"))
    assert ran.code == 1
    assert f"{NAME}: line 4" in ran.err


def test_a_file_that_is_there_is_left(loaded: Bunchbook, file: str) -> None:
    before = Path(file).read_bytes()
    ran = loaded("backup", file)
    assert (ran.code, ran.out) == (2, "")
    assert "name a new file" in ran.err
    assert Path(file).read_bytes() == before


@pytest.mark.parametrize("words", [["verify"], ["verify", "--json"], ["backup", "x.zip"]])
def test_a_folder_that_is_not_there_is_exit_3(bunchbook: Bunchbook, words: list[str]) -> None:
    ran = bunchbook(*words)
    assert (ran.code, ran.out) == (3, "")
    assert "expected a data folder, found nothing; name the right folder with --data" in ran.err


def test_an_empty_folder_is_told(bunchbook: Bunchbook, tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    ran = bunchbook("verify")
    assert ran.code == 1
    assert "found none: nothing was recorded here yet, or the records were removed" in ran.out
    assert bunchbook("verify", "--json").json["sound"] is False
    ran = bunchbook("backup", str(tmp_path / "copy.zip"))
    assert (ran.code, ran.out) == (3, "")
    assert not (tmp_path / "copy.zip").exists()


def test_a_file_that_is_no_copy(loaded: Bunchbook, tmp_path: Path) -> None:
    for name in ("none.zip", "data", "data/house.jsonl"):
        ran = loaded("restore", str(tmp_path / name), "--replace")
        assert (ran.code, ran.out) == (2, "")
        assert "nothing was restored" in ran.err


@pytest.mark.parametrize("words", [["backup"], ["restore"], ["restore", "a", "b"]])
def test_a_line_that_names_no_file(bunchbook: Bunchbook, words: list[str]) -> None:
    assert bunchbook(*words).code == 2


@pytest.mark.skipif(os.geteuid() != 0, reason="needs a mount")
@pytest.mark.parametrize("what", ["target", "data"])
def test_a_disk_that_turned_read_only(
    loaded: Bunchbook, file: str, tmp_path: Path, what: str
) -> None:
    """Nothing can be put on it, but its records can be copied off it."""
    place = tmp_path / what
    place.mkdir(exist_ok=True)
    if what == "data":
        (place / NAME).unlink()
    bound = ["mount", "--bind", str(place), str(place)]
    if subprocess.run(bound, check=False, capture_output=True).returncode:
        pytest.skip("nothing can be mounted here")
    try:
        subprocess.run(["mount", "-o", "remount,ro,bind", str(place)], check=True)
        if what == "target":
            ran = loaded("backup", str(place / "copy.zip"))
            assert (ran.code, ran.out) == (3, "")
            assert "cannot write the copy: the disk is read-only" in ran.err
        else:
            assert loaded("backup", str(tmp_path / "second.zip")).code == 0
            ran = loaded("restore", file)
            assert (ran.code, ran.out) == (3, "")
            assert "the disk is read-only" in ran.err
    finally:
        subprocess.run(["umount", "-l", str(place)], check=True)
