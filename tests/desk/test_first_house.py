"""The first run at a terminal: going back, stopping, going on, writing, a file to be mended."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake, Told
from core.desk.start.check import number_of
from core.desk.start.first import FirstHouse
from core.desk.start.kept import NAME
from core.desk.start.questions import QUESTIONS
from core.say import told
from core.tongue import tongue_of
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock

Begin = Callable[..., FirstHouse]


@pytest.fixture
def data(tmp_path: Path) -> Path:
    return tmp_path / "data"


@pytest.fixture
def begin(data: Path, clock: HandClock) -> Begin:
    """The first run at one more terminal on the same folder."""
    return lambda **how: FirstHouse(data, clock, "en", **how)


def say_all(first: FirstHouse, *lines: str) -> None:
    for line in lines:
        outcome = first.enter(line)
        assert isinstance(outcome, Told), outcome


def answer_everything(first: FirstHouse) -> None:
    while stage(first) != "write":
        say_all(first, "")


def stage(first: FirstHouse) -> str:
    return first.stage


def place(first: FirstHouse) -> int:
    assert first.question is not None
    return number_of(first.question)


def desk_on(data: Path) -> Desk:
    return Desk(data, HandClock(MORNING), "T9")


# -- answering ----------------------------------------------------------------------------------


def test_answered_through_it_is_written_loaded_and_gives_a_card(data: Path, begin: Begin) -> None:
    first = begin()
    answer_everything(first)
    assert first.contents == "Our house: 5 leaves, 1 blend, 1 vitola, 1 bench"
    say_all(first, "")
    assert stage(first) == "done"
    desk = desk_on(data)
    card = desk.card("1")
    assert [part.leaf for part in card.classes] == ["VO-1", "SE-1", "LI-1"]
    assert sum(part.g for part in card.classes) == pytest.approx(card.filler_g)
    assert desk.shelf.source(1)["toml"] == (data / "house.toml").read_text(encoding="utf-8")
    assert not (data / NAME).exists()


@pytest.mark.parametrize("word", ["<", "back", "atrás"])
def test_going_back_offers_what_was_answered(begin: Begin, word: str) -> None:
    first = begin()
    say_all(first, "1", "en", "Casa Uno", "0.2 g")
    assert place(first) == 4
    say_all(first, word, word)
    assert place(first) == 2
    assert first.usual == "Casa Uno"
    say_all(first, "", "")
    assert (first.answers["name"], first.answers["scale_division"]) == ("Casa Uno", "0.2 g")
    assert first.back()
    assert first.back()
    assert first.back()
    assert first.back()
    assert stage(first) == "choose"
    assert not first.back()
    assert isinstance(first.enter("<"), Mistake)


def test_a_dropped_terminal_loses_no_answer(data: Path, begin: Begin) -> None:
    say_all(begin(), "1", "es", "Casa Uno", "0.2")
    again = begin()
    assert len(again.kept) == 3
    say_all(again, "")
    assert place(again) == 4
    assert again.language == "es"
    assert again.answers["scale_division"] == "0.2 g"
    anew = begin()
    say_all(anew, "new")
    assert place(anew) == 1
    assert json.loads((data / NAME).read_text(encoding="utf-8"))["name"] == "Casa Uno"


@pytest.mark.parametrize(
    ("content", "kept"),
    [
        ("", 0),
        ("[]", 0),
        ('{"language": "xx"}', 0),
        ('{"language": "en", "name": 7}', 1),
        ('{"language": "en", "name": "A", "scale_division": "9 in"}', 2),
        ("[" * 100_000, 0),
    ],
)
def test_of_what_was_kept_only_what_still_holds_is_offered(
    data: Path, begin: Begin, content: str, kept: int
) -> None:
    data.mkdir()
    (data / NAME).write_text(content, encoding="utf-8")
    assert len(begin().kept) == kept


def test_a_folder_that_takes_nothing_is_told_and_answers_stand(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a file", encoding="utf-8")
    first = FirstHouse(tmp_path / "data" / "in", HandClock(MORNING), "en")
    first.begin()
    outcome = first.enter("")
    assert isinstance(outcome, Told)
    assert "taken, but not kept: " in outcome.says
    assert place(first) == 2


# -- where it is written ------------------------------------------------------------------------


def test_no_file_is_overwritten_without_a_yes(tmp_path: Path, data: Path, begin: Begin) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text("mine", encoding="utf-8")
    first = begin()
    say_all(first, "1")
    answer_everything(first)
    say_all(first, str(mine))
    assert stage(first) == "over"
    say_all(first, "no")
    assert (stage(first), mine.read_text(encoding="utf-8")) == ("write", "mine")
    say_all(first, f'"{mine}"', "yes")
    assert stage(first) == "done"
    assert "[[bench]]" in mine.read_text(encoding="utf-8")
    assert desk_on(data).shelf.source(1)["file"] == str(mine)


def test_what_cannot_be_written_is_told_and_asked_again(
    tmp_path: Path, data: Path, begin: Begin
) -> None:
    first = begin()
    say_all(first, "1")
    answer_everything(first)
    (tmp_path / "file").write_text("", encoding="utf-8")
    for target in (tmp_path, tmp_path / "file" / "house.toml", Path("nul\0")):
        assert isinstance(first.enter(str(target)), Mistake)
        assert stage(first) == "write"
    assert desk_on(data).house is None
    say_all(first, str(tmp_path / "new" / "house.toml"))
    assert stage(first) == "done"


def test_the_second_terminal_gets_the_house_of_the_first(data: Path, begin: Begin) -> None:
    here, there = begin(), begin()
    for first in (here, there):
        say_all(first, "1")
        answer_everything(first)
    say_all(here, "")
    outcome = there.enter("")
    assert stage(there) == "done"
    assert outcome.says == "another terminal has loaded a house book: this is it"
    assert len(desk_on(data).shelf) == 1


def test_from_a_browser_no_file_is_named(tmp_path: Path, data: Path, begin: Begin) -> None:
    first = begin(names_files=False)
    mine = tmp_path / "mine.toml"
    mine.write_text(HOUSE_TOML, encoding="utf-8")
    for line in ("2", str(mine)):
        assert "a browser names no file" in first.enter(line).says
    say_all(first, "1")
    answer_everything(first)
    assert isinstance(first.enter(str(tmp_path / "other.toml")), Mistake)
    say_all(first, "")
    assert stage(first) == "done"
    assert [path.name for path in tmp_path.rglob("*.toml")].count("other.toml") == 0
    assert (data / "house.toml").exists()


# -- a house book that is there -----------------------------------------------------------------


def test_a_file_is_checked_mended_read_again_and_loaded_after_a_yes(
    tmp_path: Path, data: Path, begin: Begin
) -> None:
    book = tmp_path / "mine.toml"
    broken = re.sub(r"ring = \d+", "ring = 5", HOUSE_TOML, count=1)
    assert broken != HOUSE_TOML
    book.write_text(broken, encoding="utf-8")
    first = begin()
    say_all(first, "2", str(book))
    assert stage(first) == "mend"
    assert "ring 5 is outside 16 to 100" in first.problems[0].says
    book.write_text(HOUSE_TOML, encoding="utf-8")
    say_all(first, "again")
    assert stage(first) == "confirm"
    assert desk_on(data).house is None
    say_all(first, "yes")
    assert desk_on(data).house is not None
    assert book.read_text(encoding="utf-8") == HOUSE_TOML


def test_a_sound_file_is_not_loaded_after_a_no(tmp_path: Path, data: Path, begin: Begin) -> None:
    book = tmp_path / "mine.toml"
    book.write_text(HOUSE_TOML, encoding="utf-8")
    first = begin()
    say_all(first, str(book), "no")
    assert stage(first) == "choose"
    assert desk_on(data).house is None


@pytest.mark.parametrize("typed", ["", "nowhere.toml", "/", "~nobody-there/x.toml", "a\0b/c"])
def test_what_is_no_file_is_told(begin: Begin, typed: str) -> None:
    first = begin()
    say_all(first, "2")
    outcome = first.enter(typed)
    assert isinstance(outcome, Mistake)
    assert stage(first) == "path"


@pytest.mark.parametrize("typed", ["4", "house", "-1", "quit?"])
def test_of_the_choices_nothing_else_is_taken(begin: Begin, typed: str) -> None:
    first = begin()
    assert not first.would(typed).ok
    assert isinstance(first.enter(typed), Mistake)
    assert stage(first) == "choose"


def test_what_enter_would_do_is_told_in_spanish_at_every_stage(
    tmp_path: Path, begin: Begin
) -> None:
    first, spanish = begin(), tongue_of("es")
    said = [first.would(line).says for line in ("1", "2", "3", "x", "new", "<")]
    first.begin()
    said += [first.would("en").says, first.would("fr").says]
    answer_everything(first)
    said += [first.would("x.toml").says]
    assert [line for line in said if told(line, spanish) == line] == []


def test_the_questions_are_few() -> None:
    assert len(QUESTIONS) <= 30


def test_answers_of_any_size_or_kind_of_file_do_not_keep_the_floor_from_opening(
    begin: Begin, data: Path
) -> None:
    data.mkdir()
    with (data / NAME).open("wb") as file:
        file.truncate(1 << 42)
    assert not begin().kept
    (data / NAME).unlink()
    os.mkfifo(data / NAME)
    assert not begin().kept


@pytest.mark.parametrize("name", ["house.jsonl", "latch", "days", "start.json", "pin-tries"])
def test_the_house_book_is_not_written_over_the_records(
    begin: Begin, data: Path, name: str
) -> None:
    first = begin()
    answer_everything(first)
    refused = first.enter(str(data / name))
    assert isinstance(refused, Mistake)
    assert "the records are kept there" in refused.says
    say_all(first, str(data / "other.toml"))
    assert stage(first) == "done"
    assert (data / "other.toml").is_file()


def test_what_is_written_is_as_private_as_the_records(begin: Begin, data: Path) -> None:
    first = begin()
    say_all(first, "", "")
    assert (data / NAME).stat().st_mode & 0o777 == 0o600
