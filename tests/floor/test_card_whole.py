"""The card of a house with long codes: nothing on it is cut, nothing old stays, nothing jumps."""

from __future__ import annotations

import pytest

from core.desk.faces import OpenCheck
from core.house.language import LANGUAGES
from core.house.model import HouseBook, Language
from core.say import say
from floor.looks.language import words_of
from floor.looks.spans import text_of
from floor.screens.check_view import flowed, judged
from tests.desk.conftest import HOUSE_TOML
from tests.floor.hall import PAGE_DOWN, Hall, floor, small_house
from tests.floor.paper import WINDOW, PaperDesk, seen
from tests.floor.rooms import Rooms, settle
from tests.floor.test_card import of_classes
from tests.floor.test_card_large import SWITCH

SIZES = ((80, 24), (60, 20))
EVERY = [(size, language) for size in SIZES for language in LANGUAGES]
LONG = {
    "VO-1": "VOLADO-RIO-ABAJ1",
    "SE-1": "SECO-VALLE-ALTO2",
    "VI-1": "VISO-LOMA-NORTE3",
    "LI-1": "LIGERO-CORONA-44",
    "MT-1": "MEDIO-TIEMPO-555",
    "BI-1": "CAPOTE-SUMATRA-6",
    "WR-1": "CAPA-CONNECTIC-7",
    "B1": "LIGA-RESERVA-999",
    "toro": "DOBLE-CORONA-EXT",
}
PAIR = ("BONCHERO-MAYO-01", "ROLERA-NOCTUR-01")
CLASSES = ("volado", "seco", "viso", "ligero", "medio tiempo")
SCALE_TYPED = "saved, entry 7: bench 7: reading 1 of 5, 10.8 g, target 10.8 ± 0.6: within; 4 to go"
"""Two rows under the line where it is 80 cells wide."""


def long_house() -> HouseBook:
    """The small house with five classes and codes of sixteen signs."""
    text = of_classes(5).replace("Test house", "Compañía Tabacalera Hermanos Rodríguez y Sucesores")
    text = text.replace('scale_division = "0.1 g"', 'scale_division = "0.01 g"')
    for code, long in LONG.items():
        text = text.replace(f'"{code}"', f'"{long}"').replace(f"{code} =", f"{long} =")
    return small_house(text)


def long_paper() -> PaperDesk:
    """A desk in that house, a pair with long names at bench 7."""
    paper = PaperDesk(long_house())
    buncher, roller = PAIR
    paper.benches["7"] = paper.benches["7"]._replace(buncher=buncher, roller=roller)
    return paper


def page(hall: Hall) -> str:
    """The card's words as they are read, row after row."""
    return " ".join(" ".join(hall.rows[1:-4]).split())


async def card(hall: Hall, language: Language = "en", *keys: str) -> None:
    """Open the card of bench 7 in that language, then press the keys."""
    hall.app.speak(language)
    for key in ("/7\r", *keys):
        hall.type(key)
        await hall.settled()


def test_turned_and_enlarged_nothing_of_the_card_before_stays(rooms: Rooms) -> None:
    with rooms.floor("en", (60, 20), TERM="linux") as terminal:
        for key in ("/7\r", PAGE_DOWN, "18.2\r", SWITCH):
            terminal.type(key)
            settle(terminal, 0.4)
        shown = terminal.rows
        assert sum("##" in row for row in shown) >= 10
        terminal.resize(61, 20)
        settle(terminal, 0.4)
        terminal.resize(60, 20)
        settle(terminal, 0.4)
        assert terminal.rows == shown


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_vitola_blend_buncher_and_roller_are_whole(
    size: tuple[int, int], language: Language
) -> None:
    async with floor(long_paper(), size) as hall:
        await card(hall, language)
        upper = " ".join(hall.rows[1:4])
        for code in ("DOBLE-CORONA-EXT", "LIGA-RESERVA-999", *PAIR):
            assert code in upper


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_the_verdict_of_the_last_check_is_whole(
    size: tuple[int, int], language: Language
) -> None:
    paper = long_paper()
    paper.seen["7"] = (seen(1, 10.3, 11.9, 12.9),)
    async with floor(paper, size) as hall:
        await card(hall, language)
        words = hall.app.words
        right = [row[40:] if size[0] == 80 else row for row in hall.rows[1:-4]]
        said = " ".join(" ".join(right).split())
        assert f"{words.states['heavy']}, {words.unsteady}" in said


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("width", [80, 40, 26])
def test_a_check_takes_as_many_rows_as_it_needs(language: Language, width: int) -> None:
    words = words_of(language, False)
    check = seen(1, 10.3, 11.9, 12.9)
    rows = [text_of(row) for row in judged(check, 0.01, width, words)]
    assert max(map(len, rows)) <= width
    whole = " ".join(rows)
    assert whole.endswith(f"{words.states['heavy']}, {words.unsteady}")
    assert whole.startswith("08:30")
    assert flowed((), 5) == [()]


@pytest.mark.parametrize("language", LANGUAGES)
async def test_a_check_is_called_on_the_card_what_the_board_calls_it(language: Language) -> None:
    paper = PaperDesk(small_house())
    paper.seen["7"] = (seen(1, 10.0, 11.6, 10.8),)
    async with floor(paper) as hall:
        await card(hall, language)
        words = hall.app.words
        told = f"{words.states['mixed']}, {words.unsteady}"
        assert told in page(hall)
        await card(hall, language, SWITCH)
        assert told in page(hall)


@pytest.mark.parametrize(("size", "language"), EVERY)
@pytest.mark.parametrize("classes", [2, 3, 4, 5])
@pytest.mark.parametrize("checks", [0, 1])
async def test_large_figures_keep_their_size_while_the_scale_types(
    size: tuple[int, int], language: Language, classes: int, checks: int
) -> None:
    paper = PaperDesk(small_house(of_classes(classes)))
    paper.seen["7"] = (seen(1, 10.8, 10.9),) * checks
    async with floor(paper, size) as hall:
        await card(hall, language, SWITCH)
        before = hall.rows[1:-6]
        assert any("█" in row for row in before)
        hall.app.clerk.notice(say("{text}", text=SCALE_TYPED[: 2 * size[0] - 8]))
        hall.app.entry.repaint()
        await hall.settled()
        assert hall.app.entry.size.height == 4
        assert hall.rows[1 : 1 + len(before)] == before
        hall.type("10.8")
        await hall.settled()
        assert hall.rows[1 : 1 + len(before)] == before


@pytest.mark.parametrize(("size", "language"), EVERY)
@pytest.mark.parametrize("long", [False, True])
async def test_a_class_beside_its_large_figure_is_whole(
    size: tuple[int, int], language: Language, long: bool
) -> None:
    paper = long_paper() if long else PaperDesk(small_house(of_classes(5)))
    paper.seen["7"] = (seen(1, 10.8, 10.9),)
    async with floor(paper, size) as hall:
        await card(hall, language, SWITCH)
        assert sum("█" in row for row in hall.rows[1:-4]) >= 10
        words = hall.text.replace("│", " ").split()
        for name in CLASSES:
            for word in name.split():
                assert word in words


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("long", [False, True])
async def test_cells_of_a_class_are_apart_and_whole(language: Language, long: bool) -> None:
    paper = long_paper() if long else PaperDesk(wide_figures())
    async with floor(paper, (60, 20)) as hall:
        await card(hall, language)
        halves = hall.app.words.half_leaves
        rows = [row for row in hall.rows[1:-4] if row[1:].startswith(CLASSES)]
        assert len(rows) == 5
        for row, name in zip(rows, CLASSES, strict=True):
            assert row.startswith(f" {name} ")
            assert "…" not in row
            assert f" {halves} " in row
        columns = {row.index(halves.split()[-1]) for row in rows}
        assert len(columns) <= 3  # half-leaves stand below half-leaves
        hall.type(PAGE_DOWN)
        await hall.settled()
        assert "13.0 %" in hall.text  # what had no room in the line stands below


def wide_figures() -> HouseBook:
    """Five classes of which a bunch takes so much that no large digits have room in 60 cells."""
    text = of_classes(5).replace('scale_division = "0.1 g"', 'scale_division = "0.01 g"')
    return small_house(text)


@pytest.mark.parametrize("language", LANGUAGES)
async def test_readings_to_come_have_no_row_for_their_verdicts(language: Language) -> None:
    paper = PaperDesk(small_house(of_classes(5)))
    paper.opened["7"] = OpenCheck(9, "bunch", (10.8,), ("within",), 20, WINDOW)
    async with floor(paper, (60, 20)) as hall:
        await card(hall, language)
        shown = [row.strip() for row in hall.rows[1:-4]]
        dots = [y for y, row in enumerate(shown) if row.replace(" ", "") == "·" * len(row.split())]
        assert not dots or shown[dots[0] + 1]
        hall.type(PAGE_DOWN)
        await hall.settled()
        assert all(row.strip() for row in hall.rows[1:-4])


@pytest.mark.parametrize("classes", [2, 3, 4])
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("opened", [False, True])
async def test_the_verdicts_of_the_readings_are_in_sight(
    classes: int, language: Language, opened: bool
) -> None:
    paper = PaperDesk(small_house(of_classes(classes)))
    paper.seen["7"] = (seen(1, 10.8, 10.9),)
    if opened:
        paper.opened["7"] = OpenCheck(9, "bunch", (10.8, 10.9), ("within", "within"), 3, WINDOW)
    async with floor(paper, (60, 20)) as hall:
        await card(hall, language)
        hall.app.clerk.notice(say("{text}", text=SCALE_TYPED))
        hall.app.entry.repaint()
        await hall.settled()
        assert hall.app.entry.size.height == 4
        within = hall.app.words.states["within"]
        assert any(row.count(within) == 2 for row in hall.rows[1:-5])
        hall.type(PAGE_DOWN)
        await hall.settled()
        assert "13.0 %" in hall.text


def test_the_long_house_is_the_small_one_with_longer_codes() -> None:
    codes = {leaf.code for leaf in long_house().leaves}
    assert {code for code in LONG.values() if code.startswith(("VO", "SE", "VI", "LIGE"))} <= codes
    assert all(len(code) == 16 for code in LONG.values())
    assert "toro" in HOUSE_TOML
