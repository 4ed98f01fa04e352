"""A house book comes back from the records as it went in."""

from __future__ import annotations

from pathlib import Path

import orjson
import pytest

from core.house.model import HouseBook
from core.house.read import read_house
from core.house.stored import restore, store

ROOT = Path(__file__).parent.parent.parent


@pytest.mark.parametrize("file", ["demo/house.toml", "tests/desk/house.toml"])
def test_what_is_stored_comes_back(file: str) -> None:
    house = read_house((ROOT / file).read_bytes(), file).house
    assert house is not None
    kept = orjson.loads(orjson.dumps(store(house)))
    assert restore(kept) == house == HouseBook.model_validate(kept)


@pytest.mark.parametrize("other", [{}, {"house": 5}, {"house": {}, "blends": [{}]}])
def test_another_shape_is_an_error_the_shelf_knows(other: dict[str, object]) -> None:
    with pytest.raises((KeyError, TypeError, AttributeError)):
        restore(other)
