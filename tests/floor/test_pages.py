"""Day, Log and Help as text, ways in and out, plain terminals and failing disks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest
from rich.cells import cell_len
from textual.geometry import Region

from core.day.report import BenchDay, DayReport, LeafDay, NoteLine, RunDay, Totals
from core.desk.faces import LogLine, OpenCheck
from core.problems import StoreUnusable
from floor.looks.spans import text_of
from tests.desk.conftest import HOUSE_TOML
from tests.floor.hall import END, ESC, F1, F5, F7, F8, F10, PAGE_DOWN, Hall, floor, small_house
from tests.floor.paper import NOW, WINDOW, PaperDesk, empty_report, seen, weighed_line


async def test_two_ways_lead_back_from_every_page(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        for open_it, title in (
            ("7\r", "Card, bench 7"),
            (F8, "Why, bench 7"),
            (F5, "Day"),
            (F7, "Log"),
            (F10, "Help"),
        ):
            for leave in (ESC, F1):
                hall.type(open_it)
                await hall.until(lambda title=title: hall.is_at(title), title)
                hall.type(leave)
                await hall.until(lambda: hall.is_at("Board"), "the Board")


DAY = DayReport(
    date="2026-05-04",
    closed=False,
    benches=(
        BenchDay(
            bench=7, buncher="P-07", vitola="toro", made=150, good=120,
            rejected={"plugged": 8, "torn": 2}, rework=3, checks=9, out=2, mean_deviation_g=0.412,
            runs=(
                RunDay(
                    blend="B1", vitola="toro", made=100, good=80,
                    rejected={"plugged": 6}, rework=1,
                ),
                RunDay(
                    blend="B4", vitola="robusto", made=50, good=40,
                    rejected={"plugged": 2, "torn": 2}, rework=2,
                ),
            ),
        ),
        BenchDay(
            bench="7-A", buncher=None, vitola="toro", made=100, good=96,
            rejected={"torn": 2}, rework=0, checks=4, out=0, mean_deviation_g=None,
        ),
    ),
    totals=Totals(made=250, good=216, rejected=12, rework=3, first_pass_yield=0.9474),
    leaf=(
        LeafDay(
            leaf="SE-1", leaf_class="seco", issued_g=12500, returned_g=800,
            used_standard_g=11640.4, in_good_g=9800, rejects_g=610, heavy_g=310.2,
            heavy_se_g=40.1, cuttings_g=520, unexplained_g=400.2, beyond=True,
        ),
    ),
    leaf_yield=0.842,
    notes=(NoteLine(bench=None, text="wet leaf until nine"), NoteLine(bench=7, text="new blade")),
    entries=118,
    voided=1,
    damaged_lines=0,
    warnings=("bench 8: no check, the vitola's mean is used",),
)  # fmt: skip


async def test_the_day_says_what_was_made_and_where_the_leaf_went(paper: PaperDesk) -> None:
    paper.summary = DAY
    async with floor(paper, size=(80, 60)) as hall:
        hall.type(F5)
        await hall.shows("Monday 4 May 2026: open")
        text = " ".join(hall.text.split())
        assert "made 250 good 216 rejected 12 reworked 3" in text
        assert "passed first time 94.7 % leaf yield known at the close" in text
        assert "118 entries, 1 void" in text
        plugged = next(row for row in hall.rows if "plugged" in row)
        torn = next(row for row in hall.rows if "torn" in row)
        assert plugged.count("█") == 2 * torn.count("█")
        assert "SE-1 seco 12 500 800 11 640 9800 610 310 80 520 400!" in text
        assert "heavy ± cuttings on benches" in text
        assert "± of heavy: two standard errors" in text
        assert "SE-1: 400 g unexplained, more than the checks can tell" in text
        assert "bench 7 toro B1: made 100, good 80, rejected 6, reworked 1" in text
        assert "robusto B4: made 50, good 40, rejected 4, reworked 2" in text
        assert "bench 7-A toro" not in text
        assert "bench 7 P-07 toro 2 of 9 checks out, mean +0.41 g off target" in text
        assert "wet leaf until nine" in text
        assert "bench 7: new blade" in text
        assert "…" not in hall.text


async def test_a_closed_day_knows_its_leaf_yield_and_what_nothing_explains(
    paper: PaperDesk,
) -> None:
    paper.summary = DAY.model_copy(update={"closed": True})
    async with floor(paper, size=(80, 40)) as hall:
        hall.type(F5)
        await hall.shows("Monday 4 May 2026: closed")
        text = " ".join(hall.text.split())
        assert "leaf yield 84.2 %" in text
        assert "± cuttings unexplained" in text
        assert "on benches" not in text
        assert "missing" not in text


async def test_at_60_cells_the_leaf_table_drops_columns_and_no_figure(paper: PaperDesk) -> None:
    paper.summary = DAY
    async with floor(paper, size=(60, 60)) as hall:
        hall.type(F5)
        await hall.shows("on benches")
        head = next(row for row in hall.rows if "on benches" in row)
        assert head.split()[:3] == ["leaf", "issued", "used"]
        figures = next(row for row in hall.rows if row.startswith(" SE-1 "))
        assert figures.split() == [
            "SE-1",
            *("12", "500"),
            *("11", "640"),
            "9800",
            "610",
            "520",
            "400!",
        ]
        assert "two standard errors" not in hall.text


async def test_closing_asks_once(paper: PaperDesk) -> None:
    paper.summary = empty_report(paper.day)
    async with floor(paper) as hall:
        hall.type(f"{F5}close\r")
        await hall.shows("Enter yes, Esc no: the day has 0 entries")
        assert not paper.closed
        hall.type("\r")
        await hall.shows("saved: day closed")
        await hall.until(lambda: "closed" in hall.rows[0], "the title to say so")


async def test_the_log_is_newest_first_and_tells_what_is_void(paper: PaperDesk) -> None:
    paper.entries = (
        LogLine(3, NOW, None, "entry 2 void: wrong bench", "T2", "MC", None, ""),
        LogLine(2, NOW, "7", "bench 7, toro: 50 bunches made", "T2", "MC", 3, "wrong bench"),
        LogLine(1, NOW, "8", "bench 8, toro: bunch, 10.8 g, target 10.8", "T1", None, None, ""),
    )
    async with floor(paper) as hall:
        hall.type(F7)
        await hall.shows("bench 7, toro: 50 bunches made")
        ids = [row.split()[0] for row in hall.rows[1:] if row[1:6].strip().isdigit()]
        assert ids == ["3", "2", "1"]
        assert "void by 3: wrong bench" in hall.text
        assert "T2 MC" in hall.text
        row = next(y for y, text in enumerate(hall.rows) if "50 bunches" in text)
        styles = hall.app.screen._compositor.render_strips()[row]
        assert any(segment.style and segment.style.strike for segment in styles)


async def test_the_log_marks_in_words_what_was_recorded_after_the_close(paper: PaperDesk) -> None:
    late = LogLine(3, NOW, "7", "bench 7, toro: 5 cigars good", "T1", None, None, "", late=True)
    paper.entries = (late, late._replace(id=2, says="bench 7: closed in time", late=False))
    async with floor(paper) as hall:
        hall.type(F7)
        await hall.shows("after the close: bench 7, toro: 5 cigars good")
        assert "after the close: bench 7: closed" not in hall.text


async def test_the_log_goes_back_as_far_as_it_is_paged(paper: PaperDesk) -> None:
    paper.entries = tuple(
        LogLine(n, NOW, "7", f"bench 7: {n} bunches made", "T1", None, None, "")
        for n in range(450, 0, -1)
    )
    async with floor(paper) as hall:
        hall.type(F7)
        await hall.shows("1–19 of 200")
        hall.type(PAGE_DOWN * 12)
        await hall.shows("bench 7: 240 bunches made")
        hall.type(END)
        await hall.shows("bench 7: 1 bunches made")
        await hall.shows("432–450 of 450")


async def test_an_empty_log_says_so(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(F7)
        await hall.shows("nothing recorded yet today")


async def test_help_holds_keys_grammar_and_cautions(paper: PaperDesk) -> None:
    async with floor(paper, size=(80, 110)) as hall:
        hall.type("?")
        await hall.shows("Keys")
        for words in ("7 15.3 15.6 15.4", "7 fail plugged 2 torn 1", "Ctrl+Q", "F8 F9"):
            assert words in hall.text
        text = " ".join(hall.text.split())
        for caution in (
            "Tobacco harms health.",
            "licensed trade",
            "Leaf dust and nicotine",
            "cut-resistant gloves",
            "Fumigants and ammonia",
            "verified under local law",
            "the local statute and a licensed adviser decide",
        ):
            assert caution in text


async def test_no_spanish_page_collides_or_is_cut_at_80_by_24() -> None:
    spanish = HOUSE_TOML.replace('name = "Test house"', 'name = "Taller"\nlanguage = "es"')
    paper = PaperDesk(small_house(spanish))
    paper.summary = DAY
    paper.benches["7"] = weighed_line("7", "toro", 11.6, "heavy", -6)._replace(open=(1, 5))
    paper.opened["7"] = OpenCheck(
        9, "bunch", (11.6, 9.1, 10.8), ("heavy", "light", "within"), 5, WINDOW
    )
    async with floor(paper) as hall:
        assert "media g  meta está" in hall.rows[1]
        assert hall.rows[1].endswith(" buenos a tarea ")
        assert "!abierto 1/5" in hall.rows[2]
        hall.type("7\r")
        await hall.shows("control bonche: faltan 2, media 10.5 g")
        assert any(row.startswith(" capote") and "2 medias  pesado" in row for row in hall.rows)
        assert "pesado  liviano en peso" in hall.text
        assert "g por bonche, según se tiende" in hall.rows[1]
        await fits(hall)
        paper.opened.clear()
        paper.seen["7"] = (seen(1, 11.6, 9.1, 10.8, 10.8, 10.8),)
        for keys in (F1, "7\r", F8, F5, PAGE_DOWN, F7, F10, PAGE_DOWN):
            hall.type(keys)
            await hall.settled()
            await fits(hall)
        hall.type(F5)
        await hall.shows("en mesas")
        hall.type(PAGE_DOWN)
        await hall.shows("2 de 9 fuera, media a +0.41 g de la meta")


async def fits(hall: Hall) -> None:
    """Nothing written on the page is wider than it, and the last column is free."""
    page = hall.app.page
    assert page is not None
    for line in page.lines:
        text = text_of(line)
        assert cell_len(text.rstrip()) < 80, text


@pytest.mark.parametrize("environ", [{"TERM": "linux"}, {"TERM": "vt100"}, {"TERM": "dumb"}])
async def test_an_ascii_terminal_gets_ascii_on_every_page(
    paper: PaperDesk, environ: dict[str, str]
) -> None:
    paper.summary = DAY
    paper.seen["7"] = (seen(1, 10.8, 10.9), seen(2, 11.6, 11.8))
    async with floor(paper, environ=environ, encoding="ascii") as hall:
        for keys in ("7\r10.8\r", F8, F5, F7, F10, F1):
            hall.type(keys)
            await hall.settled()
            assert hall.text.isascii(), [c for c in hall.text if not c.isascii()]


async def test_without_colour_the_cursor_is_in_reverse_and_nothing_is_coloured(
    paper: PaperDesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with floor(paper, environ={"TERM": "xterm-256color", "NO_COLOR": "1"}) as hall:
        strips = hall.app.screen._compositor.render_strips()
        styles = [segment.style for strip in strips for segment in strip if segment.style]
        colours = {c.name for s in styles for c in (s.color, s.bgcolor) if c is not None}
        assert colours <= {"default"}
        under_cursor = strips[2]
        assert any(segment.style and segment.style.reverse for segment in under_cursor)


async def test_a_new_minute_draws_the_clock_alone(
    paper: PaperDesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with floor(paper) as hall:
        hall.type(F10)
        await hall.until(lambda: hall.is_at("Help"), "Help")
        await hall.settled()
        drawn: list[int] = []
        for widget in (hall.app.title_bar, hall.app.page, hall.app.keys_bar):
            assert widget is not None
            monkeypatch.setattr(widget, "refresh", counted(widget.refresh, drawn))
        paper.clock += dt.timedelta(minutes=1)
        await hall.shows("10:31")
        assert drawn == [6]


async def test_a_disk_that_fails_is_told_and_the_floor_stays(paper: PaperDesk) -> None:
    def refuse() -> DayReport:
        raise StoreUnusable("the day's book cannot be read: ask for the backup")

    paper.report = refuse  # type: ignore[method-assign]
    async with floor(paper) as hall:
        hall.type(F5)
        await hall.shows("the day's book cannot be read: ask for the backup")
        hall.type(f"{F1}7 10.8\r")
        await hall.shows("saved, entry 1")


def counted(refresh: Callable[..., object], drawn: list[int]) -> Callable[..., object]:
    """The widget's refresh, noting how many cells it is asked to draw."""

    def noted(*regions: Region) -> object:
        drawn.extend(region.area for region in regions)
        return refresh(*regions)

    return noted
