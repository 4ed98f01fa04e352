"""The questions that make a house: what is asked, why, and what is usual, in their order."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from core.desk.start.usual import (
    LEAVES,
    Answers,
    always,
    code_of_class,
    code_of_use,
    filler,
    half_leaf,
    in_language,
)
from core.house import amounts
from core.house.amounts import Kind
from core.house.language import LANGUAGES
from core.house.model import LAYING_ORDER
from core.house.vitolas import SHAPES
from core.say import Said, say, say_as


class Question(NamedTuple):
    """One question. `asks` and `why` may name earlier answers; `usual` follows from them.

    `options` are the only words it takes, `kind` the kind of amount, where it is either.
    """

    key: str
    label: Said
    asks: Said
    why: Said
    usual: Callable[[Answers], str]
    kind: Kind | None = None
    options: tuple[str, ...] = ()


def asked(question: Question, answers: Answers) -> Said:
    """The question, with earlier answers named in it."""
    return _filled(question.asks, answers)


def because(question: Question, answers: Answers) -> Said:
    """Why it is asked, with earlier answers named in it."""
    return _filled(question.why, answers)


def completed(answers: Answers) -> dict[str, str]:
    """The answers, and what is usual for every question without one."""
    whole: dict[str, str] = {}
    for question in QUESTIONS:
        # What was answered is known to the usual of what was not: no code is given twice.
        known = {**answers, **whole}
        whole[question.key] = answers.get(question.key) or question.usual(known)
    return whole


def _filled(said: Said, answers: Answers) -> Said:
    blanks = {key.replace(".", "_"): value for key, value in answers.items()}
    return said.format(**blanks) if "{" in said else said


_USUAL_CLASSES = ("volado", "seco", "ligero")


def _leaf(n: int) -> tuple[Question, ...]:
    key = f"leaf{n}"
    return (
        Question(
            f"{key}.class",
            say("leaf {n}, class", n=n),
            say("Filler leaf {n} of {all}: which class is it?", n=n, all=LEAVES),
            say(
                "{classes}: from bottom leaf to top leaf, laid in that order",
                classes=", ".join(LAYING_ORDER),
            ),
            always(_USUAL_CLASSES[n - 1]),
            options=LAYING_ORDER,
        ),
        Question(
            f"{key}.code",
            say("leaf {n}, code", n=n),
            say("What is the code of filler leaf {n}?", n=n),
            say("as the store calls it, without blanks: it is typed on the entry line"),
            code_of_class(key),
        ),
        Question(
            f"{key}.half_leaf",
            say("leaf {n}, half-leaf", n=n),
            say("What does one stemmed half-leaf of filler leaf {n} weigh?", n=n),
            say("the card shows half-leaves beside the grams"),
            half_leaf(key),
            amounts.WEIGHT,
        ),
    )


_HOUSE = (
    Question(
        "language",
        say("language"),
        say("Which language does the house speak, en or es?"),
        say("screens, papers and the notes in the house book are in it"),
        always("en"),
        options=LANGUAGES,
    ),
    Question(
        "name",
        say("house"),
        say("What is the house called?"),
        say("it stands at the top of screens and papers"),
        in_language(say("Our house")),
    ),
    Question(
        "scale_division",
        say("scale's division"),
        say("What is the smallest step of the bench scales?"),
        say("grams on the cards are rounded to it"),
        always("0.1 g"),
        amounts.WEIGHT,
    ),
    Question(
        "standard_moisture",
        say("standard moisture"),
        say("At which moisture are weights told?"),
        say("the house's standard, wet basis; today's leaf is reckoned to it and from it"),
        always("13 %"),
        amounts.SHARE,
    ),
    Question(
        "day_begins",
        say("day begins"),
        say("When does the working day begin?"),
        say("a night shift is then one day; 00:00 is midnight"),
        always("00:00"),
    ),
)

_COVERS = (
    Question(
        "moisture",
        say("filler, moisture"),
        say("How moist is the filler leaf?"),
        say("as last measured, wet basis; each leaf is measured anew on the floor"),
        always("14 %"),
        amounts.SHARE,
    ),
    Question(
        "binder.code",
        say("binder, code"),
        say("What is the code of the binder leaf?"),
        say("every blend has one binder and one wrapper"),
        code_of_use(say_as("code of a leaf", "BI")),
    ),
    Question(
        "binder.half_leaf",
        say("binder, half-leaf"),
        say("What does one half-leaf of the binder weigh?"),
        say("a bunch on the scale has its binder on"),
        always("2.4 g"),
        amounts.WEIGHT,
    ),
    Question(
        "binder.pieces",
        say("binder, pieces"),
        say("How many half-leaves of binder are on one bunch?"),
        say("together they must cover it; 0.5 is a piece of one"),
        always("1"),
    ),
    Question(
        "wrapper.code",
        say("wrapper, code"),
        say("What is the code of the wrapper leaf?"),
        say("every blend has one binder and one wrapper"),
        code_of_use(say_as("code of a leaf", "WR")),
    ),
    Question(
        "wrapper.half_leaf",
        say("wrapper, half-leaf"),
        say("What does one half-leaf of the wrapper weigh?"),
        say("for the leaf that is issued; less of it stays on the cigar"),
        always("3.5 g"),
        amounts.WEIGHT,
    ),
    Question(
        "wrapper.pieces",
        say("wrapper, pieces"),
        say("How many half-leaves of wrapper are on one cigar?"),
        say("together they must cover it; 0.5 is a piece of one"),
        always("1"),
    ),
    Question(
        "cover_moisture",
        say("covers, moisture"),
        say("How moist are binder and wrapper?"),
        say("as last measured, wet basis; wetter than the filler"),
        always("20 %"),
        amounts.SHARE,
    ),
)

_ROLLED = (
    Question(
        "blend.code",
        say("blend, code"),
        say("What is the code of the blend?"),
        say("the recipe's short name; more blends are added in the file"),
        always("B1"),
    ),
    Question(
        "blend.parts",
        say("blend, parts"),
        say("How many parts by weight of {leaf1_code}, {leaf2_code} and {leaf3_code}?"),
        say("three numbers with blanks between, in that order"),
        always("3 5 2"),
    ),
    Question(
        "vitola.code",
        say("vitola, code"),
        say("What is the first vitola called?"),
        say("a size; one word, as typed on the entry line"),
        always("toro"),
    ),
    Question(
        "vitola.length",
        say("vitola, length"),
        say("How long is {vitola_code}?"),
        say("with mm or in behind it; a bare number is mm"),
        always("6 in"),
        amounts.LENGTH,
    ),
    Question(
        "vitola.ring",
        say("vitola, ring"),
        say("Which ring gauge has {vitola_code}?"),
        say("in 64ths of an inch"),
        always("52"),
    ),
    Question(
        "vitola.shape",
        say("vitola, shape"),
        say("Is {vitola_code} parejo (straight) or pressed?"),
        say("a figurado needs its profile: begin with a straight one, add it in the file"),
        always("parejo"),
        options=SHAPES,
    ),
    Question(
        "filler",
        say("filler in a bunch"),
        say("How much filler is in one approved bunch of {vitola_code}?"),
        say("the mean of bunches found right, without binder: the house packs to it"),
        filler,
        amounts.WEIGHT,
    ),
    Question(
        "benches",
        say("benches"),
        say("How many benches roll {vitola_code}?"),
        say("numbered from 1; pairs and quotas are added in the file"),
        always("1"),
    ),
)

QUESTIONS: tuple[Question, ...] = (
    *_HOUSE,
    *(question for n in range(1, LEAVES + 1) for question in _leaf(n)),
    *_COVERS,
    *_ROLLED,
)
