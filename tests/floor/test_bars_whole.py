"""The entry row's marks, the ends of a long line, and the keys: none is read as another."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from core.house.language import LANGUAGES
from core.house.model import Language
from floor.widgets.entry import _in_sight
from tests.floor.hall import XTERM, Hall, floor, small_house
from tests.floor.paper import PaperDesk

VT100 = {"TERM": "vt100"}
SIZES = ((80, 24), (60, 20))
LONG = "7 note " + " ".join(f"word{n:02}" for n in range(20))
HOME, RIGHT = "\x1b[H", "\x1b[C"


@pytest.fixture
def paper() -> PaperDesk:
    return PaperDesk(small_house())


def entry_row(hall: Hall) -> str:
    return hall.rows[hall.app.entry.region.y]


# -- what stands at the right --------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("plain", [False, True])
async def test_a_line_not_read_is_apart_from_what_is_held(
    paper: PaperDesk, size: tuple[int, int], plain: bool
) -> None:
    environ, encoding = (VT100, "ascii") if plain else (XTERM, "utf-8")
    async with floor(paper, size, environ, encoding) as hall:
        hall.type("7\r51\r")
        await hall.shows("1 held")
        hall.app.clerk.unread.append("9 god 3")
        hall.app.entry.repaint()
        await hall.shows("not read: 9 god 3  [1 held]")
        assert cell_len(entry_row(hall).rstrip()) <= size[0]


# -- a line longer than the row ------------------------------------------------------------------


@pytest.mark.parametrize("plain", [False, True])
async def test_marks_tell_that_the_ends_of_a_long_line_are_hidden(
    paper: PaperDesk, plain: bool
) -> None:
    environ, encoding = (VT100, "ascii") if plain else (XTERM, "utf-8")
    before, after, prompt = ("<", ">", " > ") if plain else ("‹", "›", " ▸ ")
    async with floor(paper, (60, 20), environ, encoding) as hall:
        hall.type("7 note")
        await hall.settled()
        assert entry_row(hall).rstrip() == f"{prompt}7 note"
        hall.type(LONG[len("7 note") :])
        await hall.settled()
        assert entry_row(hall).startswith(f"{prompt}{before}")
        assert entry_row(hall).rstrip().endswith("word19")
        hall.type(HOME)
        await hall.settled()
        assert entry_row(hall).startswith(f"{prompt}7 note")
        assert entry_row(hall).rstrip().endswith(after)
        hall.type(RIGHT * (len(LONG) // 2))
        await hall.settled()
        assert entry_row(hall).startswith(f"{prompt}{before}")
        assert entry_row(hall).rstrip().endswith(after)


@pytest.mark.parametrize("room", [1, 2, 3, 10, 40])
def test_the_caret_is_always_in_sight_and_the_marks_have_room(room: int) -> None:
    for length in range(60):
        for caret in range(length + 1):
            seen = _in_sight(length, caret, room)
            assert caret in seen
            marks = (seen.start > 0) + (seen.stop < length)
            assert len(seen) + marks <= max(room, 3)
            assert len(seen) + marks <= room or room < 3


# -- the keys ------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("typed", ["", "7\r", "7\rchart\r", "help\r", "leaf\r"])
async def test_a_vt100_says_what_can_be_typed_and_how_to_leave(
    paper: PaperDesk, size: tuple[int, int], language: Language, typed: str
) -> None:
    async with floor(paper, size, VT100, "ascii") as hall:
        hall.app.speak(language)
        hall.type(typed)
        await hall.settled()
        keys = hall.rows[-1].rstrip()
        says, leaves = ("escriba:", "salir") if language == "es" else ("type:", "quit")
        assert says in keys
        assert keys.endswith(f" {leaves}")
        assert "Enter" not in keys
        assert "Intro" not in keys


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("typed", ["", "7\r", "help\r"])
async def test_a_way_out_is_always_among_the_keys(
    paper: PaperDesk, size: tuple[int, int], language: Language, typed: str
) -> None:
    async with floor(paper, size) as hall:
        hall.app.speak(language)
        hall.type(typed)
        await hall.settled()
        assert f"Ctrl+Q {hall.app.words.quit}" in hall.rows[-1]


@pytest.mark.parametrize("language", LANGUAGES)
async def test_the_line_is_among_the_keys_of_80_columns(
    paper: PaperDesk, language: Language
) -> None:
    async with floor(paper) as hall:
        hall.app.speak(language)
        await hall.settled()
        assert f"F4 {hall.app.words.line_page}" in hall.rows[-1]
