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
    assert 'parts = { "SE-1" = 6.0, "LI-1" = 1.5 }' in text
    old, new = HOUSE_TOML.splitlines(), text.splitlines()
    assert [row for row in old if row not in new] == ['parts = { "SE-1" = 6, "LI-1" = 4 }']
    assert desk.loaded.blend["B1"].shares["LI-1"] == 0.2
    assert desk.line.shown().trial is None


def test_a_size_and_a_leaf_keep_their_comments(desk_at: Callable[..., Desk]) -> None:
    desk = desk_at()
    load(desk, HOUSE_TOML + UNAPPROVED)
    text = _saved(desk, "gran.ring=56 gran.length=150 SE-1.half_leaf=2.1 SE-1.piece=0.5")
    assert 'code = "gran"  # new\nring = 56.0 # wide\nlength = "150.0 mm"' in text
    assert 'code = "SE-1"\npiece = 0.5\n' in text
    leaf = desk.loaded.filler["SE-1"]
    assert (leaf.half_leaf_g, leaf.piece) == (2.1, 0.5)


@pytest.mark.parametrize(
    ("tried", "why"),
    [
        ("", "nothing is tried"),
        ("toro.ring=50", "approved bunches of toro were of another size"),
        ("LI-1.moisture=16%", "moisture is measured"),
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
