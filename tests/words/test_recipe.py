"""Where a card's figures come from, and what keeps it from being rolled, in Spanish."""

from __future__ import annotations

from typing import Any

import pytest

from core.house.model import Vitola
from core.problems import BadInput
from core.recipe.card import Card, card_json, recipe_card, rollable
from core.recipe.why import UNITS
from core.say import told
from core.tongue import tongue_of
from tests.house.books import EXAMPLE, house
from tests.recipe.workshop import LEAVES, WRAPPER, workshop
from tests.words.blanks import left_over

SPANISH = tongue_of("es")
CODES = {"VO", "SE", "LI", "BI", "CA"}
SIGNS = {"", "mm", "mm²", "g"}
TORO = Vitola(code="toro", ring=52, length_mm=152.4)


def card(vitola: str = "toro", text: str = EXAMPLE) -> Card:
    return recipe_card(house(text), blend="B4", vitola=vitola, moistures={"SE-20": 0.15})


def test_the_steps_behind_a_card_are_told() -> None:
    steps = {told(step.step, SPANISH): told(step.source, SPANISH) for step in card().why}
    assert steps["cepo"] == "el libro de la casa"
    assert steps["capote y capa en el radio"] == "capote BI-7 0.35 + capa CA-3 0.2"
    assert steps["ley de empaque, p"] == "solo volumen"
    assert steps["ley de empaque, a"] == "1 aprobado de B4"
    assert steps["tripa a humedad estándar"] == "media de 30 bonches aprobados de esta vitola"
    assert steps["SE-20: parte"] == "5 de 10 partes"
    assert steps["SE-20: humedad"] == "la que rige ahora"
    assert steps["LI-2: humedad"] == "la que da el libro de la casa"
    assert steps["LI-2: medias hojas"] == "gramos estándar ÷ 3.2 g, al 0.5 más cercano"
    assert steps["capa CA-3 en el puro, hoy"] == "gramos estándar a su humedad"
    assert steps["bonche: meta"] == "tripa + capote BI-7 que lleva hoy"
    assert steps["puro: máximo"] == "meta + tolerancia"


@pytest.mark.parametrize("division", ["0.1 g", "0.5 g", "5 g"])
def test_nothing_of_a_step_stays_english(division: str) -> None:
    found = card("robusto", EXAMPLE.replace('"0.1 g"', f'"{division}"'))
    for step in found.why:
        assert left_over(step.step) | left_over(step.source) <= CODES
        assert step.unit in UNITS or step.unit in SIGNS or step.unit.startswith(("mm^", "g/mm^"))
    for warning in found.warnings:
        assert left_over(warning) <= CODES | {"robusto"}


def test_units_that_are_words_are_told() -> None:
    assert [told(unit, SPANISH) for unit in UNITS.values()] == [
        "64avos de pulgada",
        "fracción",
        "divisiones",
        "medias hojas",
        "bonches",
    ]


def test_json_is_english_whoever_reads_it() -> None:
    written: Any = card_json(card(), why=True)
    assert written["why"][0] == {
        "step": "ring gauge",
        "value": 52.0,
        "unit": "64ths of an inch",
        "from": "the house book",
    }


def test_a_batch_and_its_warning_are_told() -> None:
    found = card(text=EXAMPLE.replace('"0.1 g"', '"0.5 g"'))
    assert told(found.warnings[-1], SPANISH) == (
        "el redondeo desvía LI-2 4.0 % en un bonche, más de 2 %: porcione 5 bonches juntos"
    )
    steps = {told(step.step, SPANISH): told(step.source, SPANISH) for step in found.why}
    assert steps["tanda"] == "los menos en que toda clase queda dentro de 2 %"
    assert steps["LI-2 para la tanda"] == "gramos exactos × bonches, en la balanza"


def test_a_size_beyond_the_approved_ones_is_told() -> None:
    assert [told(warning, SPANISH) for warning in card("robusto").warnings] == [
        "ajuste exacto: no se puede saber su error",
        (
            "robusto está fuera de las medidas aprobadas: cepo 50, aprobado de 52 a 52; pese "
            "bonches aprobados de esa vitola"
        ),
    ]


def test_what_keeps_a_vitola_from_being_rolled_is_told() -> None:
    short = WRAPPER._replace(half_leaf_g=0.01)
    sliver = TORO._replace(ring=2)
    with pytest.raises(BadInput) as raised:
        recipe_card(
            workshop(sliver, leaves=(*LEAVES[:4], short)),
            blend="B1",
            vitola="toro",
            moistures={"SE-1": 1.0},
        )
    lines = told(raised.value.said, SPANISH).split("\n")
    assert lines[0] == (
        '[[vitola]] "toro" en la liga "B1": no queda lugar para la tripa: mide 0.79 mm de grueso '
        "y capote y capa toman 1.20 mm; dé un cepo mayor o capote y capa más finos"
    )
    assert lines[1].startswith('[[leaf]] "SE-1": la humedad no puede ser 100 %')
    assert lines[2].startswith('[[vitola]] "toro" en la liga "B1": capa CA-1 no alcanza a cubrirlo')
    assert lines[3].startswith('[[blend]] "B1": nada dice cuánto se llena')
    assert left_over(raised.value.said) <= {"vitola", "leaf", "blend", "toro", "SE", "CA"}


def test_a_code_that_is_not_there_is_told() -> None:
    (problem,) = rollable(workshop(TORO), "B1", "petit")
    assert (
        told(problem.said, SPANISH)
        == "el libro de la casa no tiene la vitola petit; sus vitolas: toro"
    )
    (problem,) = rollable(workshop(), "B1", "petit")
    assert told(problem.said, SPANISH) == (
        "el libro de la casa no tiene la vitola petit; sus vitolas: ninguna"
    )
