"""The Chart page: the verdict, the plot, the figures, and what typing on it does."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from core.control.capability import Unjudged
from core.desk.faces import Go, OpenCheck
from floor.looks.language import words_of
from floor.looks.spans import text_of
from floor.looks.words import Words
from floor.screens.chart_view import chart_lines
from tests.desk.conftest import HOUSE_TOML
from tests.floor.checked import charted
from tests.floor.hall import ESC, F8, F9, Hall, floor, small_house
from tests.floor.paper import WINDOW, PaperDesk

ENGLISH, SPANISH = words_of("en"), words_of("es")
CALM = [0.1, -0.1, 0.05, 0.0, -0.05] * 6
DRIFTING = [*CALM, 0.2, 0.3, 0.3, 0.4, 0.4, 0.5, 0.6, 0.6]


@pytest.fixture
def paper() -> PaperDesk:
    paper = PaperDesk(small_house())
    paper.charts["7", "bunch"] = charted(DRIFTING)
    return paper


def told(
    means: list[float], words: Words = ENGLISH, width: int = 80, height: int = 19
) -> list[str]:
    return [
        text_of(row).rstrip() for row in chart_lines(charted(means), None, words, width, height)
    ]


async def opened(hall: Hall) -> None:
    hall.type("7\r")
    await hall.until(lambda: hall.is_at("Card, bench 7"), "the card")
    hall.type(F9)
    await hall.until(lambda: hall.is_at("Chart, bench 7"), "the chart")


async def test_the_first_line_is_the_verdict_and_the_rest_says_why(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        await opened(hall)
        await hall.shows("HEAVY by 0.16 g")
        assert "HEAVY by 0.16 g (+0.05 to +0.27, 20 checks)" in hall.rows[1]
        assert "about 200 g more filler a week" in " ".join(hall.rows[1:3])
        await hall.shows("LAST CHECK: mean beyond a limit")
        await hall.shows("limits from this bench's 35 checks")
        await hall.shows("A mean beyond a limit · ")
        await hall.shows("E 8 on one side of target")
        await hall.shows("last checks 10:30 +0.60 ▲  09:50 +0.60 ▲  09:10")
        await hall.shows("Cpk")
        assert "▲" in next(row for row in hall.rows if "+0.60│" in row or "+0.60 │" in row)


async def test_escape_and_the_key_itself_lead_back_to_the_card(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        for back in (ESC, F9):
            await opened(hall)
            hall.type(back)
            await hall.until(lambda: hall.is_at("Card, bench 7"), "the card")
        hall.type(f"{F9}{F8}")
        await hall.until(lambda: hall.is_at("Why, bench 7"), "the steps")


async def test_a_reading_typed_on_the_chart_is_this_benchs(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        await opened(hall)
        assert "bench 7 ▸" in hall.text
        hall.type("10.9\r")
        await hall.until(lambda: paper.lines == [("10.9", "7")], "the reading")
        assert hall.is_at("Chart, bench 7")
        paper.opened["7"] = OpenCheck(9, "bunch", (10.9,), ("within",), 5, WINDOW)
        paper.touched.add("7")
        await hall.shows("bunch open: 10.9; 4 to go")
        hall.type("\r")
        await hall.until(lambda: paper.lines[-1:] == [("10.9", "7")], "nothing else")


async def test_a_check_made_elsewhere_redraws_the_chart_and_leaves_the_line(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        await opened(hall)
        hall.type("11.")
        paper.charts["7", "bunch"] = charted([*DRIFTING, -0.8])
        paper.touched.add("7")
        await hall.shows("10:30 -0.80 ▼")
        assert hall.is_at("Chart, bench 7")
        assert hall.app.clerk.draft.text == "11."


async def test_the_chart_of_another_measure_is_shown_where_it_is_asked_for(
    paper: PaperDesk,
) -> None:
    paper.charts["7", "ring"] = charted(CALM)._replace(
        measure="ring", capability=Unjudged(3, "too_few")
    )
    async with floor(paper) as hall:
        await opened(hall)
        hall.app.go(Go("chart", "7", "ring"))
        await hall.shows("ring, ring gauge · toro B1")
        await hall.shows("capability: too few readings to judge, 3 of 30")


async def test_a_bench_without_checks_says_how_to_begin(paper: PaperDesk) -> None:
    paper.charts["7", "bunch"] = charted([])
    async with floor(paper) as hall:
        await opened(hall)
        await hall.shows("No check of bunch in this chart yet.")
        await hall.shows("Type 7 15.3 15.6 15.4 and Enter")
        await hall.shows("from 8 checks on they are")


async def test_a_house_without_a_book_says_what_to_load() -> None:
    async with floor(PaperDesk(None)) as hall:
        hall.app.go(Go("chart", "7"))
        await hall.shows("bunchbook house check house.toml")


@pytest.mark.parametrize(
    ("n", "says"),
    [
        (3, "limits from the house's spread: only 3 checks here yet"),
        (12, "limits from only 12 checks of this bench, settled from 20"),
        (30, "limits from this bench's 30 checks"),
    ],
)
def test_the_limits_source_is_said(n: int, says: str) -> None:
    assert says in told(CALM[:n])[1]


def test_few_checks_are_no_verdict_and_few_readings_no_capability() -> None:
    rows = told(CALM[:3])
    assert rows[0] == " TOO FEW CHECKS TO SAY: 3 of 5"
    assert any("capability: too few readings to judge, 9 of 30" in row for row in rows)


def test_on_target_is_said_as_far_as_it_is_known() -> None:
    assert told(CALM)[0] == " ON TARGET as far as 20 checks tell: 0.00 g (-0.03 to +0.03)"
    assert any("no rule broken" in row for row in told(CALM))


def test_what_is_odd_about_the_scale_is_told() -> None:
    chart = charted(CALM, found=("the scale showed 10.8 g nine times in a row",))
    rows = [text_of(row) for row in chart_lines(chart, None, ENGLISH, 80, 19)]
    assert any("nine times in a row" in row for row in rows)


def test_checks_far_apart_are_told_from_means_beyond_a_limit() -> None:
    chart = charted(CALM)
    wild = chart.points[-1]._replace(spread=2.0, spread_high=0.8, broke=("beyond",))
    chart = chart._replace(points=(*chart.points[:-1], wild))
    rows = [text_of(row) for row in chart_lines(chart, None, ENGLISH, 80, 19)]
    assert any("B readings too far apart" in row for row in rows)
    assert not any("A mean beyond" in row for row in rows)


@pytest.mark.parametrize("words", [ENGLISH, SPANISH], ids=["en", "es"])
@pytest.mark.parametrize("size", [(60, 15), (80, 19), (132, 38), (200, 60)])
@pytest.mark.parametrize("n", [0, 1, 5, len(DRIFTING)])
def test_it_fills_its_width_and_no_more(words: Words, size: tuple[int, int], n: int) -> None:
    rows = told(DRIFTING[-n:] if n else [], words, *size)
    assert max(map(cell_len, rows)) <= size[0]
    if size[0] >= 80:
        assert len(rows) <= size[1]


def test_a_big_screen_has_the_mean_in_big_digits_and_the_spread_below() -> None:
    rows = told(DRIFTING, width=132, height=38)
    assert sum("██" in row for row in rows) == 5
    assert any("spread within a check, g" in row for row in rows)
    assert any("━ target" in row for row in rows)


def test_single_readings_have_a_running_average_in_place_of_a_spread() -> None:
    chart = charted(DRIFTING, readings=1)
    rows = [text_of(row) for row in chart_lines(chart, None, ENGLISH, 132, 38)]
    assert any("running average, g" in row for row in rows)


async def test_spanish_and_ascii(paper: PaperDesk) -> None:
    house = small_house(HOUSE_TOML.replace('name = "Test house"', 'name = "Casa"\nlanguage = "es"'))
    spanish = PaperDesk(house)
    spanish.charts = paper.charts
    async with floor(spanish, environ={"TERM": "vt100"}, encoding="ascii") as hall:
        hall.type("7\r")
        await hall.until(lambda: hall.is_at("Ficha, mesa 7"), "the card")
        hall.type(F9)
        await hall.shows("PESADO por 0.16 g")
        await hall.shows("limites de 35 controles de esta mesa")
        assert hall.app.inks["wrong"].color is None


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("page", ["board", "chart"])
async def test_the_keys_row_fits_and_names_this_pages_keys(
    paper: PaperDesk, language: str, page: str
) -> None:
    text = HOUSE_TOML.replace('name = "Test house"', f'name = "Casa"\nlanguage = "{language}"')
    spoken = PaperDesk(small_house(text))
    spoken.charts = paper.charts
    async with floor(spoken) as hall:
        hall.app.go(Go(page, "7"))
        await hall.settled()
        keys = hall.rows[-1].split()
        needed = [
            *("F1", "F10", "Ctrl+Q"),
            *(["F8", "F9", "Esc"] if page == "chart" else ["F2", "F5", "F7"]),
        ]
        assert set(needed) <= set(keys)
        assert "…" not in hall.rows[-1]
