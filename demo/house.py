"""The demo house, read beforehand: reading it anew would load the unit library at every start.

`python -m demo.house` reads `house.toml` and writes `house.json` beside it.
"""

from __future__ import annotations

import sys
from pathlib import Path

from core.house.model import HouseBook

HOUSE_TOML = Path(__file__).with_name("house.toml")
HOUSE_JSON = HOUSE_TOML.with_suffix(".json")


def demo_house() -> HouseBook:
    """The house of `house.toml`, as `house.json` keeps it."""
    return HouseBook.model_validate_json(HOUSE_JSON.read_bytes())


def read_anew() -> str:
    """The text that `house.json` should have. Raises BadInput where the house has problems."""
    from core.desk.load import examine  # noqa: PLC0415 - costs the unit library
    from core.problems import BadInput  # noqa: PLC0415

    read = examine(HOUSE_TOML.read_bytes(), HOUSE_TOML.name)
    if read.house is None:
        raise BadInput(*read.problems)
    return read.house.model_dump_json(indent=1, exclude_defaults=True) + "\n"


if __name__ == "__main__":
    HOUSE_JSON.write_text(read_anew(), encoding="utf-8")
    sys.stdout.write(f"{HOUSE_JSON.name} written\n")
