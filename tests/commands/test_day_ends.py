"""What is said of a day that is not over, and of one that is; and help on one word."""

from __future__ import annotations

import datetime as dt

from core.desk.dates import short_date
from core.say import told
from core.tongue import tongue_of
from tests.commands.conftest import Bunchbook


def test_while_the_day_is_open_no_yield_is_told_and_leaf_lies_on_the_benches(
    loaded: Bunchbook,
) -> None:
    loaded("enter", "7 take LI-1 450", "7 made 20", "7 good 18")
    text = loaded("day").out
    assert "known at the close" in text
    assert "on benches" in text
    loaded("close")
    text = loaded("day").out
    assert "known at the close" not in text
    assert "unexplained" in text


def test_closing_twice_names_the_command_that_opens_the_day(loaded: Bunchbook) -> None:
    loaded("enter", "7 made 20")
    assert loaded("close").code == 0
    again = loaded("close")
    assert again.code == 2
    assert "the day is already closed" in again.err
    assert "bunchbook reopen REASON" in again.err


def test_help_on_one_word_in_either_language(bunchbook: Bunchbook) -> None:
    english, spanish = bunchbook("help", "hold"), bunchbook("help", "retiene")
    assert english.code == 0
    assert english.out == spanish.out
    assert "7 hold 25 too wet" in english.out
    assert "made" not in english.out


def test_help_on_no_word_says_so(bunchbook: Bunchbook) -> None:
    refused = bunchbook("help", "7")
    assert refused.code == 2
    assert '"7" is no word of the entry line' in refused.err


def test_dates_are_told_as_people_say_them() -> None:
    day = dt.date(2026, 5, 2)
    assert short_date(day) == "2 May"
    assert told(short_date(day), tongue_of("es")) == "2 may"
    assert short_date(day, dt.date(2027, 1, 4)) == "2 May 2026"
