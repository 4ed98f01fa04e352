from __future__ import annotations

import pytest

from core.nearest import nearest


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("lenght", "length"),
        ("LENGHT", "length"),
        ("rign", "ring"),
        ("corona", None),
        ("", None),
        ("r" * 100_000, None),
    ],
)
def test_the_nearest_of_the_known_words(typed: str, meant: str | None) -> None:
    assert nearest(typed, ["ring", "length", "shape"]) == meant


def test_a_word_is_given_as_it_is_spelled() -> None:
    assert nearest("se20", ["SE-20", "LI-2"]) == "SE-20"


def test_none_is_near_where_none_is_known() -> None:
    assert nearest("ring", []) is None
