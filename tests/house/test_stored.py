"""A house book comes back from the records as it went in."""

from __future__ import annotations

from pathlib import Path

import orjson
import pytest
from pydantic import TypeAdapter

from core.house.model import HouseBook
from core.house.read import read_house
from core.house.stored import restore, store
from tests.house.books import edited, house

HOUSE_BOOK = TypeAdapter(HouseBook)
ROOT = Path(__file__).parent.parent.parent


@pytest.mark.parametrize("file", ["demo/house.toml", "tests/desk/house.toml"])
def test_what_is_stored_comes_back(file: str) -> None:
    read = read_house((ROOT / file).read_bytes(), file).house
    assert read is not None
    kept = orjson.loads(orjson.dumps(store(read)))
    assert restore(kept) == read == HOUSE_BOOK.validate_python(kept)


def test_a_dial_comes_back_as_a_dial() -> None:
    text = edited(('["40 mmH2O", "90 mmH2O"]', '["3 dial", "7 dial"]\ndraw_rises = "looser"'))
    kept = orjson.loads(orjson.dumps(store(house(text))))
    assert restore(kept) == house(text) == HOUSE_BOOK.validate_python(kept)


@pytest.mark.parametrize(
    "other",
    [{}, {"house": 5}, {"house": "abc"}, {"house": {}, "blends": [{}]}, {"house": {"newer": 1}}],
)
def test_another_shape_is_an_error_the_shelf_knows(other: dict[str, object]) -> None:
    with pytest.raises((KeyError, TypeError, ValueError, AttributeError)):
        restore(other)


def test_chosen_run_rules_come_back_in_their_order() -> None:
    chosen = house(edited(("readings = 5", 'readings = 5\nrules = ["beyond", "6 in a row"]')))
    kept = orjson.loads(orjson.dumps(store(chosen)))
    assert restore(kept) == chosen
    assert restore(kept).house.rules == ("beyond", "run")
