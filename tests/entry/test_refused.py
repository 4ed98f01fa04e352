"""Lines that cannot be read: what is wrong, where, and what to do instead."""

from __future__ import annotations

import pytest

from core.entry import requests as ask
from core.entry.parse import parse
from tests.entry.room import ROOM, refused, room

# The line with a » before what is wrong, and what the sentence must name.
WRONG: tuple[tuple[str, str], ...] = (
    ("»99", "a bench"),
    ("»9999 made 5", "3 to 118"),
    ("»11", "118"),
    ("»7-B", "7-A"),
    ("/»99", "a bench"),
    ("/7 »made 50", "another line"),
    ("»15.3", "7 15.3"),
    ("»15.3 g", "7 15.3"),
    ("»15.3 15.6", "a bench first"),
    ("»borad", "board"),
    ("»tabler", "tablero"),
    ("»zzzz", "?"),
    ("»toro", "a bench, a word or a leaf"),
    ("7 »mad 50", "made"),
    ("7 »hecos 50", "hechos"),
    ("7 »zzzz", "?"),
    ("7 »board", "without the bench"),
    ("7 »undo", "without the bench"),
    ("7 »why", "without the bench"),
    ("7 »LI-2 14.2%", "a weight or a word"),
    ("»made 50", "7 made 50"),
    ("»cigar 17.2", "7 cigar"),
    ("7 made 50 »60", "after 50"),
    ("7 made »0", "1 to 100000"),
    ("7 made »100001", "1 to 100000"),
    ("7 made »50.0", "whole number"),
    ("7 made »1,000", "whole number"),
    ("7 made »-5", "whole number"),
    ("7 made »5e3", "whole number"),
    ("7 made »50g", "whole number"),
    ("7 made »many", "whole number"),
    ("7 made »٥٠", "whole number"),
    ("7 bundle »1 17", "2 to 1000"),
    ("7 bundle »1001 17", "2 to 1000"),
    ("7 bundle »50.5 868", "whole number"),
    ("7 »0", "more than zero"),
    ("7 »-15.3", "more than zero"),
    ("7 »0." + "0" * 350 + "1", "more than zero"),
    ("7 »100.001kg", "100 kg"),
    ("7 take LI-2 »221 lb", "100 kg"),
    ("7 »" + "9" * 390, "100 kg"),
    ("7 15.3».1", "decimal mark"),
    ("7 15».", "decimal mark"),
    ("7 1,234».5", "decimal mark"),
    ("7 15.3»x", "g, kg, mg, oz or lb"),
    ("7 15.3»cm", "g, kg, mg, oz or lb"),
    ("7 1»e2", "g, kg, mg, oz or lb"),
    ("7 15.3»g15.6g", "correct the unit"),
    ("7 »nan", "a weight"),
    ("7 15.3 »inf", "a weight"),
    ("7 15.3 kg »kg", "a weight"),
    ("7 14.2»%", "moisture"),
    ("7 ring 52»mm", "without a unit"),
    ("7 ring »201", "200"),
    ("7 length 15.3»g", "mm, cm or in"),
    ("7 length »40in", "1000 mm"),
    ("7 draw 62»mm", "mmH2O"),
    ("7 draw 62mmH2O 5»dial", "mmH2O"),
    ("7 draw 62 »g", "a draw"),
    ("7 portion »3.1", "VO-11, SE-20, LI-2"),
    ("7 portion »CA-3 3.1", "a filler leaf"),
    ("7 portion »LI-3 3.1", "LI-2"),
    ("7 portion LI-2 »nan", "a weight"),
    ("7 portion LI-2 3.1»mm", "g, kg, mg, oz or lb"),
    ("chart »99", "a bench"),
    ("7 chart »portion", "a kind of check"),
    ("7 chart »cigr", "cigar"),
    ("7 chart cigar »bunch", "another line"),
    ("7 »rounds", "without the bench"),
    ("7 fail »3", "torn 1"),
    ("7 fail »pluged 2", "plugged"),
    ("7 fail »tapao 2", "tapado"),
    ("7 fail torn 1 »2", "a fault"),
    ("7 fail torn »0", "1 to 100000"),
    ("7 fail plugged »torn 1", "whole number"),
    ("7 fail torn 99999 roto »2", "100001"),
    ("7 take »LI-3 450", "LI-2"),
    ("7 take »450 LI-2", "VO-11, SE-20, LI-2"),
    ("7 take LI-2 450 »SE-20 3", "another line"),
    ("7 scrap »LI-3 35", "LI-2"),
    ("7 second »0", "1 to 100000"),
    ("7 second 3 »4", "after 3"),
    ("7 hold »wet", "whole number"),
    ("7 release 25 »done", "after 25"),
    ("»workers 4", "7 workers 4"),
    ("7 take LI-2 450 »24-118", "typed as lot 24-118"),
    ("7 take LI-2 450 lot »-118", "16 letters"),
    ("7 take LI-2 450 lot »" + "x" * 17, "16 letters"),
    ("7 take LI-2 450 lot »24,118", "16 letters"),
    ("7 take LI-2 450 lot 24 »118", "another line"),
    ("7 back LI-2 »lot 24-118", "a weight"),
    ("7 stem »LI-3 12", "LI-2"),
    ("7 stem 12»mm", "g, kg, mg, oz or lb"),
    ("7 »sweepings 140", "without the bench"),
    ("sweepings »LI-3 20", "LI-2"),
    ("sweepings »7 140", "a leaf"),
    ("7 »receive LI-2 L8 36kg", "without the bench"),
    ("receive »L8 36kg", "VO-11, SE-20, LI-2"),
    ("receive LI-2 »%8 36kg", "16 letters"),
    ("receive LI-2 L8 13.5»%", "moisture"),
    ("receive LI-2 L8 »0kg", "more than zero"),
    ("receive LI-2 L8 »50.001t", "50,000 kg"),
    ("receive LI-2 L8 36kg »13.5", "crop, bales or price"),
    ("receive LI-2 L8 36kg »60%", "60 %"),
    ("receive LI-2 L8 36kg »crap 2023", "crop"),
    ("receive LI-2 L8 36kg »pecio 24", "precio"),
    ("receive LI-2 L8 36kg crop »23", "1900 to 2199"),
    ("receive LI-2 L8 36kg bales »2.5", "whole number"),
    ("receive LI-2 L8 36kg price »-24", "more than zero"),
    ("receive LI-2 L8 36kg crop 2023 »cosecha 2024", "leave one out"),
    ("receive LI-2 L8 36kg 13% »14%", "leave one out"),
    ("stock LI-2 L8 »-1kg", "a weight"),
    ("stock LI-2 L8 31kg »crop 2023", "as 14.2%"),
    ("stock LI-2 L8 31»mm", "kg, t, oz or lb"),
    ("stock LI-2 L8 31kg 13% »crop", "another line"),
    ("7 »leaf", "without the bench"),
    ("leaf »LI-2", "another line"),
    ("days »7", "another line"),
    ("7 roll »robusta", "robusto"),
    ("7 roll robusto »B6", "B4"),
    ("7 roll robusto »zz", "B4, B5"),
    ("7 roll robusto B4 »250.5", "the quota"),
    ("7 roll robusto B4 »zz", "the quota"),
    ("7 roll robusto B4 250 »3", "another line"),
    ("»LI-3 14.2%", "LI-2"),
    ("LI-2 »14.2", "LI-2 14.2%"),
    ("LI-2 »14.2 g", "LI-2 14.2%"),
    ("LI-2 »wet", "LI-2 14.2%"),
    ("LI-2 »0%", "60 %"),
    ("LI-2 »60%", "60 %"),
    ("LI-2 »-3%", "60 %"),
    ("LI-2 14.2% »15%", "another line"),
    ("undo »0", "1 to 999999999"),
    ("undo »1.5", "whole number"),
    ("undo »9999999999 bench", "whole number"),
    ("board »now", "another line"),
    ("? »made", "another line"),
    ("sort »weight", "bench, due, mean or good"),
    ("sort »meen", "mean"),
    ("sort due »mean", "another line"),
    ("7 made 50»\u0007", "U+0007"),
    ("7»\u000915.3", "U+0009"),
    ("note »\u202eleft", "U+202E"),
    ("note »\ud800", "U+D800"),
    ("note one»\u000atwo", "U+000A"),
)

# Lines that end too soon: the column is where the rest would stand.
SHORT: tuple[tuple[str, str], ...] = (
    ("7 made", "how many after made"),
    ("7 made ", "how many after made"),
    ("7 made !", "how many after made"),
    ("7 portion", "a filler leaf and its grams after portion"),
    ("chart", "a bench after chart"),
    ("chart cigar", "a bench after cigar"),
    ("7 bundle", "how many cigars"),
    ("7 bundle 868", "a weight after 868"),
    ("7 fail", "a fault and how many"),
    ("7 fail torn", "how many after torn"),
    ("7 take", "a leaf and its weight"),
    ("7 take LI-2", "a weight after LI-2"),
    ("7 scrap", "a leaf"),
    ("7 second", "how many after second"),
    ("7 hold", "how many after hold"),
    ("7 panel", "how many after panel"),
    ("7 take LI-2 450 lot", "a lot after lot"),
    ("7 stem", "a leaf"),
    ("sweepings", "a leaf and its weight"),
    ("receive", "a leaf and its lot"),
    ("receive LI-2", "a lot after LI-2"),
    ("receive LI-2 L8", "a weight after L8"),
    ("receive LI-2 L8 36kg crop", "the year of the crop"),
    ("receive LI-2 L8 36kg price", "a price"),
    ("stock LI-2 L8", "a weight after L8"),
    ("7 roll", "a vitola"),
    ("LI-2", "a moisture in percent after LI-2"),
    ("note", "its text after note"),
    ("7 note", "its text after note"),
    ("sort", "bench, due, mean or good"),
    ("/", "type it as /7"),
)


@pytest.mark.parametrize(("marked", "names"), WRONG, ids=ascii)
def test_what_is_wrong_and_where(marked: str, names: str) -> None:
    unread = refused(marked.replace("»", ""))
    assert names in unread.says
    assert unread.at == marked.index("»")


@pytest.mark.parametrize(("line", "names"), SHORT)
def test_a_line_that_ends_too_soon(line: str, names: str) -> None:
    unread = refused(line)
    assert names in unread.says
    assert unread.at == len(line.rstrip())


@pytest.mark.parametrize("line", ["", "  ", "!", " !! "])
def test_nothing_typed(line: str) -> None:
    assert refused(line).at == 0
    assert "type" in refused(line).says


def test_a_line_has_its_length() -> None:
    assert isinstance(parse("note " + "x" * 395, ROOM, None), ask.Parsed)
    unread = refused("note " + "x" * 396)
    assert "at most 400 characters, found 401" in unread.says
    assert unread.at == 400


def test_a_line_has_its_number_of_readings() -> None:
    unread = refused("7" + " 9" * 101)
    assert "at most 100 readings" in unread.says
    assert unread.at == 1 + 100 * 2 + 1


def test_the_column_is_of_the_line_as_typed() -> None:
    assert refused("   7   mad 50").at == 7


@pytest.mark.parametrize("marked", [marked for marked, _ in (*WRONG, *SHORT)], ids=ascii)
def test_the_sentence_fits_a_line_and_says_expected_and_found(marked: str) -> None:
    says = refused(marked.replace("»", "")).says
    assert says.startswith("expected ")
    assert "found " in says
    assert ": " in says
    assert says.isprintable()
    assert len(says) <= 100


def test_a_long_word_is_not_repeated_whole() -> None:
    assert "x" * 21 + "..." in refused("7 take " + "x" * 300 + " 5").says


def test_a_house_without_benches_says_so() -> None:
    unread = parse("7", room(benches=()), None)
    assert isinstance(unread, ask.Unread)
    assert "the house book has none" in unread.says


@pytest.mark.parametrize("typed", ["7 take LI-2 1,500", "7 15,300", "7 scrap 12,000g"])
def test_a_comma_that_may_part_thousands_is_asked_about(typed: str) -> None:
    found = parse(typed, ROOM, None)
    assert isinstance(found, ask.Unread)
    assert "which can mean" in found.says


@pytest.mark.parametrize(
    "typed", ["undo 1, wrong bench", "undo #1 wrong", "undo 1: wrong", "undo 1st"]
)
def test_what_begins_like_a_number_is_no_reason_to_undo_the_last(typed: str) -> None:
    found = parse(typed, ROOM, None)
    assert isinstance(found, ask.Unread)
    assert found.at == 5
