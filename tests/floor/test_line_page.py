"""The Line: a blend in every size, what is tried beside it, and where the figures come from."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from rich.cells import cell_len

from core.desk.desk import Desk
from demo.build import build
from floor.looks.language import words_of
from floor.looks.spans import text_of, width_of
from floor.screens.line_view import line_lines
from tests.desk.conftest import HOUSE_TOML, MORNING, load
from tests.floor.hall import END, ESC, XTERM, floor

F4 = "\x1b[14~"
ANOTHER_LIGERO = """
[[leaf]]
code = "LI-3"
use = "filler"
class = "ligero"
moisture = "13 %"
half_leaf = "3.0 g"
strength = 8.0
price = 28.0
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo house's records."""
    path = tmp_path_factory.mktemp("demo") / "data"
    build(path)
    return path


@pytest.fixture
def demo(folder: Path) -> Desk:
    """A desk at the demo house, the day after its fortnight began."""
    return Desk(folder, lambda: MORNING, "T1")


def _text(desk: Desk, width: int = 80, language: str = "en", *, plain: bool = False) -> str:
    assert desk.house is not None
    words = words_of(language, plain)
    return "\n".join(map(text_of, line_lines(desk.line.shown(), desk.house, words, width)))


async def test_f4_tells_what_holds_and_what_it_costs(demo: Desk) -> None:
    async with floor(demo) as hall:
        hall.type(F4)
        await hall.shows("packing learned from")
        assert hall.is_at("Line")
        hall.type("line B4\r")
        await hall.shows("blend B4")
        corona = next(row for row in hall.rows if row.startswith(" corona"))
        assert corona.split()[1:4] == ["42", "139.7", "8.90"]
        assert "no LI-2" in corona
        assert "53 LI-2" in corona
        assert "from: the smallest ring that holds" in hall.text
        assert all(cell_len(row.rstrip()) <= 80 for row in hall.rows)


async def test_the_rest_is_read_a_page_at_a_time(demo: Desk) -> None:
    async with floor(demo) as hall:
        hall.type("line B4\r")
        await hall.shows("blend B4")
        assert "of" in hall.rows[0]
        hall.type(END)
        await hall.shows("try without")
        assert "blend B4 ·" not in hall.text


async def test_tried_beside_today_until_escape(demo: Desk) -> None:
    async with floor(demo) as hall:
        hall.type("line B4\rtry LI-2=1.5 toro.ring=50\r")
        await hall.shows("tried: LI-2=1.5, toro.ring=50")
        row = next(n for n, row in enumerate(hall.rows) if row.startswith(" toro  "))
        assert hall.rows[row].split()[1] == "52"
        assert hall.rows[row + 1].split()[:2] == ["▸", "50"]
        hall.type(ESC)
        await hall.until(lambda: "tried:" not in hall.text, "today's sheet alone")
        assert hall.is_at("Line")
        hall.type(ESC)
        await hall.until(lambda: hall.is_at("Board"), "the Board")


async def test_drop_goes_back_too(demo: Desk) -> None:
    async with floor(demo) as hall:
        hall.type("try LI-2=1.5\r")
        await hall.shows("tried: LI-2=1.5")
        hall.type("drop\r")
        await hall.until(lambda: "tried:" not in hall.text, "today's sheet alone")


async def test_new_parts_are_found_while_the_line_takes_entries(tmp_path: Path) -> None:
    desk = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(desk, HOUSE_TOML + ANOTHER_LIGERO)
    async with floor(desk) as hall:
        hall.type("try without LI-1 corona.ring=44\r7 made 50\r")
        await hall.shows("entry 1")
        await hall.shows("without LI-1, the least change of parts: LI-1 4 → 0.00, LI-3 0 → 4.00")
        assert "tried: corona.ring=44" in hall.text
        corona = next(n for n, row in enumerate(hall.rows) if row.startswith(" corona  "))
        assert hall.rows[corona + 1].split()[:2] == ["▸", "44"]


async def test_escape_while_parts_are_sought_shows_today(tmp_path: Path) -> None:
    desk = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(desk, HOUSE_TOML + ANOTHER_LIGERO)
    async with floor(desk) as hall:
        hall.type(f"try without LI-1\r{ESC}")
        await hall.settled()
        await hall.app.workers.wait_for_complete()
        await hall.settled()
        assert "without LI-1" not in hall.rows[2]


async def test_what_is_tried_is_saved_after_one_question(tmp_path: Path) -> None:
    desk = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(desk)
    async with floor(desk) as hall:
        hall.type("try LI-1=1.5\rtry save\r")
        await hall.shows("save LI-1=1.5 in a new version")
        await hall.settled()
        assert desk.house_version == 1
        hall.type("\r")
        await hall.shows("house book version 2 is in force")
        await hall.until(lambda: "tried:" not in hall.text, "the new house book's sheet")
    assert desk.loaded.blend["B1"].shares["LI-1"] == 0.2


async def test_what_binds_is_told(tmp_path: Path) -> None:
    desk = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(desk)
    async with floor(desk) as hall:
        hall.type("try without LI-1\r")
        await hall.shows("no parts without LI-1 keep every limit; what binds:")
        assert "strength: within" in hall.text


async def test_a_size_beyond_the_approved_ones_is_marked(tmp_path: Path) -> None:
    desk = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(desk, HOUSE_TOML + '\n[[vitola]]\ncode = "gran"\nring = 64\nlength = "6 in"\n')
    async with floor(desk) as hall:
        hall.type(F4)
        await hall.shows("gran")
        gran = next(row for row in hall.rows if row.startswith(" gran"))
        assert "beyond" in gran


async def test_without_a_house_it_teaches(tmp_path: Path) -> None:
    async with floor(Desk(tmp_path / "data", lambda: MORNING, "T1")) as hall:
        hall.type(F4)
        await hall.shows("No house book is loaded yet")
        hall.type(ESC)
        await hall.until(lambda: hall.is_at("Start"), "the questions for the first house book")


def test_what_the_law_rests_on_and_what_earns(demo: Desk) -> None:
    demo.line.look_at("B4")
    text = " ".join(_text(demo).split())
    assert "corona, 30 bunches: 1.3 % over the law, pull 0.54; without it p 2.58 → 2.63" in text
    assert "What earns most" in text
    assert "by filler: the price if it only followed the filler, from corona" in text


def test_a_wide_screen_has_the_picture_beside_the_sheet(demo: Desk) -> None:
    demo.line.look_at("B4")
    rows = _text(demo, 132).split("\n")
    assert any("vitola" in row and "Filler by ring" in row for row in rows)
    assert any("corona" in row and "│" in row for row in rows[:8])


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("plain", [False, True])
@pytest.mark.parametrize("width", [60, 80, 100, 131, 132, 200])
@pytest.mark.parametrize("tried", ["", "try LI-2=1.5 toro.ring=50", "try without LI-2"])
def test_no_line_is_wider_than_the_screen(
    demo: Desk, language: str, plain: bool, width: int, tried: str
) -> None:
    demo.enter("line B4", None)
    if tried:
        demo.enter(tried, None)
    assert demo.house is not None
    words = words_of(language, plain)
    lines = line_lines(demo.line.shown(), demo.house, words, width)
    assert max(map(width_of, lines)) <= width
    assert sum("corona" in text_of(row) for row in lines) >= 2


@pytest.mark.parametrize("language", ["en", "es"])
async def test_in_ascii_nothing_but_ascii_is_shown(tmp_path: Path, language: str) -> None:
    desk = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(desk, HOUSE_TOML.replace("readings = 3", f'readings = 3\nlanguage = "{language}"'))
    async with floor(desk, (80, 60), {**XTERM, "TERM": "vt100"}, "ascii") as hall:
        hall.type(F4)
        await hall.shows("SE-1")
        hall.type("try LI-1=3 toro.ring=50\r")
        await hall.shows("LI-1=3")
        assert hall.text.isascii()
        assert "?" not in hall.text


def test_the_floor_starts_without_the_line() -> None:
    program = "import sys, floor.app, core.desk.desk; print(*sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert not [name for name in run.stdout.split() if name.startswith("core.line")]
