"""What was tried becomes the house book: its own text with the change, checked, asked once."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake, Question, Recorded
from core.desk.load import examine
from core.house.edit import with_value
from tests.desk.conftest import HOUSE_TOML, load

UNAPPROVED = '\n[[vitola]]\ncode = "gran"  # new\nring = 54 # wide\nlength = "6 in"\n'


def _saved(desk: Desk, tried: str) -> str:
    desk.enter(f"try {tried}", None)
    question = desk.enter("try save", None)
    assert isinstance(question, Question), question
    before = desk.house_version
    outcome = desk.enter(question.line, None, sure=True)
    assert isinstance(outcome, Recorded), outcome
    assert desk.follow() is not None
    assert desk.house_version == before + 1
    return str(desk.shelf.source(desk.house_version)["toml"])


def test_new_parts_are_in_force_and_only_their_line_is_another(desk: Desk) -> None:
    text = _saved(desk, "LI-1=1.5")
    assert 'parts = { "SE-1" = 6, "LI-1" = 1.5 }' in text
    old, new = HOUSE_TOML.splitlines(), text.splitlines()
    assert [row for row in old if row not in new] == ['parts = { "SE-1" = 6, "LI-1" = 4 }']
    assert desk.loaded.blend["B1"].shares["LI-1"] == 0.2
    assert desk.line.shown().trial is None


def test_a_size_and_a_leaf_keep_their_comments(desk_at: Callable[..., Desk]) -> None:
    desk = desk_at()
    load(desk, HOUSE_TOML + UNAPPROVED)
    text = _saved(desk, "gran.ring=56 gran.length=150 SE-1.half_leaf=2.1 SE-1.piece=0.5")
    assert 'code = "gran"  # new\nring = 56 # wide\nlength = "150 mm"' in text
    assert 'code = "SE-1"\npiece = 0.5\n' in text
    leaf = desk.loaded.filler["SE-1"]
    assert (leaf.half_leaf_g, leaf.piece) == (2.1, 0.5)


@pytest.mark.parametrize(
    ("tried", "why"),
    [
        ("", "nothing is tried"),
        ("LI-1.moisture=16%", "moisture is measured, not saved: type LI-1 16% when it is so"),
    ],
)
def test_what_must_not_be_saved_says_why(desk: Desk, tried: str, why: str) -> None:
    if tried:
        desk.enter(f"try {tried}", None)
    for sure in (False, True):
        refused = desk.enter("prueba guarda", None, sure=sure)
        assert isinstance(refused, Mistake)
        assert why in refused.says
    assert len(desk.shelf) == 1


def test_a_changed_size_with_approved_bunches_becomes_a_size_of_its_own(desk: Desk) -> None:
    desk.enter("try toro.ring=50 LI-1=1.5", None)
    question = desk.enter("try save", None)
    assert isinstance(question, Question)
    assert question.says == (
        "save toro.ring=50, LI-1=1.5 in the house book; toro-50 is new, toro stays as approved"
    )
    desk.enter(question.line, None, sure=True)
    desk.follow()
    toro, new = desk.loaded.vitola["toro"], desk.loaded.vitola["toro-50"]
    assert (toro.ring, new.ring, new.length_mm) == (52, 50, toro.length_mm)
    assert [each.vitola for each in desk.loaded.approved].count("toro-50") == 0
    assert desk.loaded.benches == desk.shelf[1].benches
    text = str(desk.shelf.source(2)["toml"])
    assert examine(text, "house.toml").house == desk.loaded


def test_a_new_size_may_be_named(desk: Desk) -> None:
    text = _saved(desk, "toro.length=140 as torito")
    assert desk.loaded.vitola["torito"].length_mm == 140
    assert text.index('code = "toro"') < text.index('code = "torito"')
    assert [row for row in HOUSE_TOML.splitlines() if row not in text.splitlines()] == []


@pytest.mark.parametrize(
    ("tried", "why"),
    [
        ("toro.ring=50 as corona", "there is a vitola corona already"),
        ("toro.ring=50 como 7", "reads as a number"),
        ("LI-1=2 as toro2", "a code is for a changed size, and none is changed"),
        ("toro.ring=50 corona.ring=43 as thin", "2 are changed: toro, corona"),
    ],
)
def test_a_code_that_cannot_be_is_refused_as_it_is_tried(desk: Desk, tried: str, why: str) -> None:
    refused = desk.enter(f"try {tried}", None)
    assert isinstance(refused, Mistake)
    assert why in refused.says


def test_moisture_stays_out_of_what_is_saved_and_that_is_said(desk: Desk) -> None:
    desk.enter("try LI-1=1.5 LI-1.moisture=16%", None)
    question = desk.enter("try save", None)
    assert isinstance(question, Question)
    assert question.says == (
        "save LI-1=1.5 in the house book; moisture stays out: type LI-1 16% when measured"
    )


SHAPED = """
[[vitola]]
code = "punta"
ring = 54
length = "150 mm"
shape = "figurado"
profile = [                        # from the foot
  ["0 mm", 54],
  ["101 mm", 51],
  ["150 mm", 20],
]

# Benches and the rest.
"""


@pytest.mark.parametrize("code", ["", " as punta2"])
def test_a_shaped_size_is_saved_with_its_profile(desk_at: Callable[..., Desk], code: str) -> None:
    desk = desk_at()
    load(desk, HOUSE_TOML + SHAPED)
    text = _saved(desk, f"punta.ring=47 punta.length=143{code}")
    found = desk.loaded.vitola["punta2" if code else "punta"]
    assert (found.profile[0].ring, found.profile[-1].at_mm) == (47, 143)
    assert found.profile[1].ring == pytest.approx(51 * 47 / 54, abs=1e-3)
    assert text.count("# from the foot") == (2 if code else 1)
    assert text.count("# Benches and the rest.") == 1


def test_parts_written_as_a_table_of_their_own_are_left_to_a_hand(
    desk_at: Callable[..., Desk],
) -> None:
    text = HOUSE_TOML.replace('parts = { "SE-1" = 6, "LI-1" = 4 }\n', "").replace(
        "[[vitola]]", '[blend.parts]\n"SE-1" = 6\n"LI-1" = 4\n\n[[vitola]]', 1
    )
    assert examine(text, "house.toml").house is not None
    desk = desk_at()
    load(desk, text)
    desk.enter("try LI-1=1.5", None)
    assert isinstance(desk.enter("try save", None, sure=True), Mistake)
    assert len(desk.shelf) == 1


def test_a_house_book_loaded_meanwhile_is_not_written_over(desk_at: Callable[..., Desk]) -> None:
    desk, other = desk_at("T1"), desk_at("T2")
    load(desk)
    desk.enter("try LI-1=1.5", None)
    load(other, HOUSE_TOML.replace("readings = 3", "readings = 5"))
    refused = desk.enter("try save", None, sure=True)
    assert isinstance(refused, Mistake)
    assert "meanwhile" in refused.says
    assert len(other.shelf) == 2


def test_a_code_in_another_table_is_let_be() -> None:
    text = "[[leaf]]\ncode = \"A\"\npiece = 1\n[[vitola]]\r\ncode = 'A'\r\nring = 50\r\n"
    assert with_value(text, "vitola", "A", "ring", "52") == text.replace("50", "52")
    assert with_value(text, "vitola", "B", "ring", "52") is None


def test_a_yes_to_what_is_no_longer_tried_is_asked_again(desk: Desk) -> None:
    desk.enter("try LI-1=2", None)
    first = desk.enter("try save", None)
    assert isinstance(first, Question)
    desk.enter("try LI-1=9", None)
    again = desk.enter(first.line, None, sure=True)
    assert isinstance(again, Question)
    assert "LI-1=9" in again.says
    assert len(desk.shelf) == 1
    assert isinstance(desk.enter(again.line, None, sure=True), Recorded)
    assert len(desk.shelf) == 2
