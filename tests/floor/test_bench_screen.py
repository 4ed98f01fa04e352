"""The floor for one bench alone: every page word and key, and what Help and Tab offer."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events

from core.desk.desk import Desk
from core.entry.words import FORMS
from floor.app import KEYS
from tests.desk.conftest import MORNING, HandClock, load
from tests.floor.hall import ESC, F1, F8, F9, F10, Hall, floor
from tests.floor.terminal import opened

ALONE = "this screen is for bench 7 alone"
OWN = ("Card, bench 7", "Why, bench 7", "Chart, bench 7", "Help, bench 7")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "data"


@pytest.fixture
def bench(folder: Path) -> Desk:
    clock = HandClock(MORNING)
    whole = Desk(folder, clock, "T2", "LP")
    load(whole)
    whole.enter("8 good 10", None)
    return Desk(folder, clock, "T1", "RM", only="7")


def at_home(hall: Hall) -> bool:
    return any(hall.is_at(title) for title in OWN)


async def test_it_starts_on_the_card_and_takes_readings_and_counts(bench: Desk) -> None:
    async with floor(bench) as hall:
        assert hall.is_at("Card, bench 7")
        hall.type("10.8\r7 10.9 11.0\rmade 10\r")
        await hall.until(lambda: len(bench.ledger.entries) == 4, "three entries of its own")
        entries = list(bench.ledger.entries.values())[1:]
        assert [entry["kind"] for entry in entries] == ["reading", "check", "made"]
        assert {entry.get("bench") for entry in entries} == {"7"}


async def test_no_key_leads_to_another_page(bench: Desk) -> None:
    async with floor(bench) as hall:
        for key, page in KEYS.items():
            hall.app.post_message(events.Key(key, key if key == "?" else None))
            await hall.settled()
            assert at_home(hall), key
            if page not in ("why", "chart", "help"):
                assert ALONE in hall.text
            assert "corona" not in hall.text
        for key in (ESC, ESC, "\x1b[A", "\x1b[B", "\r", "\t", "\x0c\x0c", "\x03"):
            hall.type(key)
            await hall.settled()
            assert at_home(hall)


async def test_no_word_leads_to_another_page(bench: Desk) -> None:
    async with floor(bench) as hall:
        for form in FORMS:
            for word in (form.en[0], form.es[0], "/8", "8 chart", "chart 8"):
                hall.app.clerk.draft.replace(word)
                hall.app.clerk.enter()
                await hall.settled()
                assert at_home(hall), word
                hall.app.clerk.clear()
                assert not hall.app.clerk.held


async def test_escape_goes_back_to_the_card_and_numbers_are_the_benchs_everywhere(
    bench: Desk,
) -> None:
    async with floor(bench) as hall:
        for key, page in ((F8, "Why"), (F9, "Chart"), (F10, "Help")):
            hall.type(key)
            await hall.until(lambda page=page: hall.is_at(page), page)
            assert "bench 7 ▸" in hall.text
            hall.type("10.8\r")
            await hall.shows("10.8 g")
            hall.type(ESC)
            await hall.until(lambda: hall.is_at("Card, bench 7"), "the card")


async def test_help_and_the_keys_are_those_of_a_bench(bench: Desk) -> None:
    async with floor(bench, size=(100, 60)) as hall:
        assert "F8 Why" in hall.rows[-1]
        assert not any(key in hall.rows[-1] for key in ("F1 ", "F2", "F3", "F5", "F7"))
        hall.type(F10)
        await hall.shows("a reading for this screen's bench")
        for word in ("board", "Rounds", "undo 118", "B4", "line", "approve", "receive", "close"):
            assert word not in hall.text.replace("line; ", "").replace("entry line", "").replace(
                "in a line", ""
            ).replace("blank line", "").replace("empty line", ""), word


def test_at_a_terminal_the_whole_floor_cannot_be_reached(bench: Desk, folder: Path) -> None:
    argv = ["-m", "floor.main", "--data", str(folder), "--bench", "7", "--terminal", "T9"]
    with opened(argv) as terminal:
        terminal.wait_for("Card, bench 7")
        terminal.type(F1)
        terminal.wait_for(ALONE)
        terminal.type("10.8\r")
        terminal.wait_for("saved, entry")
        terminal.type("8 good 3\r")
        terminal.wait_for("not recorded: " + ALONE)
        terminal.type("\x15quit\r")
        assert terminal.wait_for_end() == 0
    with opened([*argv[:-3], "99"]) as terminal:
        assert terminal.wait_for_end() == 2
        while terminal.drain(0) and b"99" not in terminal.sent:
            pass
        assert b"there is no bench 99 in the house book" in terminal.sent
