"""Changes read from words, and the sheet they make."""

from __future__ import annotations

import pytest

from core.house.model import Approved, HouseBook, Station, Vitola
from core.line.change import Change, read_changes
from core.line.sheet import LineRow, line_sheet
from core.line.tried import whatif_json
from core.line.whatif import WhatIf, changed_house, what_if
from core.problems import BadInput
from tests.recipe.workshop import BLEND, VOLADO, workshop

TORO = Vitola(code="toro", ring=52, length_mm=150, price=900, piece_rate=60)
GORDO = Vitola(code="gordo", ring=60, length_mm=150)
TORPEDO = Vitola(
    code="torpedo",
    ring=54,
    length_mm=140,
    shape="figurado",
    profile=(Station(at_mm=0, ring=54), Station(at_mm=100, ring=54), Station(at_mm=140, ring=27)),
)
SPARE = VOLADO._replace(code="VO-9", strength=2.0)


def house() -> HouseBook:
    plain = workshop(
        TORO,
        GORDO,
        TORPEDO,
        approved=[Approved(vitola="toro", filler_g=16), Approved(vitola="gordo", filler_g=23)],
    )
    return plain._replace(leaves=(*plain.leaves, SPARE))


def tried(*words: str) -> WhatIf:
    of = house()
    return what_if(of, "B1", read_changes(words, of), {"SE-1": 0.15})


def row(of: WhatIf, vitola: str = "toro") -> LineRow:
    return next(each for each in of.changed.vitolas if each.vitola == vitola)


@pytest.mark.parametrize(
    ("word", "field", "code", "value"),
    [
        ("LI-1=1.5", "parts", "LI-1", 1.5),
        ("li-1=0", "parts", "LI-1", 0),
        ("LI-1 = 1,5", "parts", "LI-1", 1.5),
        ("toro.ring=50", "ring", "toro", 50),
        ("Toro.length=5 1/2 in", "length", "toro", 139.7),
        ("toro.length=140", "length", "toro", 140),
        ("LI-1.piece=1", "piece", "LI-1", 1),
        ("LI-1.half_leaf=2.5g", "half_leaf", "LI-1", 2.5),
        ("CA-1.half_leaf=2.5 g", "half_leaf", "CA-1", 2.5),
        ("LI-1.moisture=15%", "moisture", "LI-1", 0.15),
        ("BI-1.moisture=20", "moisture", "BI-1", 0.20),
    ],
)
def test_a_change(word: str, field: str, code: str, value: float) -> None:
    (found,) = read_changes([word], house())
    assert (found.field, found.code, found.said) == (field, code, word)
    assert found.value == pytest.approx(value)


@pytest.mark.parametrize(
    ("word", "says"),
    [
        ("toro", "is no change; write it as LI-2=1.5"),
        ("toro.ring=", "is no change"),
        ("LI-2=1", "no filler leaf has the code LI-2; did you mean LI-1?"),
        ("tora.ring=50", "no leaf or vitola has the code tora; did you mean toro?"),
        ("toro.rung=50", "toro has no rung to change; did you mean ring?"),
        ("CA-1.piece=1", "CA-1 has no piece to change"),
        ("CA-1=2", "CA-1 is a wrapper leaf; parts are of filler leaf"),
        ("toro.ring=500", "ring 500 is outside 16 to 100"),
        ("toro.ring=50mm", "expected a plain number"),
        ("LI-1.moisture=0.15", "outside 1 % to 60 % (a bare number is in %)"),
        ("LI-1.half_leaf=15%", "is a percentage"),
        ("LI-1=-1", "parts -1 is outside 0 to"),
        ("LI-1=nan", "expected a plain number"),
    ],
)
def test_what_is_no_change_is_said(word: str, says: str) -> None:
    with pytest.raises(BadInput) as found:
        read_changes([word], house())
    (problem,) = found.value.problems
    assert problem.place == word
    assert says in problem.says


def test_every_problem_is_told_and_nothing_is_changed_twice() -> None:
    with pytest.raises(BadInput) as found:
        read_changes(["toro.ring=50", "toro.ring=48", "x=1"], house())
    assert [problem.place for problem in found.value.problems] == ["toro.ring=48", "x=1"]


def test_no_change_makes_no_difference() -> None:
    found = tried()
    assert found.differences == ()
    assert found.changed == found.today


def test_new_parts_are_the_sheet_of_a_house_that_has_them() -> None:
    found = tried("LI-1=1", "VO-9=1")
    parts = [(part.leaf, part.parts) for part in BLEND.parts]
    assert parts == [("VO-1", 3), ("SE-1", 5), ("LI-1", 2)]
    by_leaf = {each.leaf: each.standard_g for each in row(found).classes}
    assert by_leaf == pytest.approx({"VO-1": 4.8, "VO-9": 1.6, "SE-1": 8.0, "LI-1": 1.6})
    assert found.changed.strength == pytest.approx(0.3 * 1 + 0.5 * 3 + 0.1 * 8 + 0.1 * 2)
    assert found.today == line_sheet(house(), "B1", {"SE-1": 0.15})


def test_a_leaf_of_no_parts_is_out() -> None:
    assert [each.leaf for each in row(tried("LI-1=0")).classes] == ["VO-1", "SE-1"]
    with pytest.raises(BadInput, match="leave no filler in blend B1"):
        tried("LI-1=0", "SE-1=0", "VO-1=0")


def test_another_ring_is_packed_by_todays_law() -> None:
    found = tried("toro.ring=56")
    assert found.changed.law._replace(approved={}) == found.today.law._replace(approved={})
    assert row(found).approved_g is None
    assert row(found).filler_standard_g == row(found).law_g
    assert 16 < row(found).law_g < 23
    assert row(found, "gordo").approved_g == 23
    assert found.notes == (
        "toro: its approved bunches were of another size, so the packing law speaks for it",
    )


def test_a_figurado_keeps_its_shape() -> None:
    of = house()
    other = changed_house(
        of, "B1", read_changes(["torpedo.ring=48", "torpedo.length=70 mm"], of)
    ).vitola["torpedo"]
    assert [s.at_mm for s in other.profile] == [0, 50, 70]
    assert [s.ring for s in other.profile] == pytest.approx([48, 48, 24])


def test_moisture_changes_the_scale_and_nothing_else() -> None:
    found = tried("SE-1.moisture=17%")
    assert {(d.figure, d.leaf) for d in found.differences} == {("exact_g", "SE-1")}
    toro = next(d for d in found.differences if d.vitola == "toro")
    assert toro.today == pytest.approx(8.0 * 0.87 / 0.85)
    assert toro.changed == pytest.approx(8.0 * 0.87 / 0.83)


def test_a_larger_piece_changes_what_is_laid() -> None:
    found = tried("LI-1.piece=1")
    assert [each.pieces for each in row(found).classes if each.leaf == "LI-1"] == [1]
    assert {d.leaf for d in found.differences if d.figure == "pieces"} == {"LI-1"}


def test_a_size_too_thin_is_left_out_and_differs_in_everything() -> None:
    of = house()
    thin = [Change("ring", "toro", 3, "toro.ring=3")]
    found = what_if(of, "B1", thin, {})
    assert [row.vitola for row in found.changed.vitolas] == ["gordo", "torpedo"]
    assert "no room for filler" in str(found.changed.problems[0])
    holds = next(d for d in found.differences if (d.vitola, d.figure) == ("toro", "holds"))
    assert (holds.today, holds.changed) == (True, None)


def test_the_json_has_both_sheets_and_the_differences() -> None:
    found = whatif_json(tried("LI-1=1"))
    assert list(found) == ["blend", "changes", "differences", "notes", "today", "changed"]
    assert found["changes"] == [{"field": "parts", "code": "LI-1", "value": 1.0, "said": "LI-1=1"}]
