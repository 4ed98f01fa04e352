"""An answer as it is written into the house book, held against the house book's own rules."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from core.desk.load import examine
from core.desk.start.book import as_toml
from core.desk.start.questions import QUESTIONS, Question, asked, completed
from core.desk.start.usual import LEAVES, Answers
from core.house import limits
from core.house.fields import Fields
from core.house.read import Read, read_house
from core.house.written import Written, take_apart
from core.problems import Problem
from core.say import Said, joined, say, say_as

FILE = "house.toml"
SIZED = "vitola.ring"
"""With its answer a size is known."""

IN_OTHER_WORDS: Mapping[str, str] = {
    "english": "en",
    "inglés": "en",
    "ingles": "en",
    "español": "es",
    "espanol": "es",
    "spanish": "es",
    "prensado": "pressed",
    "recto": "parejo",
    "straight": "parejo",
    "medio": "medio tiempo",
}


_CODES: Mapping[str, str] = {"pressed": say_as("shape", "pressed")}


class Taken(NamedTuple):
    """The answers with one more, and what is unusual about that; None where nothing is."""

    answers: dict[str, str]
    noted: Problem | None


class Refused(NamedTuple):
    """Why an answer is not taken: what was expected and found, and one that would be."""

    says: Said


def answered(answers: Answers, question: Question, typed: str, usual: str) -> Taken | Refused:
    """The answers with `typed` for the question, where that makes a sound house.

    Every question without an answer is given what is usual, and the whole house book is read,
    so that each limit and rule is the house book's own. Whether it can be rolled is asked once
    the size is known: leaf that does not cover the usual size may cover the house's. `usual`
    is what is told as an example, and taken for an empty line.
    """
    value = as_written(question, typed.strip() or usual)
    if isinstance(value, Refused):
        return Refused(_with_example(value.says, usual))
    taken = {**answers, question.key: value}
    read = house_of(taken, rolled=SIZED in taken)
    if read.house is None:
        return Refused(_with_example(_of(question, read.problems[0].says), usual))
    return Taken(taken, _new_oddity(read, house_of(answers, rolled=False)))


def house_of(answers: Answers, *, rolled: bool = True) -> Read:
    """The house book of the answers and what is usual for the rest, read; examined if `rolled`."""
    return (examine if rolled else read_house)(as_toml(completed(answers), "en"), FILE)


def as_written(question: Question, typed: str) -> str | Refused:
    """The answer as the house book has it: units added where none was typed, known words."""
    if question.options:
        word = typed.casefold()
        word = IN_OTHER_WORDS.get(word, word)
        if word == "figurado" and word in question.options:
            return Refused(question.why)
        return word if word in question.options else typed
    if question.kind is not None:
        written = take_apart(typed)
        bare = isinstance(written, Written) and not written.unit
        return f"{typed} {question.kind.unit}" if bare else typed
    read = _READ.get(question.key)
    return typed if read is None else read(typed)


def _time(typed: str) -> str:
    return f"{typed}:00" if typed.isdecimal() else typed


def _number(typed: str) -> str | Refused:
    """A number as TOML has it."""
    written = take_apart(typed)
    if isinstance(written, Written) and not written.unit:
        number = written.number
        return str(number) if number.denominator == 1 else repr(float(number))
    return Refused(say('expected a number, found "{found}"', found=typed))


def _parts(typed: str) -> str | Refused:
    words = typed.split()
    if len(words) != LEAVES:
        return Refused(
            say(
                'expected {n} numbers with blanks between, one a leaf, found "{found}"',
                n=LEAVES,
                found=typed,
            )
        )
    numbers: list[str] = []
    for word in words:
        number = _number(word)
        if isinstance(number, Refused):
            return number
        numbers.append(number)
    return " ".join(numbers)


def _count(typed: str) -> str | Refused:
    """How many benches: as many as a list of a house book may have."""
    number = _number(typed)
    if isinstance(number, Refused):
        return number
    fields = Fields("", {"benches": float(number)})
    count = fields.whole("benches", limits.Range(1, limits.ENTRIES))
    if count is None:
        return Refused(joined("", (fields.problems[0].says,)))
    return str(count)


_READ: Mapping[str, Callable[[str], str | Refused]] = {
    "day_begins": _time,
    "binder.pieces": _number,
    "wrapper.pieces": _number,
    "blend.parts": _parts,
    "vitola.ring": _number,
    "benches": _count,
}


def _of(question: Question, says: str) -> str:
    """The fault with the question's short name where it names the house book's key."""
    if not isinstance(says, Said):
        return says
    named = {
        blank: question.label
        for blank, key in says.made.values.items()
        if blank in ("key", "name") and isinstance(key, str) and question.key.endswith(key)
    }
    return says.format(**{**says.made.values, **named}) if named else says


def _with_example(says: str, usual: str) -> Said:
    return say("{fault}; for example: {usual}", fault=says, usual=usual)


def _new_oddity(read: Read, before: Read) -> Problem | None:
    """What is unusual now and was not before."""
    known = {problem.says for problem in before.odd}
    return next((problem for problem in read.odd if problem.says not in known), None)


def summary(answers: Answers) -> tuple[tuple[Said, str], ...]:
    """What was answered, in the questions' order: in a word or two, and the answer."""
    return tuple((q.label, worded(answers[q.key])) for q in QUESTIONS if q.key in answers)


def worded(answer: str) -> str:
    """The answer, a code of the house book as a word that may be told in another language."""
    return _CODES.get(answer, answer)


def number_of(question: Question) -> int:
    """The question's place, from 1."""
    return QUESTIONS.index(question) + 1


def question_told(question: Question, answers: Answers) -> Said:
    """Where one is, and the question."""
    place = say("{n} of {all}", n=number_of(question), all=len(QUESTIONS))
    return joined(": ", (place, asked(question, answers)))
