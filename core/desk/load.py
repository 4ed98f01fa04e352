"""A house book examined whole: its own rules, and whether its benches can roll what it says."""

from __future__ import annotations

from core.day.calendar import Clock
from core.desk.permission import CHANGES_HOUSE, Permission
from core.desk.shelf import Loaded
from core.desk.today import Today
from core.house.model import HouseBook
from core.house.read import Read, read_house
from core.problems import BadInput, Problem
from core.recipe.card import rollable
from core.recipe.law import Law, fit


def examine(text: bytes | str, file: str) -> Read:
    """Read and check a house book; the house is None exactly where there are problems."""
    read = read_house(text, file)
    if read.house is None:
        return read
    problems = _benches(read.house, file)
    return read._replace(house=None, problems=problems) if problems else read


def take_in(
    today: Today, house: HouseBook, text: str, file: str, *, real: Clock, pin: str | None
) -> Loaded:
    """Keep an examined house book as the next version; it asks for the PIN of the one before.

    PinNeeded where none is given, BadInput for a wrong one. What is in force already needs none.
    """
    shelf = today.shelf
    newest = shelf.version_at(None)
    if not newest or shelf.source(newest)["toml"] != text:
        Permission(today.folder, shelf, real).check(pin, CHANGES_HOUSE)
    return shelf.load(house, text, file, today.now())


def _benches(house: HouseBook, file: str) -> tuple[Problem, ...]:
    """Each bench whose blend cannot be rolled in its vitola."""
    laws = {code: _law(house, code) for code in {bench.blend for bench in house.benches}}
    found: dict[tuple[str, str], tuple[Problem, ...]] = {}
    problems: list[Problem] = []
    for place, bench in enumerate(house.benches, start=1):
        pair = (bench.blend, bench.vitola)
        if pair not in found:
            found[pair] = rollable(house, *pair, law=laws[bench.blend])
        problems += (
            Problem(
                f'{file}: [[bench]] {place} "{bench.number}"',
                p.said,
            )
            for p in found[pair]
        )
    return tuple(problems)


def _law(house: HouseBook, blend: str) -> Law | None:
    """The blend's law, fitted once for all its benches; None where `rollable` will say why not."""
    try:
        return fit(house, blend)
    except BadInput:
        return None
