"""Lines about a blend in every size."""

from __future__ import annotations

import pytest

from core.entry import requests as ask
from core.entry.parse import parse
from tests.entry.room import ROOM, asked


@pytest.mark.parametrize("line", ["line B4", "línea b4", "LINEA B4"])
def test_the_line_of_a_blend(line: str) -> None:
    assert asked(line) == ask.Show("line", "B4")


def test_without_a_blend_the_desk_chooses() -> None:
    assert asked("line") == ask.Show("line")


@pytest.mark.parametrize("word", ["try", "prueba"])
def test_what_is_tried_is_kept_as_typed(word: str) -> None:
    assert asked(f"{word} LI-2=1.5  toro.ring=50") == ask.Try(
        "LI-2=1.5  toro.ring=50", len(word) + 1
    )


@pytest.mark.parametrize("word", ["drop", "descarta"])
def test_back_to_today(word: str) -> None:
    assert asked(word) == ask.Show("drop")


@pytest.mark.parametrize(
    ("line", "says"),
    [("line B9", "expected a blend"), ("line B4 B5", "expected"), ("try", "expected what to try")],
)
def test_what_cannot_be_read(line: str, says: str) -> None:
    unread = parse(line, ROOM, None)
    assert isinstance(unread, ask.Unread)
    assert unread.says.startswith(says)


@pytest.mark.parametrize(
    ("line", "at"), [("approve 7", None), ("7 aprueba", None), ("approve", "7")]
)
def test_bunches_of_a_bench_are_approved(line: str, at: str | None) -> None:
    read = parse(line, ROOM, at)
    assert isinstance(read, ask.Parsed)
    assert read.request == ask.Approve("7")
