"""Whole commands, run in this process: words in, output and exit code out."""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from floor.main import main

HOUSE = Path(__file__).parent.parent / "desk" / "house.toml"
AT = "2026-05-04 09:15"


class Ran(NamedTuple):
    """What a command left behind."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)

    @property
    def lines(self) -> list[Any]:
        """One JSON value a line."""
        return [json.loads(line) for line in self.out.splitlines()]


Bunchbook = Callable[..., Ran]


@pytest.fixture
def bunchbook(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Bunchbook:
    """Run `bunchbook WORDS` on a data folder of the test's own, at a time that stands still."""
    monkeypatch.setenv("BUNCHBOOK_DATA", str(tmp_path / "data"))
    monkeypatch.delenv("BUNCHBOOK_TERMINAL", raising=False)
    monkeypatch.delenv("BUNCHBOOK_WHO", raising=False)
    monkeypatch.delenv("BUNCHBOOK_PIN", raising=False)

    def run(*words: str, typed: str = "", at: str | None = AT) -> Ran:
        fed = io.TextIOWrapper(io.BytesIO(typed.encode()))
        monkeypatch.setattr(sys, "stdin", fed)
        common = ("--at", at) if at else ()
        try:
            code = main([*words, *common, "--terminal", "T1"])
        except SystemExit as stop:
            code = int(stop.code or 0)
        got = capsys.readouterr()
        return Ran(code, got.out, got.err)

    return run


@pytest.fixture
def loaded(bunchbook: Bunchbook) -> Bunchbook:
    """The same, with the small house in force."""
    assert bunchbook("house", "load", str(HOUSE)).code == 0
    return bunchbook
