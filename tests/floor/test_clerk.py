"""What becomes of a line: recorded, asked about, kept, refused. No screen, no keys."""

from __future__ import annotations

import pytest

from core.desk.faces import Go
from core.house.model import Language
from floor.widgets.clerk import Clerk
from tests.floor.paper import FULL, PaperDesk


class Somewhere:
    """A place to stand: on a card, or on the Board."""

    language: Language = "en"

    def __init__(self, at: str | None = None) -> None:
        self.at = at
        self.went: list[Go] = []
        self.left = False
        self.opened = 0

    def go(self, where: Go) -> None:
        self.went.append(where)

    def open_selected(self) -> None:
        self.opened += 1

    def leave(self) -> None:
        self.left = True


@pytest.fixture
def place() -> Somewhere:
    return Somewhere()


@pytest.fixture
def clerk(paper: PaperDesk, place: Somewhere) -> Clerk:
    return Clerk(paper, place)


class Typist:
    """Types lines at a clerk, and sees each question before the next line."""

    def __init__(self, clerk: Clerk) -> None:
        self.clerk = clerk

    def __call__(self, *lines: str, unseen: bool = False) -> None:
        for line in lines:
            if line:
                self.clerk.type(line)
            self.clerk.enter()
            if self.clerk.held and not unseen:
                self.clerk.ask()


@pytest.fixture
def typed(clerk: Clerk) -> Typist:
    return Typist(clerk)


def test_a_saved_line_clears_and_says_so(clerk: Clerk, typed: Typist, paper: PaperDesk) -> None:
    typed("7 10.8 10.9")
    assert paper.lines == [("7 10.8 10.9", None)]
    assert clerk.draft.text == ""
    assert clerk.said.text == "saved, entry 1: 7 10.8 10.9"


def test_a_line_that_cannot_be_read_stays_with_what_is_wrong_and_where(
    clerk: Clerk, typed: Typist, paper: PaperDesk
) -> None:
    typed("7 zz")
    assert paper.lines == []
    assert clerk.draft.text == "7 zz"
    assert clerk.draft.wrong_at == 2
    assert "zz" in clerk.said.text


def test_the_next_reading_never_runs_into_a_refused_line(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    typed("10.8x", "10.9")
    assert paper.lines == [("10.9", "7")]
    assert clerk.unread == ["10.8x"]
    clerk.earlier()
    clerk.earlier()
    assert clerk.draft.text == "10.8x"
    assert clerk.unread == []


def test_a_far_off_weight_is_put_aside_and_recorded_by_an_empty_enter(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    typed("51", "10.9", "52")
    assert paper.lines == [("10.9", "7")]
    assert [held.line for held in clerk.held] == ["51", "52"]
    assert "51 g is far over target" in clerk.ask()
    place.at = "8"
    typed("")
    assert paper.lines[-1] == ("51", "7")
    typed("")
    assert paper.lines[-1] == ("52", "7")
    assert not clerk.held


def test_an_enter_that_came_before_the_question_was_seen_is_no_answer(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    typed("51", "", unseen=True)
    assert (paper.lines, len(clerk.held)) == ([], 1)
    clerk.ask()
    typed("")
    assert paper.lines == [("51", "7")]


def test_escape_drops_the_oldest_held_line_first(
    clerk: Clerk, typed: Typist, place: Somewhere
) -> None:
    place.at = "7"
    typed("51", "52")
    assert clerk.escape()
    assert clerk.said.text == "dropped: 51"
    assert [held.line for held in clerk.held] == ["52"]
    assert clerk.escape()
    assert not clerk.escape()


def test_a_line_the_disk_does_not_take_stays_and_is_not_lost_to_the_next(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    paper.full = True
    typed("10.8")
    assert clerk.draft.text == "10.8"
    assert FULL in clerk.said.text
    typed("10.9", "11.0")
    assert [held.line for held in clerk.held] == ["10.8", "10.9"]
    paper.full = False
    typed("", "")
    assert [line for line, _ in paper.lines] == ["11.0", "10.8", "10.9"]
    assert not clerk.held


def test_unsaved_lines_stay_in_order_while_the_disk_stays_full(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    paper.full = True
    typed("10.8", "10.9")
    clerk.escape()
    typed("")
    assert [held.line for held in clerk.held] == ["10.8", "10.9"]
    assert FULL in clerk.said.text


def test_a_far_off_weight_that_was_meant_is_not_asked_about_again_when_the_disk_was_full(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    typed("51")
    paper.full = True
    typed("")
    assert [held.why for held in clerk.held] == ["unsaved"]
    paper.full = False
    typed("")
    assert paper.lines == [("51", "7")]


def test_closing_the_day_asks_once(clerk: Clerk, typed: Typist, paper: PaperDesk) -> None:
    typed("close")
    assert not paper.closed
    assert clerk.ask() == ("close the day? Enter yes, Esc no: the day has 0 entries")
    clerk.escape()
    assert not paper.closed
    typed("close", "")
    assert paper.closed


def test_an_empty_enter_on_the_board_opens_the_bench_under_the_cursor(
    typed: Typist, place: Somewhere
) -> None:
    typed("")
    assert place.opened == 1


def test_quit_leaves_but_not_past_held_lines_unasked(
    clerk: Clerk, typed: Typist, place: Somewhere
) -> None:
    place.at = "7"
    typed("51", "quit")
    assert not place.left
    assert "1 held" in clerk.said.text
    typed("quit")
    assert place.left


def test_a_line_with_an_escape_run_into_it_is_refused_aloud(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    typed("^10.8")
    assert paper.lines == []
    assert "Esc" in clerk.said.text
    assert clerk.draft.wrong_at == 0


def test_clearing_the_line_keeps_what_is_put_aside(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    typed("51")
    clerk.type("10.9")
    clerk.clear()
    assert clerk.draft.text == ""
    assert [held.line for held in clerk.held] == ["51"]
    paper.full = True
    typed("10.8")
    clerk.clear()
    assert [held.line for held in clerk.held] == ["51", "10.8"]


def test_clearing_a_refused_line_clears_why_it_was_refused(clerk: Clerk, typed: Typist) -> None:
    typed("7 nonsense")
    assert "not recorded" in clerk.said.text
    clerk.clear()
    assert (clerk.draft.text, clerk.said.text) == ("", "")


def test_clearing_a_line_under_way_leaves_what_was_saved(clerk: Clerk, typed: Typist) -> None:
    typed("7 10.8")
    clerk.type("7 1")
    clerk.clear()
    assert "saved" in clerk.said.text


def test_tab_goes_as_far_as_one_way_is_open(clerk: Clerk) -> None:
    clerk.type("7 sc")
    clerk.complete()
    assert clerk.draft.text == "7 scrap"
    clerk.escape()
    clerk.type("7 take ")
    clerk.complete()
    assert clerk.draft.text == "7 take "
    assert clerk.offered == ("SE-1", "LI-1", "BI-1", "WR-1")


def test_words_that_lead_to_a_page_go_there(typed: Typist, place: Somewhere) -> None:
    typed("only toro", "day", "7")
    assert [(go.screen, go.bench, go.words) for go in place.went] == [
        ("only", None, "toro"),
        ("day", None, ""),
        ("card", "7", ""),
    ]


def test_a_later_question_waits_and_is_named_while_the_first_is_shown(
    clerk: Clerk, typed: Typist, paper: PaperDesk, place: Somewhere
) -> None:
    place.at = "7"
    typed("51", "cierre")
    assert clerk.ask() == "1 of 2: held: Enter records, Esc drops: 51 g is far over target"
    assert clerk.said.text == "asked after what is held: cierre"
    typed("")
    assert (paper.lines, paper.closed) == ([("51", "7")], False)
    clerk.escape()
    assert clerk.said.text == "dropped: cierre"


def test_escape_on_an_empty_line_clears_the_lines_not_read(
    clerk: Clerk, typed: Typist, place: Somewhere
) -> None:
    place.at = "7"
    typed("10.8x", "10.9")
    assert clerk.escape()
    assert (clerk.unread, clerk.said.text) == ([], "the lines not read are cleared")
    assert not clerk.escape()


def test_tab_on_an_unknown_fault_shows_the_faults(clerk: Clerk, typed: Typist) -> None:
    typed("7 fail zzzz 1")
    assert "Tab shows them" in clerk.said.text
    clerk.complete()
    assert clerk.draft.text == "7 fail zzzz 1"
    assert {"plugged", "torn"} <= set(clerk.offered)


def test_a_sign_that_an_escape_left_is_explained(clerk: Clerk, typed: Typist) -> None:
    typed("7 made ¶5")
    assert "an Esc ran into the key after it and left the ¶" in clerk.said.text
