"""The line sheet: one blend in every size."""

from __future__ import annotations

import pytest

from core.house.model import Approved, HouseBook, Vitola
from core.line.sheet import LineRow, line_sheet
from core.problems import BadInput
from core.recipe.card import recipe_card
from tests.recipe.workshop import BINDER, FILLERS, WRAPPER, workshop

ROBUSTO = Vitola(code="robusto", ring=50, length_mm=127)
LANCERO = Vitola(code="lancero", ring=38, length_mm=190)
GORDO = Vitola(code="gordo", ring=60, length_mm=152.4)
SLIVER = Vitola(code="sliver", ring=3, length_mm=100)

LINE = (LANCERO, ROBUSTO, GORDO)
ENTRIES = (
    Approved(vitola="robusto", filler_g=11.0, bunches=20),
    Approved(vitola="gordo", filler_g=21.0, bunches=20),
)


def house(*more: Vitola) -> HouseBook:
    return workshop(*more, *LINE, approved=ENTRIES)


def rows(of: HouseBook, reference: str | None = None) -> dict[str, LineRow]:
    sheet = line_sheet(of, "B1", {}, reference=reference)
    return {row.vitola: row for row in sheet.vitolas}


def test_every_vitola_of_the_house_is_on_the_sheet() -> None:
    sheet = line_sheet(house(), "B1", {})
    assert [row.vitola for row in sheet.vitolas] == ["lancero", "robusto", "gordo"]
    assert set(sheet.smallest_ring) == {"lancero", "robusto", "gordo"}
    assert sheet.problems == ()
    assert [row.beyond for row in sheet.vitolas] == [True, False, False]


def test_a_thin_size_draws_a_puff_faster_through_its_ember() -> None:
    """Cores of ring 50 and 38: 18.64375 and 13.88125 mm; their ratio squared is 1.803887."""
    found = rows(house(), "robusto")
    assert found["robusto"].air_speed == 1
    assert found["lancero"].air_speed == pytest.approx(1.803887, abs=5e-7)
    assert found["gordo"].air_speed < 1


def test_the_first_vitola_is_the_reference_unless_told() -> None:
    assert rows(house())["lancero"].air_speed == 1
    assert line_sheet(house(), "B1", {}).reference == "lancero"


def test_the_figures_are_the_cards() -> None:
    of, wet = house(), {"SE-1": 0.16}
    for row in line_sheet(of, "B1", wet).vitolas:
        card = recipe_card(of, blend="B1", vitola=row.vitola, moistures=wet)
        assert row.filler_standard_g == card.packing.filler_standard_g
        assert row.law_g == card.packing.law_g
        assert [c.leaf for c in row.classes] == [c.leaf for c in card.classes]
        assert [c.exact_g for c in row.classes] == [c.exact_g for c in card.classes]
        laid_g = card.binder.on_bunch_g + card.wrapper.on_bunch_g
        finished_g = card.packing.filler_standard_g + laid_g
        assert row.cover_share == pytest.approx(laid_g / finished_g)
        assert row.wrapper_share == pytest.approx(card.wrapper.on_bunch_g / finished_g)


def test_covers_are_more_of_a_thin_cigar() -> None:
    found = rows(house())
    assert (
        found["lancero"].wrapper_share
        > found["robusto"].wrapper_share
        > found["gordo"].wrapper_share
    )


def test_per_thousand() -> None:
    """11.0 g a bunch are 11 kg per 1,000, 24.2508 lb."""
    robusto = rows(house())["robusto"]
    assert robusto.filler_kg_per_1000 == 11
    assert robusto.filler_lb_per_1000 == pytest.approx(24.2508, abs=5e-5)


def test_a_size_as_laid_worked_by_hand() -> None:
    """11 g: 3.3, 5.5, 2.2 g in half half-leaves of 0.75, 1.0, 1.5 g: 4, 6 (5.5, up) and 1.

    Laid 3.0, 6.0, 1.5: 9.1 %, 9.1 %, 31.8 % off. Strength (3×1 + 6×3 + 1.5×8) / 10.5.
    """
    robusto = rows(house())["robusto"]
    assert [c.standard_g for c in robusto.classes] == pytest.approx([3.3, 5.5, 2.2])
    assert [c.pieces for c in robusto.classes] == [4, 6, 1]
    assert [c.piece_error for c in robusto.classes] == pytest.approx(
        [0.3 / 3.3, 0.5 / 5.5, 0.7 / 2.2]
    )
    assert robusto.holds is False
    assert robusto.strength_laid == pytest.approx(33 / 10.5)


def test_the_blend_is_as_strong_in_every_size_that_can_be_laid_finely() -> None:
    """Common practice: the same blend in the same parts is meant to taste the same."""
    fine = tuple(leaf._replace(piece=0.001) for leaf in FILLERS)
    sheet = line_sheet(workshop(*LINE, approved=ENTRIES, leaves=(*fine, BINDER, WRAPPER)), "B1", {})
    assert sheet.strength == pytest.approx(0.3 * 1 + 0.5 * 3 + 0.2 * 8)
    for row in sheet.vitolas:
        assert row.holds
        assert row.strength_laid == pytest.approx(sheet.strength, rel=1e-3)


def test_strength_is_unknown_where_a_leaf_has_no_score() -> None:
    leaves = (FILLERS[0], FILLERS[1]._replace(strength=None), FILLERS[2], BINDER, WRAPPER)
    sheet = line_sheet(workshop(*LINE, approved=ENTRIES, leaves=leaves), "B1", {})
    assert sheet.strength is None
    assert {row.strength_laid for row in sheet.vitolas} == {None}


def test_a_vitola_that_cannot_be_rolled_is_named_and_the_rest_stand() -> None:
    sheet = line_sheet(house(SLIVER), "B1", {})
    assert [row.vitola for row in sheet.vitolas] == ["lancero", "robusto", "gordo"]
    assert sheet.reference == "lancero"
    assert [problem.place for problem in sheet.problems] == ['[[vitola]] "sliver" in blend "B1"']


@pytest.mark.parametrize(
    ("of", "reference", "says"),
    [
        (house(), "petit", "no vitola petit"),
        (house(SLIVER), "sliver", "no room for filler"),
        (workshop(*LINE), None, "weigh approved bunches"),
        (workshop(approved=()), None, "weigh approved bunches"),
        (
            workshop(
                *LINE,
                approved=ENTRIES,
                leaves=(*FILLERS, BINDER, WRAPPER._replace(half_leaf_g=0.01)),
            ),
            None,
            "cannot cover it",
        ),
    ],
)
def test_no_sheet_without_what_it_needs(of: HouseBook, reference: str | None, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        line_sheet(of, "B1", {}, reference=reference)


def test_an_unknown_blend() -> None:
    with pytest.raises(BadInput, match="no blend B9"):
        line_sheet(house(), "B9", {})
