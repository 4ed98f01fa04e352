"""House books for the tests: invented, and short enough to read beside what they come to."""

from __future__ import annotations

import json
from pathlib import Path

from core.house.model import HouseBook
from core.house.read import read_house

DEMO = Path(__file__).parents[2] / "demo" / "house.toml"

EXAMPLE = """\
[house]
name = "Taller Ejemplo"
language = "en"
currency = "USD"
standard_moisture = "13 %"
scale_division = "0.1 g"
tolerance = "4 %"
rounding_limit = "2 %"
portion_limit = "15 %"
weigh_every = "60 min"
readings = 5

[[leaf]]
code = "VO-11"
use = "filler"
class = "volado"
moisture = "13.5 %"
half_leaf = "1.4 g"

[[leaf]]
code = "SE-20"
name = "Seco, upper valley"
use = "filler"
class = "seco"
moisture = "14.0 %"
half_leaf = "2.0 g"
piece = 0.5
price = 21.0
strength = 3.0

[[leaf]]
code = "LI-2"
use = "filler"
class = "ligero"
moisture = "14.6 %"
half_leaf = "3.2 g"

[[leaf]]
code = "BI-7"
use = "binder"
moisture = "18 %"
half_leaf = "2.4 g"
pieces = 2
build = "0.35 mm"
on_cigar = "60 g/m^2"
overlap = "30 %"
price = 24.0

[[leaf]]
code = "CA-3"
use = "wrapper"
moisture = "24 %"
half_leaf = "3.4 g"
build = "0.20 mm"
on_cigar = "45 g/m^2"

[[blend]]
code = "B4"
name = "Demo blend four"
parts = { "VO-11" = 3, "SE-20" = 5, "LI-2" = 2 }
binder = "BI-7"
wrapper = "CA-3"

[[vitola]]
code = "robusto"
ring = 50
length = "5 in"

[[vitola]]
code = "toro"
ring = 52
length = "6 in"
shape = "parejo"
draw = ["40 mmH2O", "90 mmH2O"]
piece_rate = 62.0
box = 38.0
price = 310.0

[[vitola]]
code = "torpedo"
ring = 52
length = "6 in"
shape = "figurado"
profile = [["0 mm", 52], ["120 mm", 52], ["152.4 mm", 24]]
tolerance = "0.5 g"

[[approved]]
blend = "B4"
vitola = "toro"
filler = "17.9 g"
bunches = 30
spread = "0.4 g"

[[bench]]
number = 7
buncher = "P-07"
roller = "R-07"
blend = "B4"
vitola = "toro"
quota = 300

[[bench]]
number = "7-A"
blend = "B4"
vitola = "robusto"
"""


def edited(*edits: tuple[str, str]) -> str:
    """The example with each first text replaced by the second, where it stands first."""
    text = EXAMPLE
    for old, new in edits:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def problems(text: bytes | str) -> list[str]:
    """The lines a house book's problems are printed as."""
    return [str(problem) for problem in read_house(text, "h.toml").problems]


def odd(text: str) -> list[str]:
    """The warning lines of a house book that loads."""
    assert problems(text) == []
    return [str(line) for line in read_house(text, "h.toml").odd]


def house(text: str) -> HouseBook:
    """The house of a text that has no problem."""
    read = read_house(text, "h.toml")
    assert read.house is not None, read.problems
    return read.house


def toml(value: object) -> str:
    """A value as TOML writes it in line; lists broken so that no line grows too long."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{toml(str(k))} = {toml(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ",\n".join(map(toml, value)) + "]"
    if isinstance(value, str):
        return json.dumps(value).replace("\x7f", "\\u007f")
    return repr(value)


def document(data: dict[str, object]) -> str:
    """A whole document of top-level keys."""
    return "\n".join(f"{toml(key)} = {toml(value)}" for key, value in data.items())
