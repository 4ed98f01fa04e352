"""A house by question and answer: each answer held against the house book's own rules, and the
house book that is written from them.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from core.desk.load import examine
from core.desk.start.book import as_toml
from core.desk.start.check import Refused, Taken, answered, house_of
from core.desk.start.questions import QUESTIONS, Question, asked, because, completed
from core.house.model import LAYING_ORDER, CoverLeaf, FillerLeaf, HouseBook
from core.say import told
from core.tongue import tongue_of

QUESTION = {question.key: question for question in QUESTIONS}


def given_answers(**typed: str) -> dict[str, str]:
    """Every question answered in order: as typed where it is (`vitola__ring` is vitola.ring),
    else by an empty line.
    """
    answers: dict[str, str] = {}
    for question in QUESTIONS:
        line = typed.get(question.key.replace(".", "__"), "")
        taken = answered(answers, question, line, question.usual(answers))
        assert isinstance(taken, Taken), (question.key, taken)
        answers = taken.answers
    return answers


def before(key: str) -> dict[str, str]:
    """The usual answers to all that is asked before that question."""
    answers: dict[str, str] = {}
    for question in QUESTIONS[: QUESTIONS.index(QUESTION[key])]:
        answers[question.key] = question.usual(answers)
    return answers


def outcome(key: str, typed: str) -> Taken | Refused:
    answers = before(key)
    question = QUESTION[key]
    return answered(answers, question, typed, question.usual(answers))


def house(answers: dict[str, str], language: str = "en") -> HouseBook:
    read = examine(as_toml(answers, "es" if language == "es" else "en"), "house.toml")
    assert read.house is not None, read.problems
    return read.house


# -- the usual answers --------------------------------------------------------------------------


@pytest.mark.parametrize("language", ["en", "es"])
def test_empty_answers_make_a_usual_house_without_a_remark(language: str) -> None:
    answers = given_answers(language=language)
    assert house_of(answers).odd == ()
    made = house(answers, language)
    assert made.house.language == language
    assert [leaf.use for leaf in made.leaves] == ["filler"] * 3 + ["binder", "wrapper"]
    assert list(made.bench) == ["1"]


def test_the_book_says_exactly_what_was_answered() -> None:
    answers = given_answers(
        language="es",
        name='Taller "El Ejemplo" \\ 2',
        scale_division="0,05",
        standard_moisture="12.5",
        day_begins="6",
        leaf1__class="Seco",
        leaf1__code="SE-20",
        leaf1__half_leaf="0.07 oz",
        leaf2__class="viso",
        leaf2__code="VI-3",
        leaf2__half_leaf="2.6",
        leaf3__class="medio tiempo",
        leaf3__code="MT-1",
        leaf3__half_leaf="3 g",
        moisture="14.4 %",
        binder__code="BI-7",
        binder__half_leaf="2.2 g",
        wrapper__code="CA-3",
        wrapper__half_leaf="3 g",
        cover_moisture="21",
        blend__code="B4",
        blend__parts="5 3,5 1.5",
        vitola__code="robusto",
        vitola__length="5 in",
        vitola__ring="50",
        vitola__shape="prensado",
        filler="34.5 lb/1000",
        benches="12",
    )
    made = house(answers, "es")
    rules = made.house
    assert (rules.name, rules.language) == ('Taller "El Ejemplo" \\ 2', "es")
    assert rules.scale_division_g == pytest.approx(0.05)
    assert rules.standard_moisture == pytest.approx(0.125)
    assert rules.day_begins == "06:00"
    assert [(leaf.code, leaf.leaf_class) for leaf in made.filler.values()] == [
        ("SE-20", "seco"),
        ("VI-3", "viso"),
        ("MT-1", "medio tiempo"),
    ]
    # International avoirdupois ounce and pound: NIST Handbook 44, appendix C.
    assert made.filler["SE-20"].half_leaf_g == pytest.approx(0.07 * 28.349523125)
    assert [leaf.moisture for leaf in made.filler.values()] == pytest.approx([0.144] * 3)
    covers = [leaf for leaf in made.leaves if isinstance(leaf, CoverLeaf)]
    assert [(leaf.code, leaf.half_leaf_g, leaf.moisture) for leaf in covers] == [
        ("BI-7", 2.2, 0.21),
        ("CA-3", 3.0, 0.21),
    ]
    assert made.blend["B4"].shares == {"SE-20": 0.5, "VI-3": 0.35, "MT-1": 0.15}
    size = made.vitola["robusto"]
    assert (size.ring, size.length_mm) == (50, 127)
    assert size.shape == "pressed"
    assert made.approved[0].filler_g == pytest.approx(34.5 * 453.59237 / 1000)
    assert [bench.number for bench in made.benches] == [str(n) for n in range(1, 13)]


CODES = st.from_regex(r"[A-Za-z]{2,4}-[A-Za-z0-9]{1,4}", fullmatch=True)
GRAMS = st.floats(3, 20).map(lambda grams: round(grams, 3))


@settings(deadline=None, max_examples=12)
@given(
    name=st.text(min_size=1, max_size=60).filter(
        lambda text: text.isprintable() and bool(text.strip()) and text.strip() != "<"
    ),
    codes=st.lists(CODES, min_size=5, max_size=5, unique_by=str.casefold),
    classes=st.lists(st.sampled_from(LAYING_ORDER), min_size=3, max_size=3),
    half_leaves=st.lists(GRAMS, min_size=5, max_size=5),
    parts=st.lists(st.integers(1, 99), min_size=3, max_size=3),
    ring=st.integers(30, 70),
    length_mm=st.integers(90, 240),
    benches=st.integers(1, 40),
    language=st.sampled_from(["en", "es"]),
)
@example('"\\', ["VO-1", "SE-1", "LI-1", "BI-1", "WR-1"], ["seco"] * 3, [1.0] * 5, [1] * 3, 50, 127, 1, "es")  # fmt: skip # noqa: E501
def test_what_is_written_reads_back_as_what_was_answered(
    name: str,
    codes: list[str],
    classes: list[str],
    half_leaves: list[float],
    parts: list[int],
    ring: int,
    length_mm: int,
    benches: int,
    language: str,
) -> None:
    answers = given_answers(
        language=language,
        name=name,
        **{f"leaf{n}__class": leaf_class for n, leaf_class in enumerate(classes, 1)},
        **{f"leaf{n}__code": code for n, code in enumerate(codes[:3], 1)},
        **{f"leaf{n}__half_leaf": str(grams) for n, grams in enumerate(half_leaves[:3], 1)},
        binder__code=codes[3],
        binder__half_leaf=f"{half_leaves[3]} g",
        wrapper__code=codes[4],
        wrapper__half_leaf=f"{half_leaves[4]}g",
        blend__parts=" ".join(map(str, parts)),
        vitola__ring=str(ring),
        vitola__length=f"{length_mm} mm",
        benches=str(benches),
    )
    made = house(answers, language)
    assert made.house.name == unicodedata.normalize("NFC", name.strip())
    assert [leaf.code for leaf in made.leaves] == codes
    assert [leaf.half_leaf_g for leaf in made.leaves] == pytest.approx(half_leaves)
    assert [leaf.leaf_class for leaf in made.leaves if isinstance(leaf, FillerLeaf)] == classes
    assert [part.parts for part in made.blends[0].parts] == parts
    assert (made.vitolas[0].ring, made.vitolas[0].length_mm) == (ring, length_mm)
    assert len(made.benches) == benches


# -- wrong answers ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "typed", "says"),
    [
        ("language", "fr", 'language must be en | es, not "fr"; for example: en'),
        ("name", "x" * 61, "house is longer than 60 characters; for example: Our house"),
        ("scale_division", "0", "scale's division 0 g is outside 0.0001 g to 100 g"),
        (
            "scale_division",
            "heavy",
            'scale\'s division "heavy" is not an amount; write a weight like',
        ),
        ("standard_moisture", "0.13", "standard moisture 0.13 % is outside 1 % to 60 %"),
        ("day_begins", "25", 'day begins must be a time such as "06:00" in quotes, not "25:00"'),
        ("leaf1.class", "secco", "class must be volado | seco | viso | ligero | medio tiempo, not"),
        ("leaf2.code", "vo-1", 'the code "vo-1" is taken by entry 1; each must have its own'),
        ("leaf1.code", "12", 'code "12" reads as a number or a bench on the entry line'),
        ("leaf1.code", "two words", "may hold only letters, digits, - _ and . (no blanks)"),
        ("leaf3.half_leaf", "3 in", 'half-leaf "3 in" is a length; write a weight like'),
        ("moisture", "99", "moisture 99 % is outside 1 % to 60 %"),
        ("binder.code", "SE-1", 'the code "SE-1" is taken by entry 2'),
        ("blend.parts", "3 5", 'expected 3 numbers with blanks between, one a leaf, found "3 5"'),
        ("blend.parts", "3 five 2", 'expected a number, found "five"'),
        ("blend.parts", "3 0 2", 'parts of "SE-1" 0 is outside 1e-06 to 1e+06'),
        ("vitola.length", "6", "length 6 mm is outside 20 mm to 500 mm; for example: 6 in"),
        ("vitola.length", "1,500", 'length "1,500" can mean 1.500 or 1500'),
        ("vitola.ring", "5", "ring 5 is outside 16 to 100; for example: 52"),
        ("vitola.ring", "thick", 'expected a number, found "thick"; for example: 52'),
        ("vitola.shape", "figurado", "a figurado needs its profile"),
        ("filler", "0.1 g", "filler in a bunch 0.1 g is outside 0.2 g to 200 g"),
        ("benches", "0", "benches 0 is outside 1 to 2000; for example: 1"),
        ("benches", "2.5", "benches must be a whole number, not 2.5"),
        ("benches", "9" * 20, "benches 1e+20 is outside 1 to 2000"),
    ],
)
def test_a_wrong_answer_is_told_at_once_with_one_that_would_do(
    key: str, typed: str, says: str
) -> None:
    found = outcome(key, typed)
    assert isinstance(found, Refused)
    assert says in found.says
    assert "; for example: " in found.says
    assert told(found.says, tongue_of("es")) != found.says


def test_what_is_possible_but_unusual_is_taken_and_told() -> None:
    found = outcome("leaf1.half_leaf", "9")
    assert isinstance(found, Taken)
    assert found.noted is not None
    assert "half_leaf of volado 9 g is unusual; 1 to 1.8 g is common" in found.noted.says


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(QUESTIONS), st.text(max_size=80))
@example(QUESTION["name"], "\x7f\ud800")
@example(QUESTION["leaf1.code"], '"')
@example(QUESTION["vitola.ring"], "1/0")
@example(QUESTION["vitola.ring"], "9e99")
@example(QUESTION["blend.parts"], "1 2 \u00b2")
@example(QUESTION["day_begins"], "\u00b2")
@example(QUESTION["benches"], "-1")
@example(QUESTION["language"], "../en")
def test_no_answer_does_more_than_be_taken_or_refused(question: Question, typed: str) -> None:
    found = outcome(question.key, typed)
    if isinstance(found, Taken):
        assert house_of(found.answers).house is not None


@pytest.mark.parametrize(
    "typed",
    [
        {"vitola__ring": "16", "vitola__length": "20 mm"},
        {
            "vitola__ring": "100",
            "vitola__length": "500 mm",
            "wrapper__half_leaf": "30",
            "binder__half_leaf": "30",
        },
        {"scale_division": "10 g"},
        {"standard_moisture": "60", "moisture": "1", "cover_moisture": "60"},
        {"leaf1__half_leaf": "30", "binder__half_leaf": "0.1", "binder__pieces": "10"},
        {"filler": "200 g", "benches": "2000"},
    ],
)
def test_the_farthest_a_house_book_allows_leads_to_no_dead_end(typed: dict[str, str]) -> None:
    made = house(given_answers(**typed))
    assert made.benches


# -- the text -----------------------------------------------------------------------------------


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_key_that_is_suggested_may_be_put_into_use(language: str) -> None:
    text = as_toml(given_answers(language=language), "es" if language == "es" else "en")
    used = re.sub(r"^# (\w+ = )", r"\1", text, flags=re.MULTILINE)
    assert used != text
    read = examine(used, "house.toml")
    assert read.house is not None, read.problems
    assert read.odd == ()


def test_the_notes_are_in_the_houses_language() -> None:
    text = as_toml(given_answers(language="es"), "es")
    assert "menor paso de las balanzas" in text
    assert "smallest step" not in text
    assert tomllib.loads(text)["house"]["language"] == "es"
    assert max(map(len, text.splitlines())) <= 100


def test_questions_name_what_was_answered_before() -> None:
    answers = completed({"vitola.code": "corona"})
    assert asked(QUESTION["vitola.length"], answers) == "How long is corona?"
    for question in QUESTIONS:
        for said in (asked(question, answers), because(question, answers)):
            assert "{" not in said
            assert told(said, tongue_of("es")) != said
