"""Problems of a house book in Spanish: keys and tables as the file has them, all else told."""

from __future__ import annotations

import re

import pytest

from core.house.house_rules import HOUSE_KEYS, RUN_RULES
from core.house.leaves import COVER_KEYS, FILLER_KEYS, LEAF_KEYS
from core.house.read import LISTS, read_house
from core.house.vitolas import SHAPES, VITOLA_KEYS
from core.problems import Problem
from core.say import told
from core.tongue import tongue_of
from tests.house.books import EXAMPLE, edited
from tests.words.blanks import left_over

SPANISH = tongue_of("es")
IN_THE_FILE = {
    *HOUSE_KEYS,
    *LEAF_KEYS,
    *FILLER_KEYS,
    *COVER_KEYS,
    *VITOLA_KEYS,
    *LISTS,
    *SHAPES,
    *RUN_RULES,
    *("house", "excise", "toml", "LEAF", "mm", "min", "dial", "mmH", "lb", "volado", "medio"),
    *("seco", "viso", "ligero", "tiempo", "parts", "number", "tighter", "looser"),
    *("filler", "binder", "wrapper", "bunches", "en", "es", "buncher", "roller"),
}
"""What a house book is written with, whatever the language of whoever writes it."""
KEY_PARTS = {word for key in IN_THE_FILE for word in re.findall(r"[^\W\d_]{2,}", key)}

WRONG = (
    ('name = "Taller Ejemplo"', "", "[house]: falta name; se esperaba texto entre comillas"),
    (
        'scale_division = "0.1 g"',
        "",
        (
            '[house]: falta scale_division; se esperaba un peso como "15.5 g", "0.55 oz" o '
            '"34.5 lb/1000"'
        ),
    ),
    (
        'tolerance = "4 %"',
        "tolerance = 0.04",
        "[house]: tolerance 0.04 % no está entre 0.2 % y 50 % (un número solo va en %)",
    ),
    (
        'weigh_every = "60 min"',
        'weigh_every = "2 d"',
        '[house]: weigh_every 2880 min ("2 d") no está entre 1 min y 1440 min',
    ),
    (
        "readings = 5",
        "reading = 5",
        '[house]: campo desconocido "reading"; ¿quiso decir readings?',
    ),
    (
        "readings = 5",
        'rules = ["2 of 4"]',
        '[house]: rules "2 of 4" no es regla de control; ¿quiso decir "2 of 3"?',
    ),
    (
        'half_leaf = "1.4 g"',
        'half_leaf = "1.4 in"',
        (
            '[[leaf]] 1 "VO-11": half_leaf "1.4 in" es un largo; escriba un peso como "15.5 g", '
            '"0.55 oz" o "34.5 lb/1000"'
        ),
    ),
    (
        'half_leaf = "1.4 g"',
        "half_leaf = 1979-05-27",
        (
            '[[leaf]] 1 "VO-11": half_leaf debe ser un peso como "15.5 g", "0.55 oz" o '
            '"34.5 lb/1000", no una fecha'
        ),
    ),
    (
        'class = "seco"',
        'class = "sceo"',
        (
            '[[leaf]] 2 "SE-20": class debe ser volado | seco | viso | ligero | medio tiempo, no '
            '"sceo"; ¿quiso decir "seco"?'
        ),
    ),
    (
        '"LI-2" = 2',
        '"BI-7" = 2',
        '[[blend]] 1 "B4": parts: "BI-7" es hoja de capote; las partes son de hoja de tripa',
    ),
    (
        '["152.4 mm", 24]',
        '["150 mm", 24]',
        '[[vitola]] 3 "torpedo": profile termina en 150 mm; debe terminar en el largo, 152.4 mm',
    ),
    (
        'draw = ["40 mmH2O", "90 mmH2O"]',
        'draw = ["40 mmH2O"]',
        (
            '[[vitola]] 2 "toro": draw debe ser dos presiones, ["40 mmH2O", "90 mmH2O"], o dos '
            'lecturas de dial, ["3 dial", "7 dial"]; hay una lista de 1'
        ),
    ),
    (
        "bunches = 30",
        "bunches = 1.5",
        "[[approved]] 1: bunches debe ser un número entero, no 1.5",
    ),
    (
        'number = "7-A"',
        "number = 7",
        '[[bench]] 2 "7": el número 7 ya lo tiene la entrada 1; cada una lleva el suyo',
    ),
    (
        'blend = "B4"\nvitola = "toro"\nquota',
        'blend = "B5"\nvitola = "toro"\nquota',
        '[[bench]] 1 "7": blend "B5": ninguna [[blend]] tiene ese código',
    ),
)


def found_in(text: bytes | str) -> tuple[Problem, ...]:
    read = read_house(text, "h.toml")
    return (*read.problems, *read.odd)


def spanish(text: bytes | str) -> list[str]:
    return [told(problem.said, SPANISH) for problem in found_in(text)]


@pytest.mark.parametrize(("right", "wrong", "line"), WRONG, ids=range(len(WRONG)))
def test_a_problem_is_told(right: str, wrong: str, line: str) -> None:
    assert spanish(edited((right, wrong))) == [f"h.toml: {line}"]


@pytest.mark.parametrize(("right", "wrong", "_line"), WRONG, ids=range(len(WRONG)))
def test_nothing_of_a_problem_stays_english(right: str, wrong: str, _line: str) -> None:
    text = edited((right, wrong))
    written = set(re.findall(r"[^\W\d_]{2,}", text))
    for problem in found_in(text):
        assert left_over(problem.said) <= KEY_PARTS | written


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("", "h.toml: está vacío; un libro de la casa empieza con [house]"),
        (
            "[house]\nname 7",
            "h.toml: línea 2, columna 6: no es TOML: tras el nombre de un campo se esperaba '='",
        ),
        ("[house]\n[house]", "h.toml: línea 2, columna 7: no es TOML: house está dos veces"),
        ("[house]\nx = 'a", 'h.toml: línea 2, columna 7: no es TOML: se esperaba "\'"'),
        (
            "[[vitolas]]",
            (
                'h.toml: tabla desconocida "vitolas"; ¿quiso decir [[vitola]]?\n'
                "h.toml: no tiene [house]; con ella empieza un libro de la casa"
            ),
        ),
    ],
)
def test_what_is_no_house_book_is_told(text: str, line: str) -> None:
    assert "\n".join(spanish(text)) == line


def test_what_nothing_says_how_to_pack_names_one_bench_or_several() -> None:
    start, end = EXAMPLE.index("[[approved]]"), EXAMPLE.index("[[bench]]")
    several = EXAMPLE[:start] + EXAMPLE[end:]
    one = several[: several.rindex("[[bench]]")]
    assert spanish(one)[0].startswith(
        'h.toml: [[blend]] 1 "B4": la mesa 7 la tuerce, pero nada dice cómo se llena'
    )
    assert str(found_in(one)[0]).startswith('h.toml: [[blend]] 1 "B4": bench 7 rolls it, but')
    assert spanish(several)[0].startswith('h.toml: [[blend]] 1 "B4": las mesas 7, 7-A la tuercen')


def test_what_is_odd_is_told() -> None:
    assert spanish(edited(('half_leaf = "3.4 g"', 'half_leaf = "1 g"'))) == [
        (
            'h.toml: [[leaf]] 5 "CA-3": half_leaf por pieces 2.205 lb por 1000 no es usual; lo '
            "común es de 6 a 10 lb por 1000"
        )
    ]
    assert spanish(edited(('half_leaf = "2.0 g"', 'half_leaf = "3 g"'))) == [
        'h.toml: [[leaf]] 2 "SE-20": half_leaf de seco 3 g no es usual; lo común es de 1.5 a 2.5 g'
    ]
