"""Whatever is said under the entry line is said whole, in both languages and both sizes.

The rows under the line grow for it and go back, the page above gives them up, and no key that is
typed moves anything.
"""

from __future__ import annotations

import datetime as dt
import re
import string
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from core.desk.desk import Desk
from core.house.language import LANGUAGES
from core.house.model import Language
from core.tongue import tongue_of
from tests.bench.workshop import house_toml
from tests.desk.conftest import load
from tests.floor.hall import DOWN, ESC, F2, F7, PAGE_DOWN, PAGE_UP, Hall, floor
from tests.floor.paper import PaperDesk
from tests.floor.rooms import Rooms, settle
from tests.floor.terminal import Terminal

SIZES = ((80, 24), (60, 20))
EVERY = [(size, language) for size in SIZES for language in LANGUAGES]
PO = Path(__file__).parents[2] / "core/tongues/es/LC_MESSAGES/bunchbook.po"
LONGEST_CODE = "LIGERO-VALLE-024"
"""As long as a code of the house book may be."""
MOST_ROWS = 12
"""Rows that a message can have at once at 60 × 20."""
PROMPT = re.compile(r" (?:(?:bench|mesa) \S+ )?▸")
REST = re.compile(r"(\d+)–(\d+) (?:of|de) (\d+)$")
NOON = dt.datetime(2026, 5, 4, 12, 0, tzinfo=dt.UTC)


class Blanks(string.Formatter):
    """Fills every blank with a long code, whatever form it asks for."""

    def get_value(self, _key: int | str, _args: object, _values: object) -> str:
        return LONGEST_CODE

    def format_field(self, value: object, _form: str) -> str:
        return str(value)


def sentences(language: Language) -> list[str]:
    """Every sentence of the catalogue in the language, its blanks filled with long codes."""
    tongue = tongue_of(language)
    found = []
    with PO.open("rb") as file:
        for message in read_po(file):
            template = message.id if isinstance(message.id, str) else message.id[-1]
            if template and not message.context and isinstance(message.id, str):
                template = tongue.gettext(template) if tongue else template
            if template:
                found.append(Blanks().vformat(template, (), {}))
    return found


def line_row(rows: list[str]) -> int:
    """The row of the entry line: the last with its prompt; 0 while there is none."""
    return max((y for y, row in enumerate(rows) if PROMPT.match(row)), default=0)


def under(rows: list[str]) -> list[str]:
    """The rows between the line and the keys."""
    return [row.strip() for row in rows[line_row(rows) + 1 : -1]]


def told(rows: list[str]) -> str:
    return " ".join(" ".join(under(rows)).split())


@asynccontextmanager
async def speaking(
    desk: PaperDesk | Desk, language: Language, size: tuple[int, int]
) -> AsyncIterator[Hall]:
    async with floor(desk, size) as hall:
        hall.app.speak(language)
        await hall.settled()
        yield hall


async def notice(hall: Hall, text: str) -> None:
    hall.app.clerk.notice(text)
    hall.app.entry.repaint()
    await hall.settled()


# -- whole ------------------------------------------------------------------------------------


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_the_longest_sentences_are_whole_and_their_rows_go_back(
    paper: PaperDesk, size: tuple[int, int], language: Language
) -> None:
    longest = sorted(sentences(language), key=len)[-25:]
    assert len(longest[0]) > 1.9 * size[0]
    async with speaking(paper, language, size) as hall:
        at_rest = highest = line_row(hall.rows)
        assert at_rest == highest == size[1] - 4
        for text in longest:
            await notice(hall, text)
            await hall.until(lambda text=text: told(hall.rows) == " ".join(text.split()), text)
            highest = min(highest, line_row(hall.rows))
            assert "…" not in "".join(under(hall.rows))
            assert hall.rows[1].split()[0] in ("bench", "mesa")
        assert highest <= at_rest - 2
        await notice(hall, "short")
        await hall.until(lambda: line_row(hall.rows) == at_rest, "the rows to go back")


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_no_sentence_loses_a_word_to_the_width(
    paper: PaperDesk, size: tuple[int, int], language: Language
) -> None:
    async with speaking(paper, language, size) as hall:
        entry = hall.app.entry
        for text in sentences(language):
            hall.app.clerk.notice(text)
            rows = [row for row, _ in entry._messages.rows(entry._tongue())]
            assert " ".join(" ".join(rows).split()) == " ".join(text.split())
            assert max(map(len, rows)) <= size[0] - 2


async def test_a_question_and_what_was_saved_beside_it_are_both_whole(paper: PaperDesk) -> None:
    async with floor(paper, size=(60, 20)) as hall:
        hall.type("7\r51\r")
        await hall.shows("held: Enter records, Esc drops:")
        far = "far over, " * 20 + "end"
        hall.app.clerk.held[0] = hall.app.clerk.held[0]._replace(says=far)
        hall.type("10.8\r")
        await hall.shows("saved, entry 1: 10.8")
        expected = f"held: Enter records, Esc drops: {far} saved, entry 1: 10.8"
        await hall.until(lambda: told(hall.rows) == expected, expected)


async def test_an_enter_sent_along_with_the_line_answers_no_question(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r51\r\r\r")
        await hall.shows("held: Enter records")
        assert paper.lines == []
        hall.type("\r")
        await hall.until(lambda: paper.lines == [("51", "7")], "the answer")


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_all_that_tab_offers_is_there(
    paper: PaperDesk, size: tuple[int, int], language: Language
) -> None:
    async with speaking(paper, language, size) as hall:
        hall.type("/7\r\t")
        await hall.settled()
        offered = hall.app.clerk.offered
        assert len(offered) > 30
        seen = await all_parts(hall)
        assert seen == [word for text in offered for word in text.split()]
        assert line_row(hall.rows) < size[1] - 4
        await letters(hall, "nota no")
        hall.type(ESC)
        await hall.until(lambda: line_row(hall.rows) == size[1] - 4, "the rows to go back")


# -- more than there is room for --------------------------------------------------------------


async def all_parts(hall: Hall) -> list[str]:
    """The words under the line, from part to part until none is left; the last may overlap."""
    seen: dict[int, str] = {}
    for _ in range(20):
        rows = under(hall.rows)
        rest = REST.search(rows[-1])
        if rest is None:
            return [word for row in rows for word in row.split()]
        first, last, n = map(int, rest.groups())
        assert last - first + 1 == len(rows) - 1
        seen |= dict(enumerate(rows[:-1], start=first))
        if last == n:
            return [word for y in range(1, n + 1) for word in seen[y].split()]
        before = hall.text
        hall.type(PAGE_DOWN)
        await hall.until(lambda before=before: hall.text != before, "the next part")
    raise AssertionError("no end of it")


@pytest.fixture(scope="module")
def big(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """Three hundred benches that roll one vitola, which nobody has approved bunches of."""
    desk = Desk(tmp_path_factory.mktemp("big") / "data", lambda: NOON, "T1", "MC")
    text, _, benches = house_toml(300, 2).partition("[[bench]]")
    kept = '\n[[vitola]]\ncode = "gran"\nring = 54\nlength = "150 mm"\n\n[[bench]]'
    rolled = [row if "vitola =" not in row else 'vitola = "gran"' for row in benches.splitlines()]
    load(desk, text + kept + "\n".join(rolled))
    return desk


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_three_hundred_benches_in_one_question_can_all_be_read(
    big: Desk, size: tuple[int, int], language: Language
) -> None:
    async with speaking(big, language, size) as hall:
        hall.type("try gran.ring=55\r")
        await hall.until(lambda: hall.is_at("Line" if language == "en" else "Línea"), "Line")
        await hall.settled()
        hall.type("try save\r")
        await hall.shows("PgDn" if language == "en" else "AvPág")
        assert line_row(hall.rows) == 6, "the page keeps five rows"
        first = under(hall.rows)
        seen = await all_parts(hall)
        asked = hall.app.words.tell(hall.app.clerk.question())
        assert [*map(str, range(1, 300))] <= [word.strip(",") for word in seen]
        assert " ".join(seen) == " ".join(asked.split())
        top = hall.rows[:6]
        hall.type(PAGE_UP * 20)
        await hall.until(lambda: under(hall.rows) == first, "the first part")
        assert hall.rows[1:6] == top[1:6], "the page stays where it was"
        hall.type(ESC)
        await hall.until(lambda: line_row(hall.rows) == size[1] - 4, "the rows to go back")


async def test_beyond_the_end_of_a_message_the_key_turns_the_page(paper: PaperDesk) -> None:
    async with floor(paper, size=(60, 20)) as hall:
        hall.type("help\r")
        await hall.until(lambda: hall.is_at("Help"), "Help")
        await notice(hall, " ".join(f"word{n}" for n in range(150)))
        before = hall.rows[1:6]
        hall.type(PAGE_DOWN)
        await hall.shows("word149")
        assert hall.rows[1:6] == before
        hall.type(PAGE_DOWN)
        await hall.until(lambda: hall.rows[1:6] != before, "the page to turn")
        assert "word149" in hall.text


# -- the page above ---------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("page", ["board", "rounds"])
async def test_the_bench_under_the_cursor_stays_in_sight(
    big: Desk, size: tuple[int, int], page: str
) -> None:
    async with floor(big, size) as hall:
        if page == "rounds":
            hall.type(F2)
            await hall.until(lambda: hall.is_at("Rounds"), "Rounds")
        hall.type(DOWN * 11)
        await hall.settled()

        def here() -> list[str]:
            return [row.split()[1] for row in hall.rows[1:-3] if row.startswith("▸")]

        cursor = here()
        assert len(cursor) == 1
        for words in (30, 60, 300, 1):
            await notice(hall, "message " * words)
            await hall.settled()
            assert here() == cursor, hall.text


async def test_the_log_is_where_it_was_when_the_rows_are_back(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(F7)
        await hall.until(lambda: hall.is_at("Log"), "the Log")
        await notice(hall, "short")
        before = hall.rows
        await notice(hall, "message " * 60)
        assert line_row(hall.rows) < line_row(before)
        await notice(hall, "short")
        await hall.until(lambda: hall.rows == before, "the same picture")


# -- typing -----------------------------------------------------------------------------------


async def letters(hall: Hall, text: str) -> None:
    """Type it letter by letter; the line stays in its row, and so does the page."""
    row = line_row(hall.rows)
    page = hall.rows[1:row]
    for letter in text:
        hall.type(letter)
        await hall.settled()
        assert line_row(hall.rows) == row, f"{letter} of {text}\n{hall.text}"
        assert hall.rows[1:row] == page


@pytest.mark.parametrize(("size", "language"), EVERY)
@pytest.mark.parametrize("said", ["saved", "message " * 14, "message " * 40])
async def test_typing_moves_nothing(
    big: Desk, size: tuple[int, int], language: Language, said: str
) -> None:
    async with speaking(big, language, size) as hall:
        await notice(hall, said)
        for line in ("nota hoja", "7 abc", "7 15.3 15.6"):
            await letters(hall, line)
            hall.type("\x15")
            await hall.settled()
            assert told(hall.rows) == said.strip(), "what was said comes back"


@pytest.mark.parametrize("size", SIZES)
async def test_what_enter_would_do_is_whole_and_beside_it_what_was_said_or_none_of_it(
    paper: PaperDesk, size: tuple[int, int]
) -> None:
    async with floor(paper, size) as hall:
        await notice(hall, "saved, entry 1: " + "so it is " * 3)
        hall.type("7 10.8")
        await hall.shows("Enter: do: 7 10.8")
        assert told(hall.rows) == "Enter: do: 7 10.8 saved, entry 1: so it is so it is so it is"
        hall.type("\x15note " + "wet leaf " * 9)
        row = size[1] - 4
        await hall.until(lambda: told(hall.rows) == "Enter: do: note" + " wet leaf" * 9, "the rest")
        assert line_row(hall.rows) == row
        hall.type("\x15")
        done = ("message " * 14).strip()
        await notice(hall, done)
        assert line_row(hall.rows) == row - 1
        hall.type("7 10.8")
        await hall.shows("Enter: do: 7 10.8")
        assert told(hall.rows) == f"Enter: do: 7 10.8 {done}"
        assert line_row(hall.rows) == row - 1


async def test_why_a_line_was_refused_gives_way_to_the_next(paper: PaperDesk) -> None:
    async with floor(paper, (60, 20)) as hall:
        hall.type("7 hello\r")
        await hall.shows("not recorded:")
        why = told(hall.rows)
        assert line_row(hall.rows) == 16
        assert hall.rows[-2].strip()
        hall.type("7 10.8")
        await hall.shows("Enter: do: 7 10.8")
        assert told(hall.rows) == "Enter: do: 7 10.8"
        assert line_row(hall.rows) == 16
        hall.type("\x15")
        await hall.until(lambda: told(hall.rows) == why, "it to come back")
        assert line_row(hall.rows) == 16


async def test_a_meaning_of_many_rows_grows_and_does_not_shrink_until_the_line_is_done(
    paper: PaperDesk,
) -> None:
    async with floor(paper, (60, 20)) as hall:
        row = 16
        hall.type("note")
        for n in range(1, 30):
            hall.type(" wet leaf")
            await hall.settled()
            await hall.until(
                lambda n=n: told(hall.rows) == "Enter: do: note" + " wet leaf" * n, "it whole"
            )
            assert line_row(hall.rows) <= row
            row = line_row(hall.rows)
        assert row == 16 - 3
        hall.type("\x7f" * 200)
        await hall.settled()
        assert line_row(hall.rows) == row, "nothing moves while it is taken back"
        hall.type("\x15")
        await hall.until(lambda: line_row(hall.rows) == 16, "the rows to go back")


# -- on a terminal ----------------------------------------------------------------------------


def stands_whole(terminal: Terminal, text: str) -> Callable[[], bool]:
    return lambda: text in told(terminal.rows)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_long_note_is_told_whole_in_every_size_of_a_terminal(
    rooms: Rooms, language: Language
) -> None:
    note = " ".join(f"hoja{n}" for n in range(50))
    with rooms.floor(language) as terminal:
        terminal.type(f"note {note}\r")
        terminal.wait_for(stands_whole(terminal, note))
        for size in ((60, 20), (80, 20), (132, 43), (60, 24), (80, 24)):
            terminal.resize(*size)
            settle(terminal)
            terminal.wait_for(stands_whole(terminal, note))
            assert terminal.rows[-1].startswith(" F1 ")
            assert terminal.rows[2].startswith("▸")
        terminal.type("/17\r")
        terminal.wait_for(lambda: line_row(terminal.rows) == 20)
