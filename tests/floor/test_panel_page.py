"""The Panel: what tasters said, what can be told from it, and how to begin."""

from __future__ import annotations

from pathlib import Path

import pytest
from rich.cells import cell_len

from core.desk.desk import Desk
from core.desk.panel import PanelSheet
from core.house.model import Language
from demo.build import build
from floor.looks.language import words_of
from floor.looks.spans import text_of, width_of
from floor.screens.panel import panel_lines
from tests.desk.conftest import MORNING, load
from tests.floor.hall import XTERM, floor, small_house
from tests.floor.paper import PaperDesk

F6 = "\x1b[17~"


@pytest.fixture(scope="module")
def tasted(tmp_path_factory: pytest.TempPathFactory) -> PanelSheet:
    """The demo house's session."""
    folder = tmp_path_factory.mktemp("demo") / "data"
    moment = build(folder)
    sheet = Desk(folder, lambda: moment, "T1").panel()
    assert sheet is not None
    return sheet


async def test_f6_tells_means_differences_and_the_verdict(tasted: PanelSheet) -> None:
    paper = PaperDesk(small_house())
    paper.tasted = tasted
    async with floor(paper) as hall:
        hall.type(F6)
        await hall.shows("The line does not taste alike: strength, burn.")
        assert hall.is_at("Panel")
        assert "corona stands apart from toro: −1.7 (95 %: −2.0 to −1.4)" in hall.text
        assert "5 tasters, Friedman 8.44, p 0.012 exact, W 0.84" in hall.text
        assert all(cell_len(row.rstrip()) <= 80 for row in hall.rows)


@pytest.mark.parametrize("width", [60, 80])
async def test_the_typed_word_opens_it_and_teaches_where_nothing_is_tasted(width: int) -> None:
    async with floor(PaperDesk(small_house()), size=(width, 24)) as hall:
        hall.type("panel\r")
        await hall.shows("panel open B1 toro,corona blind")
        assert "of two sizes" in " ".join(hall.text.split())
        assert all(cell_len(row.rstrip()) <= width for row in hall.rows)


async def test_a_blind_session_from_its_beginning_to_its_codes(tmp_path: Path) -> None:
    desk = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(desk)
    async with floor(desk) as hall:
        hall.type(F6)
        hall.type("panel open B1 blind\r")
        await hall.shows("Blind: judged once the codes are told.")
        for taster in ("T1", "T2", "T3"):
            hall.type(f"panel {taster} A 7 6 8 7\rpanel {taster} B 5 6 8 7\r")
        await hall.shows("3 tasters")
        await hall.settled()
        assert "toro" not in hall.text
        hall.type("panel reveal\r")
        await hall.shows("codes: A")
        assert "T1 scores" not in hall.text


async def test_another_terminals_score_appears(tmp_path: Path) -> None:
    desk, other = (Desk(tmp_path / "data", lambda: MORNING, name) for name in ("T1", "T2"))
    load(desk)
    other.follow()
    other.enter("panel open B1", None)
    async with floor(desk) as hall:
        hall.type(F6)
        await hall.shows("0 tasters")
        other.enter("panel T1 toro 7 6 8 7", None)
        await hall.shows("1 taster")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("plain", [False, True])
@pytest.mark.parametrize("width", [60, 80, 132])
def test_no_line_is_wider_than_the_screen(
    tasted: PanelSheet, language: str, plain: bool, width: int
) -> None:
    lines = panel_lines(tasted, tasted.session.at.date(), width, words_of(language, plain))
    assert max(map(width_of, lines)) <= width
    assert any("7.1" in text_of(row) for row in lines)


@pytest.mark.parametrize("language", ["en", "es"])
async def test_in_ascii_nothing_but_ascii_is_shown(tasted: PanelSheet, language: Language) -> None:
    house = small_house()
    spoken = house._replace(house=house.house._replace(language=language))
    paper = PaperDesk(spoken)
    paper.tasted = tasted
    async with floor(paper, environ={**XTERM, "TERM": "vt100"}, encoding="ascii") as hall:
        hall.type(F6)
        await hall.shows("Friedman")
        assert hall.text.isascii()
