"""`house start`: the first house on plain lines, from a pipe too."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.desk.start.questions import QUESTIONS
from floor.commands import house_start
from tests.commands.conftest import HOUSE, Bunchbook

ALL_USUAL = "\n" * (len(QUESTIONS) + 1)
"""An empty line a question, and one that writes and loads."""


def test_empty_lines_from_a_pipe_make_a_house_that_gives_a_card(
    bunchbook: Bunchbook, tmp_path: Path
) -> None:
    target = tmp_path / "house.toml"
    ran = bunchbook("house", "start", str(target), typed=ALL_USUAL)
    assert (ran.code, ran.out) == (
        0,
        f"{target} is written and in force; change it in an editor, then load it again\n",
    )
    assert f"1 of {len(QUESTIONS)}: Which language" in ran.err
    assert bunchbook("house", "check", str(target)).code == 0
    card = bunchbook("card", "1", "--json").json
    assert [each["leaf"] for each in card["classes"]] == ["VO-1", "SE-1", "LI-1"]


def test_it_asks_in_spanish_from_the_answer_on(bunchbook: Bunchbook) -> None:
    ran = bunchbook("house", "start", typed="es\n" + ALL_USUAL)
    assert ran.code == 0
    first, _, rest = ran.err.partition("2 de ")
    assert "Which language" in first
    assert "¿Cómo se llama la casa?" in rest
    assert "[Nuestra casa]" in rest
    assert "capote" in bunchbook("card", "1").out


def test_lang_sets_the_first_question_and_the_usual_answer(bunchbook: Bunchbook) -> None:
    ran = bunchbook("--lang", "es", "house", "start", typed="")
    assert "¿Qué idioma habla la casa" in ran.err
    assert "[es]" in ran.err


def test_the_lines_are_plain(bunchbook: Bunchbook) -> None:
    for language in ("en", "es"):
        ran = bunchbook("--lang", language, "house", "start", typed="\n" * len(QUESTIONS))
        assert not set(ran.err) & set("│─┌┐└┘━┃\x1b")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "stopped, nothing is loaded"),
        ("\n\nquit\n", "stopped, nothing is loaded"),
        ("fr\n", 'language must be en | es, not "fr"; for example: en'),
        ("\n\nheavy\n", 'scale\'s division "heavy" is not an amount'),
        ("<\n<\n", "this is the beginning"),
    ],
)
def test_a_pipe_that_ends_or_answers_wrong_loads_nothing(
    bunchbook: Bunchbook, tmp_path: Path, typed: str, says: str
) -> None:
    ran = bunchbook("house", "start", typed=typed)
    assert ran.code == 2
    assert says in ran.err
    assert bunchbook("card", "1").code == 2
    assert not list(tmp_path.rglob("*.toml"))


def test_a_question_mark_shows_the_answers_and_goes_on(bunchbook: Bunchbook) -> None:
    ran = bunchbook("house", "start", typed="\nCasa\n?\n<\n\n")
    assert "house: Casa" in ran.err
    assert ran.err.count("[Casa]") == 1


def test_a_file_that_is_there_is_asked_about(bunchbook: Bunchbook, tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text("mine", encoding="utf-8")
    answered = bunchbook("house", "start", str(mine), typed=ALL_USUAL)
    assert answered.code == 2
    assert f"{mine} is there already." in answered.err
    assert mine.read_text(encoding="utf-8") == "mine"
    assert bunchbook("house", "start", str(mine), typed=ALL_USUAL + "yes\n").code == 0


def test_at_a_terminal_a_wrong_answer_is_asked_again_and_answers_are_kept(
    bunchbook: Bunchbook, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(house_start, "at_a_terminal", lambda: True)
    stopped = bunchbook("house", "start", typed="fr\nes\nCasa\nsalir\n")
    assert stopped.code == 2
    assert "las respuestas quedan guardadas" in stopped.err
    again = bunchbook("house", "start", typed="\n" + "\n" * (len(QUESTIONS) - 1))
    assert "2 answers were kept" in again.err
    assert again.code == 0
    assert "Casa" in bunchbook("house", "show").out


def test_a_house_that_is_in_force_is_not_begun_anew(bunchbook: Bunchbook) -> None:
    assert bunchbook("house", "load", str(HOUSE)).code == 0
    ran = bunchbook("house", "start", typed=ALL_USUAL)
    assert ran.code == 2
    assert "in force already, version 1" in ran.err


def test_answers_that_could_not_be_kept_are_not_said_to_be(
    bunchbook: Bunchbook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(house_start, "at_a_terminal", lambda: True)
    (tmp_path / "data" / "start.json").mkdir(parents=True)
    stopped = bunchbook("house", "start", typed="\n\nquit\n")
    assert "taken, but not kept" in stopped.err
    assert "the answers are kept" not in stopped.err
