"""The floor speaks one language at a time, the one that was asked for, on every page."""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Iterator
from string import Formatter
from typing import Any

import pytest

from core import wordbook
from core.desk.desk import Desk
from core.papers.words import Words as Paper
from demo.build import build
from floor.app import FloorApp
from floor.looks.language import paper_words, words_of
from floor.looks.spans import text_of
from floor.looks.words import Words
from tests.desk.conftest import HOUSE_TOML
from tests.floor.hall import ESC, F10, Hall, floor, small_house
from tests.floor.paper import PaperDesk
from tests.words.greek import Greek, untold

OTHER_LANGUAGE = "\x0c"
"""Ctrl+L."""

SIGNS = {"kg", "mm", "lb", "min", "Esc", "Ctrl", "Tab", "Friedman", "mmH", "bunchbook"}
"""Units, keys, a test's name and a command: the same in every language."""

PAGES = (
    *("board", "only toro", "sort due", "rounds", "leaf", "day", "days", "log", "help", "panel"),
    *("/7", "/7 why", "/7 chart", "/17 chart", "/24", "line B4", "try SE-20=2 toro.ring=54"),
)
OF_PEOPLE = ("day", "log", "panel")
"""The pages that show what people wrote."""
LINES = (
    *(
        "7 15.3 15.6",
        "7 99",
        "7 99!",
        "999",
        "7 pesado",
        "7 fail torn 2",
        "7 made 50",
        "7 good 5000",
    ),
    *("7 take LI-2 450", "7 take LI-2 45000", "LI-2 14.2%", "LI-2 90%", "7 length 152", "close"),
    *("undo", "undo 300 typed twice", "note the air is dry", "receive LI-2 L8 36kg 13%", "drop"),
    *("stock LI-2 23-219 5kg", "panel T1 A 7 6 8 7", "try LI-2=0", "try save", "approve 7", "sort"),
    *("7 roll gordo", "7 hold 5 wet", "7 release 5000", "7 draw 62", "7 ring 52", "reopen found"),
)


# -- in no page and no message a word of English that is not told ---------------------------------


@pytest.fixture
def paper() -> PaperDesk:
    return PaperDesk(small_house())


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    folder = tmp_path_factory.mktemp("demo") / "data"
    moment: dt.datetime = build(folder)
    return Desk(folder, lambda: moment, "T1", None)


@pytest.fixture
def in_greek(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Every language is Greek letters."""
    monkeypatch.setattr(wordbook, "tongue_of", lambda _language: Greek())
    for words in (words_of, paper_words):
        words.cache_clear()
    yield
    for words in (words_of, paper_words):
        words.cache_clear()


@pytest.fixture(scope="module")
def known(demo: Desk) -> set[str]:
    """The house's codes and names, and units."""
    house = demo.house
    assert house is not None
    codes = [*house.vitola, *house.blend, *house.leaf, *(b.number for b in house.benches)]
    classes = {leaf.leaf_class for leaf in house.filler.values()}
    names = " ".join((*codes, *classes, house.house.name)).replace("-", " ")
    return {*names.split(), *SIGNS}


@pytest.fixture(scope="module")
def own(demo: Desk) -> set[str]:
    """The words that people wrote themselves."""
    books = sorted(demo.data_folder.rglob("*.jsonl"))
    lines = (line.strip() for book in books for line in book.read_text("utf-8").splitlines())
    texts = (text for line in lines if line for text in _written(json.loads(line)))
    return {word for text in texts for word in re.findall(r"\w+", text)}


def _written(part: Any) -> Iterator[str]:
    if isinstance(part, dict):
        for key, value in part.items():
            if key in ("text", "reason") and isinstance(value, str):
                yield value
            yield from _written(value)
    elif isinstance(part, list):
        for value in part:
            yield from _written(value)


def page_of(app: FloorApp) -> str:
    """Everything on the page, in sight or not, and around it."""
    sheets = (app.title_bar, app.page, app.keys_bar)
    assert app.page is not None
    return "\n".join(text_of(row) for sheet in sheets if sheet for row in sheet.lines)


@pytest.mark.usefixtures("in_greek")
@pytest.mark.parametrize("width", [80, 170])
@pytest.mark.parametrize("page", PAGES)
async def test_every_word_of_a_page_is_told(
    demo: Desk, known: set[str], own: set[str], page: str, width: int
) -> None:
    async with floor(demo, size=(width, 60)) as hall:
        hall.type(f"{page}\r")
        await hall.settled()
        typed = set(re.findall(r"\w+", page)) if page.startswith("try") else set()
        people = own if page in OF_PEOPLE else set()
        assert untold(page_of(hall.app), known | typed | people) == []


@pytest.mark.usefixtures("in_greek")
@pytest.mark.parametrize("line", LINES)
def test_every_word_of_what_a_line_means_is_told(demo: Desk, known: set[str], line: str) -> None:
    says = words_of("es").tell(demo.meaning(line, None).says)
    # What was tried on a page before stays tried, and is told again.
    typed = " ".join((line, *PAGES)).replace("!", "")
    assert untold(says, known | {*typed.split(), *re.findall(r"\w+", typed)}) == []


# -- the language is chosen, and changes at once --------------------------------------------------


async def test_the_house_speaks_its_language(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        assert hall.is_at("Board")


async def test_a_terminal_may_speak_another() -> None:
    hall = Hall(FloorApp(PaperDesk(small_house()), {"TERM": "xterm"}, "utf-8", language="es"))
    async with hall.app.run_test(size=(80, 24)):
        await hall.shows("Tablero")


async def test_one_key_says_everything_in_the_other_language(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7 15.4\r")
        await hall.shows("saved")
        hall.type("nonsense\r")
        await hall.shows("not recorded: ")
        hall.type(OTHER_LANGUAGE)
        await hall.shows("no se anotó: ")
        assert hall.is_at("Tablero")
        assert "vitola pesar" in hall.text
        assert "salir" in hall.rows[-1]
        hall.type(OTHER_LANGUAGE)
        await hall.shows("not recorded: ")
        assert hall.is_at("Board")


async def test_what_is_typed_and_what_is_asked_stays_when_the_language_changes(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        hall.type("7\r51\r")
        await hall.shows("held: Enter records")
        hall.type("7 15.")
        await hall.shows("▸ 7 15.")
        hall.type(OTHER_LANGUAGE)
        await hall.shows("1 en espera")
        assert "▸ 7 15." in hall.text
        hall.type(f"4{ESC}")
        await hall.shows("espera: Intro anota")


async def test_help_says_which_key_it_is(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(F10)
        await hall.shows("Ctrl+L")
        hall.type(OTHER_LANGUAGE)
        await hall.shows("dice todo en el otro idioma")


async def test_the_key_on_a_bench_page_leaves_the_page(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("Card, bench 7")
        hall.type(OTHER_LANGUAGE)
        await hall.shows("Ficha, mesa 7")
        assert "tripa" in hall.text


async def test_a_spanish_house_speaks_english_when_asked() -> None:
    spanish = HOUSE_TOML.replace('name = "Test house"', 'name = "Casa"\nlanguage = "es"')
    async with floor(PaperDesk(small_house(spanish))) as hall:
        assert hall.is_at("Tablero")
        hall.type(OTHER_LANGUAGE)
        await hall.shows("Board")


# -- the tables --------------------------------------------------------------------------------


@pytest.mark.parametrize("book", [Words, Paper])
def test_spanish_fills_in_what_english_does(book: type[wordbook.Wordbook]) -> None:
    english, spanish = vars(book("en")), vars(book("es"))
    for name, said in english.items():
        if not name.startswith("_"):
            assert list(_blanks(said)) == list(_blanks(spanish[name])), name


def _blanks(said: object) -> Iterator[list[str]]:
    """The names to be filled in, text by text."""
    if isinstance(said, str):
        yield sorted(field for _, field, _, _ in Formatter().parse(said) if field)
    else:
        assert isinstance(said, tuple | dict)
        for text in said.values() if isinstance(said, dict) else said:
            yield from _blanks(text)


def test_a_terminal_of_ascii_has_every_word_spelled() -> None:
    assert words_of("en", ascii_only=True).line_becomes == "{before} -> {after}"
