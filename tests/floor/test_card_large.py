"""The card's large figures: what is on it from two metres away, in every size of terminal."""

from __future__ import annotations

import datetime as dt

import pytest

from core.desk.faces import OpenCheck
from core.recipe.card import Card
from floor.looks.language import words_of
from floor.looks.letters import big_word
from floor.looks.spans import text_of
from tests.floor.hall import ESC, F8, F10, XTERM, Hall, floor, small_house
from tests.floor.paper import WINDOW, PaperDesk, seen
from tests.floor.rooms import Rooms, settle
from tests.floor.test_card import of_classes

SWITCH = "\x07"
"""Ctrl+G as a terminal sends it."""

DIGITS: dict[tuple[str, ...], str] = {
    ("###", "# #", "# #", "# #", "###"): "0",
    (" # ", "## ", " # ", " # ", "###"): "1",
    ("###", "  #", "###", "#  ", "###"): "2",
    ("###", "  #", "###", "  #", "###"): "3",
    ("# #", "# #", "###", "  #", "  #"): "4",
    ("###", "#  ", "###", "  #", "###"): "5",
    ("###", "#  ", "###", "# #", "###"): "6",
    ("###", "  #", "  #", "  #", "  #"): "7",
    ("###", "# #", "###", "# #", "###"): "8",
    ("###", "# #", "###", "  #", "###"): "9",
}


async def enlarged(hall: Hall, bench: str = "7") -> None:
    """Open the bench's card and switch it to large figures."""
    hall.type(f"/{bench}\r")
    await hall.shows("half-leaves")
    hall.type(SWITCH)
    await hall.until(lambda: "half-leaves" not in hall.text)
    await hall.settled()


def checked(classes: int, places: int = 1) -> PaperDesk:
    """The small house with so many classes and a check of 11.7 g at bench 7, which is heavy."""
    text = of_classes(classes)
    if places == 2:
        text = text.replace('scale_division = "0.1 g"', 'scale_division = "0.01 g"')
        assert text != of_classes(classes)
    paper = PaperDesk(small_house(text))
    paper.seen["7"] = (seen(1, 10.8, 10.9), seen(2, 11.6, 11.8))
    return paper


@pytest.mark.parametrize("terminal", [XTERM, {**XTERM, "NO_COLOR": "1"}, {"TERM": "linux"}])
@pytest.mark.parametrize("size", [(80, 24), (60, 20), (132, 43)])
@pytest.mark.parametrize("classes", [2, 5])
async def test_every_figure_has_its_class_and_code_and_the_line_stays_whole(
    classes: int, size: tuple[int, int], terminal: dict[str, str]
) -> None:
    paper = checked(classes)
    ascii_only = terminal["TERM"] == "linux"
    async with floor(
        paper, size=size, environ=terminal, encoding="ascii" if ascii_only else "utf-8"
    ) as hall:
        await enlarged(hall)
        card = paper.card("7")
        page = hall.rows[1:-4]
        for row in card.classes:
            assert row.leaf in hall.text
            assert sum(row.leaf in line for line in page) <= 2  # beside it, and in a batch
        for word in ("seco", "binder BI-1" if "binder BI-1" in hall.text else "BI-1", "bunch"):
            assert word in hall.text
        assert "09:30 bunch 11.7 g heavy, steady" in hall.text
        assert "wrapper" not in hall.text
        assert "%" not in "".join(page)
        drawn = [line for line in page if ("#" if ascii_only else "█") in line]
        assert len(drawn) >= 10
        assert all(len(line) == size[0] for line in hall.rows)
        assert not ascii_only or hall.text.isascii()
        assert hall.rows[-4].startswith(f" bench 7 {'>' if ascii_only else '▸'}")
        hall.type("10.8")
        await hall.shows("do: 10.8")
        assert hall.rows[-1].startswith(" F")


def figures(rows: list[str], high: int, wide: int) -> list[str]:
    """The figures drawn in these rows, read from their shapes; a point is one column wide."""
    picked = [rows[y] for y in range(0, 5 * high, high)]
    width = max(map(len, picked))
    columns = ["".join("#" if r[x : x + 1] == "█" else " " for r in picked) for x in range(width)]
    read, x, blank = "", 0, 0
    while x < width:
        if not columns[x].strip():
            blank, x = blank + 1, x + 1
            continue
        if columns[x] == "    #" and all(
            not c.strip() for c in columns[x + wide : x + wide + max(1, wide // 2)]
        ):
            sign, step = ".", wide
        else:
            block = columns[x : x + 3 * wide : wide]
            sign, step = DIGITS[tuple("".join(c[y] for c in block) for y in range(5))], 3 * wide
        read += ("|" if blank > 4 * wide and read else "") + sign
        blank, x = 0, x + step
    return read.split("|")


async def test_the_figures_are_those_of_the_card() -> None:
    paper = checked(2)
    async with floor(paper) as hall:
        await enlarged(hall)
        card = paper.card("7")
        rows = [row.replace(" g ", "   ") for row in hall.rows]
        assert figures(rows[1:6], 1, 2) == [f"{row.g:.1f}" for row in card.classes]
        bunch = card.targets["bunch"].target_g
        assert figures(rows[7:12], 1, 2) == [f"{card.binder.today_g:.1f}", f"{bunch:.1f}"]


async def test_on_a_large_terminal_the_digits_are_higher() -> None:
    paper = checked(2)
    async with floor(paper, size=(132, 43)) as hall:
        await enlarged(hall)
        assert sum("█" in row for row in hall.rows[1:-4]) == 2 * 5 * 3 + 5


async def test_the_verdict_is_written_large_where_there_is_room() -> None:
    paper = checked(2)
    word = [text_of(row).rstrip() for row in big_word("heavy", 78, "heavy")]
    async with floor(paper) as hall:
        await enlarged(hall)
        assert [row.strip() for row in hall.rows[14:19]] == [row.strip() for row in word]
        paper.seen["7"] = (seen(3, 10.0, 11.6),)
        hall.type("/8\r/7\r")
        large = text_of(big_word("mixed", 78, "mixed")[0]).strip()
        await hall.shows(large)
        assert "10.8 g mixed" in hall.text


async def test_it_stays_on_from_card_to_card_until_it_is_switched_back() -> None:
    paper = checked(3)
    async with floor(paper) as hall:
        await enlarged(hall)
        hall.type(F8)
        await hall.shows("greatest diameter")
        hall.type(F10)
        await hall.shows("The entry line")
        hall.type(ESC)
        hall.type("/8\r")
        await hall.shows("Card, bench 8")
        await hall.shows("no check yet today")
        assert "half-leaves" not in hall.text
        hall.type(SWITCH)
        await hall.shows("half-leaves")
        hall.type("/7\r")
        await hall.shows("Card, bench 7")
        assert "half-leaves" in hall.text


async def test_the_switch_leaves_what_is_typed_alone() -> None:
    paper = checked(2)
    async with floor(paper) as hall:
        hall.type(f"7\r10.8{SWITCH}")
        await hall.shows("▸ 10.8")
        hall.type("\r")
        await hall.until(lambda: paper.lines == [("10.8", "7")])
        assert "half-leaves" not in hall.text


async def test_an_open_check_is_told_where_there_is_no_verdict_yet() -> None:
    paper = checked(2)
    paper.seen.clear()
    paper.opened["7"] = OpenCheck(9, "bunch", (10.8,), ("within",), 3, WINDOW)
    async with floor(paper) as hall:
        await enlarged(hall)
        await hall.shows("open check bunch: 2 to go, mean 10.8 g")


@pytest.mark.parametrize("size", [(80, 24), (60, 20), (132, 43)])
async def test_the_longest_codes_and_a_batch_overflow_nothing(size: tuple[int, int]) -> None:
    text = of_classes(5)
    for code in ("VO-1", "SE-1", "VI-1", "LI-1", "MT-1", "BI-1"):
        text = text.replace(code, f"{code}-LOT-2024-12B"[:16])
    paper = PaperDesk(small_house(text))
    paper.seen["7"] = (seen(2, 11.6, 11.8),)
    async with floor(paper, size=size) as hall:
        await enlarged(hall)
        assert all(len(line) == size[0] for line in hall.rows)
        assert hall.rows[-4].startswith(" bench 7 ▸")
        assert "for 5 bunches:" in hall.text  # without it the figures would mislead
        assert hall.app.in_sight() == ""


async def test_figures_of_two_decimals_leave_the_binder_and_the_bunch_in_words() -> None:
    paper = checked(5, places=2)
    async with floor(paper, size=(60, 20)) as hall:
        await enlarged(hall)
        card = paper.card("7")
        bunch, binder = card.targets["bunch"].target_g, card.binder.today_g
        assert f"binder BI-1 {binder:.2f} g · bunch target {bunch:.2f} g" in hall.text
        assert sum("█" in row for row in hall.rows) >= 10


class EightLeaves(PaperDesk):
    """A desk on which a bunch takes eight leaves of one class, 12.3 g of each."""

    def card(self, number: str) -> Card:
        card = super().card(number)
        row = card.classes[0]
        eight = tuple(row._replace(leaf=f"LE-{n}", g=12.34) for n in range(8))
        return card._replace(classes=eight)

    def moisture_age(self, leaf: str) -> tuple[float, dt.datetime | None]:
        return 0.13, None


async def test_too_many_classes_for_the_terminal_are_plain_lines() -> None:
    paper = EightLeaves(small_house(of_classes(2)))
    paper.seen["7"] = (seen(2, 11.6, 11.8),)
    async with floor(paper, size=(60, 20)) as hall:
        hall.type("7\r")
        await hall.shows("half-leaves")
        hall.type(SWITCH)
        await hall.until(lambda: "half-leaves" not in hall.text)
        await hall.settled()
        assert [row.split() for row in hall.rows[1:9]] == [
            ["seco", f"LE-{n}", "12.3", "g"] for n in range(8)
        ]
        assert hall.rows[10].split() == ["bunch", "target", "10.8", "g"]
        assert hall.app.in_sight() == ""


def test_help_names_the_switch_in_both_languages() -> None:
    for language, says in (("en", "as large as they can be"), ("es", "lo más grandes posible")):
        words = words_of(language)
        for keys in (words.keys, words.bench_keys):
            assert any(key == "Ctrl+G" and says in does for key, does in keys)


def test_on_a_real_terminal_the_figures_are_read_from_afar(rooms: Rooms) -> None:
    with rooms.floor("es", (80, 24)) as terminal:
        terminal.type("17\r")
        terminal.wait_for("Ficha, mesa 17")
        settle(terminal)
        terminal.type(SWITCH)
        terminal.wait_for(lambda: "medias hojas" not in terminal.text)
        settle(terminal)
        assert sum("██" in row for row in terminal.rows[1:-4]) >= 10
        assert "meta" in terminal.text
        assert terminal.rows[-4].startswith(" mesa 17 ▸")


def test_letters_are_five_rows_of_one_width_and_all_differ() -> None:
    alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    drawn = {sign: tuple(text_of(row) for row in big_word(sign, 99, "big")) for sign in alphabet}
    assert len(set(drawn.values())) == len(alphabet)
    assert all(len(rows) == 5 and len(set(map(len, rows))) == 1 for rows in drawn.values())
    assert big_word("día", 99, "big") == big_word("dia", 99, "big")
    assert big_word("heavy", 10, "big") == []
    assert big_word("12", 99, "big") == []
