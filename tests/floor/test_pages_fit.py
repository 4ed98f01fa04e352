"""Every page in both languages: nothing cut off in 80 columns; 60 leave columns out, no words."""

from __future__ import annotations

import re
from contextlib import suppress

import pytest

from tests.floor.rooms import ALL, Rooms, go, settle
from tests.floor.terminal import Terminal

WIDE = (132, 110)
"""Room for every page with all its columns; what is not in it is the tail of a long list."""
NARROW = ((80, 110), (80, 24), (60, 20))
WORD = re.compile(r"[^\W\d_]{2,}")
NARROW_ONLY = {
    "en": {"below", "each"},
    "es": {"debajo", "según", "tiende", "por"},
}
"""Said on the Card only where it is narrow."""
PATIENCE_S = 6.0


def words(terminal: Terminal) -> set[str]:
    """The words on the page, the bars and the entry line left out."""
    return {word for row in page(terminal) for word in WORD.findall(row)}


def page(terminal: Terminal) -> list[str]:
    return terminal.rows[1:-4]


def broken(terminal: Terminal, known: set[str]) -> list[str]:
    """The rows with a word that is none, or with a sign that something was left out."""
    return [row for row in page(terminal) if "…" in row or not known.issuperset(WORD.findall(row))]


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_page_is_cut_off_inside_a_word(rooms: Rooms, language: str) -> None:
    with rooms.floor(language, WIDE) as terminal:
        known = set(NARROW_ONLY[language])
        for room in ALL[language]:
            go(terminal, room)
            settle(terminal, 0.2)
            known |= words(terminal)
        cut: list[str] = []
        for width, height in NARROW:
            terminal.resize(width, height)
            for room in ALL[language]:
                go(terminal, room)
                with suppress(AssertionError):  # to tell of all at once
                    terminal.wait_for(lambda: not broken(terminal, known), PATIENCE_S)
                cut += [f"{room.title}, {width}: {row}" for row in broken(terminal, known)]
                terminal.wait_for(lambda: "▸" in terminal.rows[-4])
                terminal.wait_for(lambda: terminal.rows[-1].startswith(" F"))
        assert not cut, "\n".join(cut)
