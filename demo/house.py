"""The demo house."""

from __future__ import annotations

from pathlib import Path

from core.desk.load import examine
from core.house.model import HouseBook
from core.problems import BadInput

HOUSE_TOML = Path(__file__).with_name("house.toml")


def demo_house() -> HouseBook:
    """The house of `house.toml`. Raises BadInput where somebody has broken it."""
    read = examine(HOUSE_TOML.read_bytes(), HOUSE_TOML.name)
    if read.house is None:
        raise BadInput(*read.problems)
    return read.house


def in_use(house: HouseBook) -> tuple[str, ...]:
    """The leaf that goes to the benches, in the house book's order; the rest is in reserve."""
    rolled = [(*blend.shares, blend.binder, blend.wrapper) for blend in house.blends]
    return tuple(code for code in house.leaf if any(code in each for each in rolled))
