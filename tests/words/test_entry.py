"""The entry line in Spanish: what is wrong with a line, and what Help shows."""

from __future__ import annotations

import re
from string import Formatter

import pytest

from core.entry import requests as ask
from core.entry.faults import FAULT_WORDS, FAULTS, Fault, fault_name
from core.entry.numbers import WITH_UNITS
from core.entry.parse import parse
from core.entry.tokens import fold
from core.entry.words import FORM_WORDS, FORMS, GRAMMAR, LOT_WORDS, ORDER_WORDS, Example, Form
from core.measure import MEASURES
from core.say import told
from core.tongue import tongue_of
from tests.entry.room import BENCHES, BLENDS, COVER, FILLER, VITOLAS, asked, refused, room
from tests.entry.test_refused import SHORT, WRONG

SPANISH = tongue_of("es")
MISTAKES = [marked.replace("»", "") for marked, _ in (*WRONG, *SHORT)]


class Mute:
    """A language without letters: what it leaves was said by nobody, or typed."""

    def gettext(self, message: str) -> str:
        parts = Formatter().parse(message)
        return " ".join(
            f"{{{name}{':' + spec if spec else ''}}}" for _, name, spec, _ in parts if name
        )

    def pgettext(self, _context: str, message: str) -> str:
        return self.gettext(message)

    def ngettext(self, _one: str, many: str, _n: int) -> str:
        return self.gettext(many)


def _in_spanish(line: str, at: str | None = None) -> str:
    return told(refused(line, at).says, SPANISH)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("99", "se esperaba una mesa, no 99: van de 3 a 118"),
        (
            "tabler",
            "se esperaba una mesa, una palabra o una hoja, no tabler: ¿quiso decir tablero?",
        ),
        (
            "7 hecos 50",
            "se esperaba un peso o una palabra como hechos, no hecos: ¿quiso decir hechos?",
        ),
        ("hechos 50", "antes de hechos falta una mesa: escríbalo como 7 hechos 50"),
        ("7 hechos", "tras hechos falta la cantidad: complete la línea"),
        (
            "7 hechos 50.0",
            "se esperaba la cantidad, de 1 a 100000, no 50.0: escriba un número entero",
        ),
        ("7 15.3x", "se esperaba un peso en g, kg, mg, oz o lb, no 15.3x: corrija la unidad"),
        ("7 0", "se esperaba un peso de más de cero, no 0: vuelva a leer"),
        (
            "7 toma LI-2 1,500",
            "se esperaba un peso, no 1,500, que puede ser 1.500 o 1500: escriba uno de los dos",
        ),
        (
            "7 toma XX 5",
            "se esperaba una hoja, no XX: escriba uno de VO-11, SE-20, LI-2, BI-7, CA-3",
        ),
        (
            "7 toma LI-2 450 24-118",
            "tras 450 no va nada más y hay 24-118: un lote se escribe lote 24-118",
        ),
        (
            "7 falla 3",
            (
                "se esperaba una falla, no 3: escriba su palabra y luego la cantidad, como roto 1; "
                "Tab las muestra"
            ),
        ),
        ("LI-2 14.2", "se esperaba una humedad con su %, no 14.2: escríbala como LI-2 14.2%"),
        (
            "porqué",
            "porqué es de una ficha y no hay ninguna abierta: escriba antes una mesa, como 7",
        ),
        ("", "falta una mesa o una palabra: escriba 7, o ayuda"),
    ],
)
def test_what_is_wrong_with_a_line(line: str, says: str) -> None:
    assert _in_spanish(line) == says


def test_what_is_wrong_on_a_card() -> None:
    assert _in_spanish("15.3 15.6", "7") == (
        "en una ficha va una lectura por línea y hay más tras 15.3: o empiece por la mesa"
    )
    assert _in_spanish("15.3", "99") == "la mesa 99 ya no está en el libro de la casa: abra otra"


def test_a_house_without_benches() -> None:
    unread = parse("7", room(benches=()), None)
    assert isinstance(unread, ask.Unread)
    assert told(unread.says, SPANISH) == (
        "se esperaba una mesa, no 7: no hay en el libro de la casa"
    )


@pytest.mark.parametrize("line", MISTAKES, ids=ascii)
def test_a_sentence_fits_a_line(line: str) -> None:
    says = _in_spanish(line)
    assert says != refused(line).says
    assert len(says) <= 105


@pytest.mark.parametrize("line", MISTAKES, ids=ascii)
def test_nothing_is_said_past_the_catalogue(line: str) -> None:
    words = (FORM_WORDS, ORDER_WORDS, FAULT_WORDS, LOT_WORDS)
    known = {spelling for each in words for spelling in each.folded}
    known |= {*map(fold, (*BENCHES, *BLENDS, *COVER, *FILLER, *VITOLAS))}
    units = {unit for quantity in WITH_UNITS for unit in quantity.factors}
    for word in re.findall(r"[^\s,]*[^\W\d_][^\s,]*", told(refused(line).says, Mute())):
        code = re.fullmatch(r"0{0,3}[0-9A-F]{1,4}", word)
        assert fold(word) in known | units or code or word.removesuffix("...") in line


@pytest.mark.parametrize("example", GRAMMAR, ids=lambda example: example.typed)
def test_an_example_can_be_typed_in_spanish_and_asks_for_the_same(example: Example) -> None:
    typed = told(example.typed, SPANISH)
    at = "7" if "on a card:" in example.does else None
    found, meant = asked(typed, at), asked(example.typed, at)
    assert type(found) is type(meant)
    assert _without_text(found) == _without_text(meant)


def _without_text(request: ask.Request) -> tuple[object, ...]:
    """What is asked for, less what a person may put in words, and where it stands."""
    return tuple(
        value
        for name, value in request._asdict().items()
        if name not in ("text", "reason", "at") and not (name == "words" and value)
    )


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.means)
def test_a_word_is_shown_by_its_first_spelling_in_spanish(form: Form) -> None:
    typed = [told(example.typed, SPANISH).split() for example in form.examples]
    assert all(form.es[0] in words for words in typed)


@pytest.mark.parametrize("example", GRAMMAR, ids=lambda example: example.typed)
def test_help_has_the_same_room_in_spanish(example: Example) -> None:
    typed, does = told(example.typed, SPANISH), told(example.does, SPANISH)
    assert does != example.does
    assert len(typed) <= 26
    assert len(does) <= 60


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.code)
def test_a_fault_is_called_by_its_first_word(fault: Fault) -> None:
    assert fault_name(fault.code) == fault.code
    assert told(fault_name(fault.code), SPANISH) == fault.es[0]
    assert told(fault.means, SPANISH) != fault.means


def test_a_fault_nobody_knows_keeps_its_code() -> None:
    assert fault_name("singed") == "singed"


def test_what_is_measured() -> None:
    assert [told(name, SPANISH) for name in MEASURES.values()] == [
        "tripa", "porción", "bonche", "puro", "mazo", "cepo", "largo", "tiro",
    ]  # fmt: skip
