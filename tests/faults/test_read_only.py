"""A data folder that can only be read: questions are answered, entries refused in a sentence."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.commands.conftest import HOUSE, Bunchbook


@pytest.fixture
def read_only(tmp_path: Path, bunchbook: Bunchbook) -> Iterator[Bunchbook]:
    """A day with entries, on a disk that has since become read-only."""
    data = tmp_path / "data"
    assert bunchbook("house", "load", str(HOUSE)).code == 0
    assert bunchbook("enter", "7 made 50", "7 10.8 10.9 11.0").code == 0
    mounted = os.geteuid() == 0
    bind = ["mount", "--bind", str(data), str(data)]
    if mounted and subprocess.run(bind, check=False, capture_output=True).returncode:
        pytest.skip("root may write anywhere, and nothing can be mounted here")
    try:
        lock(data, mounted=mounted)
        yield bunchbook
    finally:
        if mounted:
            subprocess.run(["umount", "-l", str(data)], check=True)
        else:
            for path in (data, *data.rglob("*")):
                path.chmod(0o700)


def lock(data: Path, *, mounted: bool) -> None:
    if mounted:
        subprocess.run(["mount", "-o", "remount,ro,bind", str(data)], check=True)
        return
    for path in (*data.rglob("*"), data):
        path.chmod(0o500 if path.is_dir() else 0o400)


def newer_house(tmp_path: Path) -> str:
    text = tmp_path / "newer.toml"
    text.write_text(HOUSE.read_text(encoding="utf-8").replace('"0.6 g"', '"0.7 g"'))
    return str(text)


def test_what_would_write_is_refused_in_a_sentence(read_only: Bunchbook, tmp_path: Path) -> None:
    for words, at in (
        (("enter", "7 good 45"), None),
        (("enter", "7 good 45"), "2026-05-05 09:00"),
        (("close",), None),
        (("house", "load", newer_house(tmp_path)), None),
    ):
        ran = read_only(*words) if at is None else read_only(*words, at=at)
        assert ran.code == 3, ran
        assert "read-only; make it writable" in ran.err or "no right to" in ran.err, ran
        assert "use another data folder" in ran.err or "ask the folder's owner" in ran.err, ran
        assert str(tmp_path / "data") in ran.err
        assert ran.out == ""
        assert ran.err.count("read-only") + ran.err.count("no right to") == 1


def test_every_line_of_several_is_named(read_only: Bunchbook) -> None:
    ran = read_only("enter", "-", typed="7 good 1\n7 good 2\n")
    assert ran.code == 3
    rows = ran.err.splitlines()
    assert [row[:19] for row in rows] == ["not saved: 7 good 1", "not saved: 7 good 2"]


def test_questions_are_answered_all_the_same(read_only: Bunchbook) -> None:
    for words in (
        ("card", "7"),
        ("card", "7", "--json"),
        ("line", "B1"),
        ("day",),
        ("house", "show"),
        ("verify",),
    ):
        ran = read_only(*words)
        assert ran.code == 0, ran
        assert ran.out
    assert read_only("day", "--json").json["totals"]["made"] == 50
    assert read_only("card", "7", at="2026-05-06 09:00").code == 0
