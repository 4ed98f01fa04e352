"""The lexicon: no word means two things, each has its twin, and help shows what is true."""

from __future__ import annotations

from collections import Counter
from typing import get_args

import pytest

from core.entry import requests as ask
from core.entry.faults import BY_WORD, FAULTS, Fate, Fault
from core.entry.parse import parse
from core.entry.tokens import fold
from core.entry.words import FORMS, GRAMMAR, ORDERS, Example, Form, Order, Takes
from core.measure import Measure
from tests.entry.room import ROOM, asked

# Faults and what usually happens: common practice, no source.
FATES: dict[str, str] = {
    "rework at bunch": "plugged hard soft light heavy twisted seam",
    "re-wrap": "torn loose wrinkle vein cap",
    "second": "stain colour crooked",
    "scrap": "short tight stem mould beetle",
    "hold": "blend wet",
}


Word = Form | Order | Fault
TABLES: dict[str, tuple[Word, ...]] = {"lines": FORMS, "orders": ORDERS, "faults": FAULTS}


@pytest.mark.parametrize("table", TABLES)
def test_no_word_means_two_things(table: str) -> None:
    times = Counter(
        spelling
        for word in TABLES[table]
        for spelling in {fold(spelled) for spelled in word.en + word.es}
    )
    assert [spelling for spelling, count in times.items() if count > 1] == []


@pytest.mark.parametrize("word", [*FORMS, *ORDERS, *FAULTS], ids=lambda word: word[0])
def test_every_word_has_its_twin(word: Word) -> None:
    assert word.en
    assert word.es


def test_there_is_a_word_for_every_measure_and_kind() -> None:
    kinds = {
        *("made", "good", "rework", "fail", "second", "hold", "release", "workers", "panel"),
        *("take", "back", "scrap", "stem", "sweepings", "receive", "stock"),
        *("roll", "note", "undo"),
    }
    screens = {
        "leaf",
        "line",
        "try",
        "approve",
        "drop",
        "days",
        "board",
        "why",
        "rounds",
        "chart",
        "day",
        "log",
        "help",
        "only",
        "sort",
        "close",
        "reopen",
        "initials",
    }
    means = [form.means for form in FORMS]
    assert sorted(means) == sorted({*get_args(Measure), *kinds, *screens})
    assert {form.takes for form in FORMS} == set(get_args(Takes))


def test_faults_and_what_usually_happens() -> None:
    found = {fate: " ".join(f.code for f in FAULTS if f.fate == fate) for fate in get_args(Fate)}
    assert found == FATES


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.code)
def test_a_fault_is_known_by_its_code_and_every_word(fault: Fault) -> None:
    words = [word for word, meant in BY_WORD.items() if meant == fault]
    assert fault.code == fault.en[0]
    assert {fault.code, *fault.words} <= set(words)
    for word in words:
        assert asked(f"7 fail {word} 2") == ask.Fail("7", ((fault.code, 2),))
        assert asked(f"7 falla {word.upper()} 2") == ask.Fail("7", ((fault.code, 2),))


def _agreeing(word: str) -> set[str]:
    return {word, word + "s", word[:-1] + "a", word[:-1] + "as"} if word[-1] == "o" else {word}


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.code)
def test_spanish_agrees_with_what_it_counts(fault: Fault) -> None:
    for word in fault.es:
        for agreeing in _agreeing(word) if " " not in word else {word}:
            assert asked(f"7 falla {agreeing} 2") == ask.Fail("7", ((fault.code, 2),))


@pytest.mark.parametrize("example", GRAMMAR, ids=lambda example: example.typed)
def test_every_example_of_the_help_can_be_typed(example: Example) -> None:
    at = "7" if "on a card:" in example.does else None
    assert isinstance(parse(example.typed, ROOM, at), ask.Parsed)


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.means)
def test_a_word_is_shown_in_the_help_by_its_first_spelling(form: Form) -> None:
    assert form.examples
    assert all(form.en[0] in example.typed.split() for example in form.examples)


def test_the_help_fits_a_narrow_terminal() -> None:
    typed = max(len(example.typed) for example in GRAMMAR)
    assert max(typed + 2 + len(example.does) for example in GRAMMAR) <= 78
