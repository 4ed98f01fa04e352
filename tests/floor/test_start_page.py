"""A floor without a house book: the first run, from the first key to the Board."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.start.questions import QUESTIONS
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock
from tests.floor.hall import DOWN, END, ESC, F1, F10, PAGE_DOWN, UP, XTERM, Hall, floor
from tests.floor.terminal import Terminal, opened

SIZES = [(80, 24), (60, 20)]
N = len(QUESTIONS)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    return tmp_path / "data"


def desk_on(data: Path, terminal: str = "T1", **more: str) -> Desk:
    return Desk(data, HandClock(MORNING), terminal, **more)  # type: ignore[arg-type]


async def enter(hall: Hall, *lines: str) -> None:
    """Each line and Enter, all of it dealt with before the next."""
    for line in lines:
        hall.type(f"{line}\r")
        await hall.settled()


def broken_book(folder: Path) -> Path:
    book = folder / "mine.toml"
    text = re.sub(r"ring = \d+", "ring = 5", HOUSE_TOML)
    book.write_text(text.replace("[house]", "[house]\ncolour = 1"), encoding="utf-8")
    return book


# -- answering ----------------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
async def test_answered_through_it_lands_on_the_board(data: Path, size: tuple[int, int]) -> None:
    async with floor(desk_on(data), size) as hall:
        assert hall.is_at("Start")
        assert "No house book is loaded yet" in hall.text
        await enter(hall, "1")
        assert f"1 of {N}: Which language does the house speak, en or es?" in hall.text
        await enter(hall, "en", "Casa Uno", *[""] * (N - 2))
        assert "The house: Casa Uno: 5 leaves, 1 blend, 1 vitola, 1 bench" in hall.text
        assert not data.joinpath("house.toml").exists()
        await enter(hall, "")
        assert hall.is_at("Board")
        assert "Casa Uno" in hall.rows[0]
        assert "house.toml is written and in force" in hall.text
        assert "nothing recorded yet today: type 1 15.3 15.6" in hall.text
        await enter(hall, "1 15.3 15.6 15.4 15.5 15.2")
        assert "saved, entry 1" in hall.text


async def test_an_answer_typed_at_help_is_sent_back_to_the_questions(data: Path) -> None:
    async with floor(desk_on(data)) as hall:
        await enter(hall, "1", "en")
        hall.type("?")
        await hall.settled()
        assert hall.is_at("Help")
        await enter(hall, "Casa Uno")
        assert hall.is_at("Start")
        assert f"2 of {N}:" in hall.text
        assert "Enter again answers it" in hall.text
        await enter(hall, "")
        assert f"3 of {N}:" in hall.text
        assert "Casa Uno" in hall.text


async def test_a_burst_of_empty_enters_answers_everything(data: Path) -> None:
    async with floor(desk_on(data)) as hall:
        hall.type("\r" * (N + 2))
        await hall.shows("first piece")
        assert hall.is_at("Board")


@pytest.mark.parametrize("size", SIZES)
async def test_a_wrong_answer_stays_and_is_told(data: Path, size: tuple[int, int]) -> None:
    async with floor(desk_on(data), size) as hall:
        await enter(hall, "1", "", "")
        hall.type("heavy")
        await hall.shows('scale\'s division "heavy" is not an amount')
        await enter(hall, "")
        assert f"3 of {N}" in hall.text
        assert "▸ heavy" in hall.text
        await enter(hall, "0.5")
        assert f"4 of {N}" in hall.text
        assert "0.5 g" in hall.text
        assert "not read" not in hall.text


async def test_esc_clears_the_line_then_goes_back_one(data: Path) -> None:
    async with floor(desk_on(data)) as hall:
        await enter(hall, "1", "", "Casa Uno")
        hall.type("0.7" + ESC)
        await hall.settled()
        assert f"3 of {N}" in hall.text
        hall.type(ESC)
        await hall.settled()
        assert f"2 of {N}" in hall.text
        assert "Enter alone takes: Casa Uno" in hall.text
        await enter(hall, "<", "<")
        assert "No house book is loaded yet" in hall.text


async def test_help_and_other_pages_are_there_and_come_back_to_the_question(data: Path) -> None:
    async with floor(desk_on(data)) as hall:
        await enter(hall, "1", "")
        hall.type(F10)
        await hall.settled()
        assert hall.is_at("Help")
        hall.type(F1)
        await hall.settled()
        assert f"2 of {N}" in hall.text


async def test_all_answers_can_be_seen(data: Path) -> None:
    async with floor(desk_on(data), (60, 20)) as hall:
        await enter(hall, "1", "", "Casa Uno", *[""] * (N - 2))
        assert "Casa Uno  " not in hall.text
        hall.type(END + UP)
        await hall.settled()
        assert "house                    Casa Uno" in hall.text
        hall.type(PAGE_DOWN)
        await hall.settled()
        assert "language" in hall.text


async def test_spanish_from_the_answer_on(data: Path) -> None:
    async with floor(desk_on(data), (60, 20)) as hall:
        await enter(hall, "1", "español")
        assert hall.is_at("Comienzo")
        assert "¿Cómo se llama la casa?" in hall.text
        await enter(hall, "", "0,1", *[""] * (N - 3))
        assert "La casa: Nuestra casa: 5 hojas" in hall.text
        await enter(hall, "")
        assert hall.is_at("Tablero")
    assert "menor paso de las balanzas" in (data / "house.toml").read_text(encoding="utf-8")


async def test_ctrl_l_says_the_choice_in_spanish(data: Path) -> None:
    async with floor(desk_on(data)) as hall:
        hall.type("\x0c")
        await hall.settled()
        assert "Aún no hay" in hall.text or "Todavía no hay" in hall.text
        assert "Ctrl+L: in English" in hall.text


@pytest.mark.parametrize("environ", [{"TERM": "vt100"}, {**XTERM, "NO_COLOR": "1"}])
async def test_on_plain_terminals(data: Path, environ: dict[str, str]) -> None:
    encoding = "ascii" if environ["TERM"] == "vt100" else "utf-8"
    async with floor(desk_on(data), (60, 20), environ, encoding) as hall:
        await enter(hall, "1", "es", *[""] * (N - 1))
        hall.app.refresh()
        await hall.settled()
        if encoding == "ascii":
            assert hall.text.isascii()
        await enter(hall, "")
        assert hall.is_at("Tablero")


# -- a file that is there -----------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
async def test_the_problems_of_a_file_are_walked_mended_and_it_is_loaded(
    tmp_path: Path, data: Path, size: tuple[int, int]
) -> None:
    book = broken_book(tmp_path)
    async with floor(desk_on(data), size) as hall:
        await enter(hall, "2", str(book))
        assert "1 of 3 to mend in" in hall.text.replace("\n", " ")
        assert "▸[house]: unknown key" in hall.text
        hall.type(DOWN)
        await hall.settled()
        assert '▸[[vitola]] 1 "toro": ring 5 is outside 16 to 100' in hall.text
        hall.type(DOWN * 5)
        await hall.settled()
        assert "3 of 3 to mend in" in hall.text
        book.write_text(HOUSE_TOML, encoding="utf-8")
        await enter(hall, "again")
        assert "mine.tomlissound" in re.sub(r"\s", "", hall.text)  # a long path is broken
        await enter(hall, "yes")
        assert hall.is_at("Board")


async def test_no_path_and_no_file_are_told(data: Path) -> None:
    async with floor(desk_on(data)) as hall:
        await enter(hall, "2", "", "nowhere.toml")
        assert "nowhere.toml: cannot be read: No such file or directory" in hall.text
        await enter(hall, "<")
        assert "No house book is loaded yet" in hall.text
        await enter(hall, "3")
        assert "bunchbook --demo" in hall.rows[-2] + hall.rows[-3]
        await enter(hall, "9")
        assert "expected 1, 2, 3 or the path of a file" in hall.text


# -- where it is not for ------------------------------------------------------------------------


async def test_a_terminal_for_one_bench_waits_for_the_others(data: Path) -> None:
    async with floor(desk_on(data, only="7")) as hall:
        assert "house load house.toml" in hall.text
        await enter(hall, "1")
        assert f"1 of {N}" not in hall.text


async def test_the_second_floor_shows_the_board_when_the_first_has_loaded(data: Path) -> None:
    async with floor(desk_on(data)) as hall:
        await enter(hall, "1", "")
        hall.type("Casa D")
        async with floor(desk_on(data, "T2")) as other:
            await enter(other, *[""] * (N + 1))
            assert other.is_at("Board")
        await hall.until(lambda: hall.is_at("Board"), "the Board")
        assert "first piece" in hall.text
        assert "▸ Casa D" in hall.text


# -- on a pseudo-terminal -----------------------------------------------------------------------


ROOT = Path(__file__).parents[2]


@pytest.fixture
def argv(data: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    monkeypatch.chdir(ROOT)
    return ["-m", "floor.main", "--data", str(data), "--terminal"]


@pytest.fixture
def floors(argv: list[str]) -> Iterator[tuple[Terminal, Terminal]]:
    """Two terminals on one empty folder."""
    with ExitStack() as stack:
        both = [stack.enter_context(opened([*argv, name])) for name in ("T1", "T2")]
        for each in both:
            each.wait_for("No house book is loaded yet")
        yield both[0], both[1]


def test_from_an_empty_folder_to_the_board_on_a_real_terminal(
    floors: tuple[Terminal, Terminal], data: Path
) -> None:
    here, there = floors
    here.type("1\r")
    for n in range(1, N + 1):
        here.wait_for(f" {n} of {N}: ")
        here.type("Casa Uno\r" if n == 2 else "\r")
    here.wait_for("The house: Casa Uno")
    here.type("\r")
    for each in floors:
        each.wait_for("first piece")
        assert each.rows[0].startswith(" Board  Casa Uno")
    assert Desk(data, lambda: dt.datetime.now().astimezone(), "T9").card("1").bench == "1"
    here.type("quit\r")
    assert here.wait_for_end() == 0
    assert there.child.poll() is None


def test_a_dropped_terminal_goes_on_where_it_was(argv: list[str]) -> None:
    with opened([*argv, "T1"]) as terminal:
        terminal.wait_for("No house book is loaded yet")
        terminal.type("1\r\rCasa Uno\r")
        terminal.wait_for(f" 3 of {N}: ")
        terminal.hang_up()
        terminal.wait_for_end()
    with opened([*argv, "T1"]) as terminal:
        terminal.wait_for(f"go on: 2 of {N} questions are answered")
        terminal.type("\r")
        terminal.wait_for(f" 3 of {N}: ")
        terminal.wait_for("Casa Uno")
