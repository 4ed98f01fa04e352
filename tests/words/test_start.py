"""The first run speaks one language at a time: no English is left in what it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from core.desk.start.check import Refused, answered, question_told
from core.desk.start.first import FirstHouse
from core.desk.start.questions import QUESTIONS, because, completed
from core.say import told
from core.tongue import tongue_of
from floor.looks.language import words_of
from floor.looks.spans import text_of
from floor.screens.start import start_lines
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock
from tests.words.greek import Greek, untold
from tests.words.test_house import KEY_PARTS

SPANISH = tongue_of("es")
OWN = {
    *KEY_PARTS,
    *("VO", "SE", "LI", "BI", "WR", "CT", "CP", "LF", "toro", "parejo", "pressed", "figurado"),
    *("Casa", "Uno", "xyz", "in", "tmp", "Our", "house", "language", "profile"),
}
"""Codes, keys and what was typed."""


def test_every_question_and_every_refusal_is_told() -> None:
    answers = completed({"name": "Casa Uno"})
    for question in QUESTIONS:
        said = [question.label, question_told(question, answers), because(question, answers)]
        refused = answered(answers, question, "xyz !", answers[question.key])
        said += [refused.says] if isinstance(refused, Refused) else []
        for each in said:
            assert untold(told(each, Greek()), OWN) == [], each


@pytest.mark.parametrize(
    ("key", "typed", "says"),
    [
        (
            "blend.parts",
            "3 5",
            'se esperan 3 números con espacios, uno por hoja; hay "3 5"; por ejemplo: 3 5 2',
        ),
        ("vitola.ring", "5", "vitola, cepo 5 no está entre 16 y 100; por ejemplo: 52"),
        ("vitola.ring", "gordo", 'se espera un número; hay "gordo"; por ejemplo: 52'),
    ],
)
def test_a_refusal_in_spanish(key: str, typed: str, says: str) -> None:
    answers = completed({})
    question = next(q for q in QUESTIONS if q.key == key)
    refused = answered(answers, question, typed, answers[key])
    assert isinstance(refused, Refused)
    assert told(refused.says, SPANISH) == says


def test_the_pages_of_every_stage_are_in_spanish(tmp_path: Path) -> None:
    first = FirstHouse(tmp_path / "data", HandClock(MORNING), "es")
    book = tmp_path / "mine.toml"
    book.write_text(re.sub(r"ring = \d+", "ring = 5", HOUSE_TOML), encoding="utf-8")

    def page() -> str:
        lines = start_lines(first, 0, 80, 19, words_of("es"))
        return " ".join(" ".join(map(text_of, lines)).split())

    pages = [page()]
    for lines in (["2"], [str(book)], ["<", "1"], [""] * len(QUESTIONS), [str(book)]):
        for line in lines:
            first.enter(line)
        pages.append(page())
    for word, shown in zip(WORDS, pages, strict=True):
        assert word in shown
    english = re.compile(r"\b(?:the|which|what|Enter|answers|leaf|yes|again|back)\b")
    assert [found for shown in pages for found in english.findall(shown)] == []


WORDS = (
    "Tres maneras de empezar",
    "Escribir su ruta",
    "por corregir en",
    "1 de ",
    "La casa: Nuestra casa",
    "ya existe",
)


def test_the_words_it_asks_for_are_words_it_takes(tmp_path: Path) -> None:
    book = tmp_path / "mine.toml"
    book.write_text("[house]", encoding="utf-8")
    first = FirstHouse(tmp_path / "data", HandClock(MORNING), "es")
    first.enter(str(book))
    book.write_text(HOUSE_TOML, encoding="utf-8")
    first.enter("otra")
    assert first.contents.startswith("Test house")
    first.enter("sí")
    assert first.stage == "done"
