"""What colour and attributes say is said in words or shapes too: pages compared as bare text."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any, NamedTuple

import pytest

from core.desk.faces import BenchLine, LogLine, OpenCheck, RoundLine
from core.stock.stock import LeafStock, Stock
from floor.looks.language import paper_words, words_of
from floor.looks.spans import text_of
from floor.screens.day import day_lines
from tests.floor.checked import charted
from tests.floor.hall import DOWN, F2, F3, F7, F9, Hall, floor
from tests.floor.paper import NOW, WINDOW, PaperDesk, seen, weighed_line
from tests.floor.test_day_page import CLOSED

AWAY = ("08:30", "bench 7, toro: 50 bunches made")


class Told(NamedTuple):
    """A state: how the desk comes to be in it, where it is seen, and what says so there.

    None of `says` is there without the state.
    """

    state: str
    make: Callable[[PaperDesk], None]
    typed: str
    stands: str
    says: tuple[str, ...]


def board(paper: PaperDesk, **changes: Any) -> None:
    """Bench 8 as it was weighed in time, or with something else about it."""
    line: BenchLine = weighed_line("8", "toro", 10.8, "within", 25)
    paper.benches["8"] = line._replace(**changes)


def rounds(paper: PaperDesk, reason: str, due: dt.datetime | None) -> None:
    paper.round = (RoundLine("8", "P-8", "toro", "B1", reason, due, ""),)  # type: ignore[arg-type]


def log(paper: PaperDesk, voided_by: int | None = None, *, late: bool = False) -> None:
    reason = "wrong bench" if voided_by else ""
    paper.entries = (LogLine(2, NOW, "7", AWAY[1], "T2", "MC", voided_by, reason, late=late),)


def leaf(paper: PaperDesk, short_g: float = 0.0) -> None:
    row = LeafStock(
        leaf="SE-1", leaf_class="seco", moisture=0.13, measured=None, lots=(), on_hand_g=500.0,
        issued_g=0.0, returned_g=0.0, on_benches_g=0.0, planned_g=250.0, needed_g=short_g,
        short_g=short_g, cover_days=2.0, out_at=None,
    )  # fmt: skip
    paper.stocked = Stock((row,), (), (), 1, ())


LATE = NOW - dt.timedelta(minutes=12)
STATES = (
    Told("late", lambda p: board(p, due=LATE), "", "bench", ("!12 min late", "late 8")),
    Told("first piece", lambda p: board(p, due=None), "", "bench", ("first piece 8",)),
    Told("light", lambda p: board(p, last_state="light"), "", "bench", ("light",)),
    Told("heavy", lambda p: board(p, last_state="heavy"), "", "bench", ("heavy",)),
    Told("mixed", lambda p: board(p, last_state="mixed"), "", "bench", ("mixed",)),
    Told("out", lambda p: board(p, out=1), "", "bench", (", 1 out",)),
    Told("open", lambda p: board(p, open=(1, 3)), "", "bench", ("1 of 3 open",)),
    Told("quota done", lambda p: board(p, good=300), "", "bench", ("done",)),
    Told("closed", lambda p: setattr(p, "closed", True), "", "bench", ("closed",)),
    Told("damaged", lambda p: setattr(p, "damaged", 2), "", "bench", ("2 damaged lines",)),
    Told("late, in the rounds", lambda p: rounds(p, "overdue", LATE), F2, "because",
         ("!12 min late", "not weighed in time")),
    Told("out, in the rounds", lambda p: rounds(p, "out", NOW), F2, "because",
         ("last check was out",)),
    Told("void", lambda p: log(p, 3), F7, AWAY[1], ("void by 3: wrong bench",)),
    Told("after the close", lambda p: log(p, late=True), F7, AWAY[1], ("after the close: ",)),
    Told("short of leaf", lambda p: leaf(p, 900.0), F3, "SE-1", ("!SE-1",)),
)  # fmt: skip


def usual(paper: PaperDesk) -> PaperDesk:
    """A desk on which nothing is out of the ordinary."""
    for number in paper.benches:
        paper.benches[number] = weighed_line(number, "toro", 10.8, "within", 25)
    rounds(paper, "due", NOW + dt.timedelta(minutes=25))
    log(paper)
    leaf(paper)
    return paper


async def bare(paper: PaperDesk, told: Told) -> str:
    """The whole screen's text on that page, of which colours and attributes are gone."""
    async with floor(paper, environ={"TERM": "xterm", "NO_COLOR": "1"}) as hall:
        hall.type(told.typed)
        await hall.shows(told.stands)
        await hall.settled()
        return hall.text


@pytest.mark.parametrize("told", STATES, ids=lambda told: told.state)
async def test_a_state_is_told_in_the_text_alone(paper: PaperDesk, told: Told) -> None:
    before = await bare(usual(paper), told)
    told.make(paper)
    after = await bare(paper, told)
    for says in told.says:
        assert says in after
        assert says not in before


async def on_the_card(paper: PaperDesk, *readings: float) -> str:
    paper.seen["7"] = (seen(1, *readings),)
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("08:30 bunch")
        return hall.text


@pytest.mark.parametrize(
    ("readings", "says"),
    [
        ((10.8, 10.8), "10.8 g within, steady"),
        ((10.0, 10.0), "10.0 g light, steady"),
        ((11.7, 11.8), "11.8 g heavy, steady"),
        ((10.3, 11.3), "10.8 g within, unsteady"),
    ],
)
async def test_a_check_is_told_by_word(
    paper: PaperDesk, readings: tuple[float, ...], says: str
) -> None:
    assert says in await on_the_card(paper, *readings)


async def test_readings_that_differ_are_told_each(paper: PaperDesk) -> None:
    text = await on_the_card(paper, 10.0, 11.6)
    under = next(row for row in text.splitlines() if "light heavy" in row)
    assert under.split()[-2:] == ["light", "heavy"]


def selected(hall: Hall) -> list[str]:
    """The benches whose rows begin with the cursor's mark."""
    return [row[1:].split()[0] for row in hall.rows[2:-4] if row.startswith("▸")]


@pytest.mark.parametrize(("typed", "stands"), [("", "pair"), (F2, "because")])
async def test_the_row_of_the_cursor_begins_with_its_mark(
    paper: PaperDesk, typed: str, stands: str
) -> None:
    usual(paper)
    paper.round = tuple(paper.round[0]._replace(bench=number) for number in ("7", "7-A", "8"))
    async with floor(paper) as hall:
        hall.type(typed)
        await hall.shows(stands)
        await hall.settled()
        assert selected(hall) == ["7"]
        hall.type(DOWN)
        await hall.settled()
        assert len(selected(hall)) == 1
        assert selected(hall) != ["7"]


async def test_a_held_line_and_a_refused_one_say_so(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r99\r")
        await hall.shows("1 held")
        assert "held: Enter records, Esc drops" in hall.text
        hall.type("zz\r")
        await hall.shows("not recorded: expected")
        assert "found zz" in hall.text.replace("“", "").replace("”", "")


async def test_a_point_beyond_its_limit_has_another_shape_and_its_rule_a_name(
    paper: PaperDesk,
) -> None:
    paper.charts["7", "bunch"] = charted([0.0, 0.05, -0.1, 0.02, 0.04, -0.03, 0.0, 0.1, 1.9])
    async with floor(paper) as hall:
        hall.type(f"7\r{F9}")
        await hall.shows("Chart, bench 7")
        await hall.settled()
        plot = "\n".join(row for row in hall.rows if "beyond its limit" not in row)
        assert "▲" in plot
        assert "mean beyond a limit" in hall.text


async def test_an_open_check_counts_what_is_to_come(paper: PaperDesk) -> None:
    paper.opened["7"] = OpenCheck(9, "bunch", (10.8, 11.6), ("within", "heavy"), 3, WINDOW)
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("open check bunch: 1 to go")
        assert any(row.split()[-1:] == ["·"] for row in hall.rows)
        assert any(row.split()[-2:] == ["within", "heavy"] for row in hall.rows)


def test_the_day_says_what_is_beyond_and_that_it_is_closed() -> None:
    def text(*, beyond: bool, closed: bool) -> str:
        grams = CLOSED.leaf[0].model_copy(update={"beyond": beyond})
        report = CLOSED.model_copy(update={"closed": closed, "leaf": (grams,)})
        lines = day_lines(report, 1, 100, words_of("en"), paper_words("en"))
        return "\n".join(text_of(line) for line in lines)

    assert "!" in text(beyond=True, closed=True)
    assert "!" not in text(beyond=False, closed=True)
    assert text(beyond=False, closed=True) != text(beyond=False, closed=False)
