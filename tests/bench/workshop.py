"""Big houses and full days to measure on, invented and seeded."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from core.desk.desk import Desk
from core.desk.load import examine

NOON = dt.datetime(2026, 5, 4, 12, 0, tzinfo=dt.UTC)
CLASSES = ("volado", "seco", "viso", "ligero", "medio tiempo")


def house_toml(benches: int, vitolas: int) -> str:
    """A house of that many benches and vitolas with one blend of five classes."""
    return "\n".join(
        (_HOUSE, *_fillers(), *_vitolas(vitolas), *_approved(vitolas), *_benches(benches, vitolas))
    )


_HOUSE = """
[house]
name = "Bench house"
standard_moisture = "13 %"
scale_division = "0.1 g"

[[leaf]]
code = "BI"
use = "binder"
moisture = "18 %"
half_leaf = "4 g"
pieces = 2
build = "0.35 mm"
on_cigar = "60 g/m^2"
price = 24

[[leaf]]
code = "WR"
use = "wrapper"
moisture = "20 %"
half_leaf = "4 g"
build = "0.15 mm"
on_cigar = "45 g/m^2"
price = 60

[[blend]]
code = "B1"
binder = "BI"
wrapper = "WR"
parts = { F0 = 2, F1 = 4, F2 = 2, F3 = 1, F4 = 1 }
"""


def _fillers() -> Iterator[str]:
    for n, name in enumerate(CLASSES):
        yield (
            f'[[leaf]]\ncode = "F{n}"\nuse = "filler"\nclass = "{name}"\nmoisture = "14 %"\n'
            f'half_leaf = "{1.2 + 0.5 * n:g} g"\nprice = {20 + n}\nstrength = {2 * n + 1}'
        )


def _vitolas(vitolas: int) -> Iterator[str]:
    for n in range(vitolas):
        yield (
            f'[[vitola]]\ncode = "v{n}"\nring = {42 + n % 19}\nlength = "{110 + 0.4 * n:g} mm"\n'
            "piece_rate = 60\nbox = 38\nprice = 310"
        )


def _approved(vitolas: int) -> Iterator[str]:
    for n in (0, vitolas // 3, vitolas // 2, 2 * vitolas // 3, vitolas - 1):
        grams = 0.00020 * (42 + n % 19) ** 2.2 * (110 + 0.4 * n) / 10
        yield f'[[approved]]\nvitola = "v{n}"\nfiller = "{grams:.2f} g"\nbunches = 20'


def _benches(benches: int, vitolas: int) -> Iterator[str]:
    for n in range(1, benches + 1):
        yield (
            f'[[bench]]\nnumber = {n}\nbuncher = "P-{n:03d}"\nroller = "R-{n:03d}"\n'
            f'blend = "B1"\nvitola = "v{n % vitolas}"\nquota = 300'
        )


def desk(folder: Path, benches: int = 300, vitolas: int = 8) -> Desk:
    """A desk on a fresh data folder with such a house in force, at noon of one day."""
    opened = Desk(folder, lambda: NOON, "T1")
    text = house_toml(benches, vitolas)
    read = examine(text, "bench.toml")
    assert read.house is not None, read.problems
    opened.shelf.load(read.house, text, "bench.toml", NOON)
    opened.follow()
    return opened


def fill(opened: Desk, entries: int) -> None:
    """Give the day that many entries: five-reading checks, every fourth a count of 25 made."""
    dice = random.Random(7)
    house = opened.house
    assert house is not None
    opened.enter("note the day begins", None)
    cards = {b.number: opened.card(b.number) for b in house.benches}
    numbers = list(cards)

    def document(number: int) -> dict[str, Any]:
        bench = numbers[number % len(numbers)]
        card = cards[bench]
        stamp: dict[str, Any] = {
            "id": number, "at": "2026-05-04T09:00:00.000Z", "offset": 0,
            "event": f"{number:016x}", "terminal": "T2", "house": 1,
            "bench": bench, "blend": card.blend, "vitola": card.vitola,
        }  # fmt: skip
        if number % 4 == 0:
            return stamp | {"kind": "made", "n": 25}
        target = card.targets["bunch"]
        readings = [round(dice.gauss(target.target_g, 0.2), 1) for _ in range(5)]
        return stamp | {
            "kind": "check", "measure": "bunch", "readings": readings, "standard": 0.99,
            "target": target.target_g, "low": target.low_g, "high": target.high_g,
        }  # fmt: skip

    opened.folder.day(opened.day).append_many("entries", [document] * (entries - 1))
    opened.follow()
