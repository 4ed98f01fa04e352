"""Lines typed while a bench's card is shown."""

from __future__ import annotations

import pytest

from core.entry import requests as ask
from core.entry.parse import parse
from tests.entry.room import ROOM, asked, refused


@pytest.mark.parametrize("typed", ["15.3", "15", "3", "118"])
def test_a_bare_number_is_a_reading_even_when_a_bench_has_it(typed: str) -> None:
    assert asked(typed, at="7") == ask.Reading("7", float(typed))


@pytest.mark.parametrize("typed", ["", "   ", "\u00a0"])
def test_a_blank_line_ends_the_check(typed: str) -> None:
    assert asked(typed, at="7-A") == ask.Done("7-A")


@pytest.mark.parametrize(
    "typed",
    [
        "made 50", "good 50", "rework 3", "fail plugged 2 torn 1", "take LI-2 450",
        "back LI-2 60", "scrap 35", "scrap LI-2 35", "roll robusto B4 250", "cigar 17.2 17.4",
        "bundle 50 868", "ring 52", "draw 62", "note new blade", "hechos 50", "mazo 50 868",
        "portion LI-2 3.1 3.0", "cigar", "portion LI-2", "chart", "chart cigar", "second 3",
        "hold 25 too wet", "release 25", "workers 4", "panel 5", "stem 12", "vena LI-2 12",
        "take LI-2 450 lot 24-118", "back LI-2 60 lote 24-118",
    ],
)  # fmt: skip
def test_a_word_first_is_of_the_bench_shown(typed: str) -> None:
    assert asked(typed, at="7") == asked(f"7 {typed}")


@pytest.mark.parametrize(
    "typed",
    [
        "7 15.3", "7 15.3 15.4", "15 15.3 15.6", "7 made 50", "7-A good 3", "7 note new blade",
        "LI-2 14.2%", "undo", "undo 118 wrong bench", "board", "only robusto", "sort due", "day",
        "log", "help", "?", "close", "/7", "7-A", "rounds", "7 cigar", "chart 7", "7 chart",
        "sweepings 140", "sweepings LI-2 20", "receive LI-2 24-118 36kg 13% crop 2023", "leaf",
        "stock LI-2 24-118 31kg", "days", "panel", "cata", "panel T1 A 7 6 8 7", "7 panel 5",
    ],
)  # fmt: skip
def test_everything_else_means_what_it_means_elsewhere(typed: str) -> None:
    assert asked(typed, at="3") == asked(typed)


@pytest.mark.parametrize(
    ("typed", "reading"),
    [
        ("15.31 g", (15.31, "g")), ("0.015kg", (15, "g")), ("152.5 mm", (152.5, "mm")),
        ("6in", (152.4, "mm")), ("62 mmH2O", (62, "mmH2O")), ("5,2 dial", (5.2, "dial")),
    ],
)  # fmt: skip
def test_a_reading_says_what_unit_it_was_typed_in(typed: str, reading: tuple[float, str]) -> None:
    assert asked(typed, at="7")[1:] == reading


def test_a_mark_answers_the_question_beforehand() -> None:
    assert parse("7!", ROOM, "7") == ask.Parsed(ask.Reading("7", 7.0), sure=True)
    assert parse("22.8 g !", ROOM, "7") == ask.Parsed(ask.Reading("7", 22.8, "g"), sure=True)


@pytest.mark.parametrize("typed", ["why", "porqué", "porque", "por que", "Por Qué"])
def test_why_is_asked_of_a_card(typed: str) -> None:
    assert asked(typed, at="7") == ask.Show("why")
    assert "card" in refused(typed).says


@pytest.mark.parametrize("typed", ["15.3 15.6", "99 15.3", "15.3 g 15.6 g 15.4 g", "15.3 g 9"])
def test_several_numbers_without_a_bench_are_two_lines_run_together(typed: str) -> None:
    unread = refused(typed, at="7")
    assert "one reading a line" in unread.says or "a bench first" in unread.says
    assert unread.at == 0


def test_a_card_whose_bench_left_the_house_book() -> None:
    for typed in ("15.3", "", "made 50", "note gone", "why"):
        assert "99" in refused(typed, at="99").says
    assert asked("board", at="99") == ask.Show("board")
    assert asked("7 made 50", at="99") == ask.Count("7", "made", 50)
