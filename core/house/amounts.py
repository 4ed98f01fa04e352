"""Amounts as a house writes them, `"5 in"` or `"34.5 lb/1000"`, as numbers in one unit.

Only single names of units are handed to Pint, which would evaluate any expression it is given.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Any, NamedTuple

from core.house.shown import HUGE, OTHER, kind_of, shown
from core.house.written import Unwritten, take_apart, terms
from core.say import Said, say
from core.units import G_PER_LB, G_PER_OZ, MM_PER_INCH


class Kind(NamedTuple):
    """A kind of amount; a bare number is in `unit`."""

    name: Said
    unit: str
    example: str
    usual: Mapping[str, Fraction]
    """What one of a unit is worth in the model's; read without Pint, which is slow to import."""


class Unreadable(NamedTuple):
    """Why an amount cannot be read, to be said after its name: what was found and expected."""

    says: Said


def _exactly(factor: float) -> Fraction:
    return Fraction(repr(factor))


_ONE = Fraction(1)
LENGTH = Kind(
    say("a length"),
    "mm",
    say('"127 mm" or "5 in"'),
    {"mm": _ONE, "cm": Fraction(10), "in": _exactly(MM_PER_INCH)},
)
WEIGHT = Kind(
    say("a weight"),
    "g",
    say('"15.5 g", "0.55 oz" or "34.5 lb/1000"'),
    {"g": _ONE, "kg": Fraction(1000), "oz": _exactly(G_PER_OZ), "lb": _exactly(G_PER_LB)},
)
COVERING = Kind(say("a weight by area"), "g/m^2", '"60 g/m^2"', {"g/m^2": _ONE})
DENSITY = Kind(say("a weight by volume"), "g/cm^3", '"0.30 g/cm^3"', {"g/cm^3": _ONE})
TIME = Kind(say("a time"), "min", say('"60 min" or "1 h"'), {"min": _ONE, "h": Fraction(60)})
PRESSURE = Kind(say("a pressure drop"), "mmH2O", '"40 mmH2O"', {"mmH2O": _ONE})
DIAL = Kind(say("a reading of a dial"), "dial", '"3 dial"', {"dial": _ONE})
SHARE = Kind(say("a percentage"), "%", '"13 %"', {"%": Fraction(1, 100)})

MEASURED = (LENGTH, WEIGHT, COVERING, DENSITY, TIME, PRESSURE)
"""The kinds whose other units are Pint's; a percentage is `%`, a dial `dial`, and nothing else."""

_PER_THOUSAND = re.compile(r"(.+?)\s*(?:/|\bper\b)\s*1,?000(?: pieces| cigars| bunches)?")


def parse(value: object, kind: Kind) -> float | Unreadable:
    """`value` in mm, g, g/m², g/cm³, min, mmH2O or as a dial reads; a percentage as a fraction.

    A bare number is in `kind.unit`; a weight per 1000 is that of one piece. Numbers and factors
    are exact until the one rounding at the end.
    """
    exact = _of_text(value, kind) if isinstance(value, str) else _bare(value, kind)
    return exact if isinstance(exact, Unreadable) else float(exact)


def show(amount: float, kind: Kind) -> str:
    """An amount of the model in the unit of a bare number, for a message."""
    return f"{amount / float(kind.usual[kind.unit]):.6g} {kind.unit}"


def _bare(value: object, kind: Kind) -> Fraction | Unreadable:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return _must_be(kind, kind_of(value))
    if not abs(value) <= HUGE:
        return _must_be(kind, shown(value))
    return Fraction(repr(value)) * kind.usual[kind.unit]


def _of_text(text: str, kind: Kind) -> Fraction | Unreadable:
    written = take_apart(text)
    if isinstance(written, Unwritten):
        return _write_like(kind, text, written.says)
    worth = _worth(written.unit or kind.unit, kind)
    if isinstance(worth, Unreadable):
        return _write_like(kind, text, worth.says)
    return written.number * worth


def _must_be(kind: Kind, found: str) -> Unreadable:
    return Unreadable(
        say(
            "must be {kind} such as {example}, not {found}",
            kind=kind.name,
            example=kind.example,
            found=found,
        )
    )


def _write_like(kind: Kind, text: str, fault: Said) -> Unreadable:
    return Unreadable(
        say(
            "{text} {fault}; write {kind} like {example}",
            text=shown(text),
            fault=fault,
            kind=kind.name,
            example=kind.example,
        )
    )


def _worth(unit: str, kind: Kind) -> Fraction | Unreadable:
    """One `unit` in the unit of the model."""
    if unit in kind.usual:
        return kind.usual[unit]
    if kind is WEIGHT and (thousand := _PER_THOUSAND.fullmatch(unit)):
        worth = _worth(thousand[1], kind)
        return worth if isinstance(worth, Unreadable) else worth / 1000
    if unit == "%":
        return Unreadable(say("is {kind}", kind=SHARE.name))
    if unit == "dial":
        return Unreadable(say("is {kind}", kind=DIAL.name))
    if kind in (SHARE, DIAL):
        return Unreadable(say("is not {kind}", kind=kind.name))
    return _by_pint(unit, kind)


def _by_pint(unit: str, kind: Kind) -> Fraction | Unreadable:
    registry = _registry()
    try:
        found, wanted = _unit(unit), _unit(kind.unit)
        if found.dimensionality == wanted.dimensionality:
            return Fraction(registry.convert(_ONE, found, wanted))
        names = {_unit(known.unit).dimensionality: known.name for known in MEASURED}
        return Unreadable(say("is {kind}", kind=names.get(found.dimensionality, OTHER)))
    except Exception:  # Pint fails in many ways beside its own errors; all are the text's fault
        return Unreadable(say("has no unit that is known (capitals count)"))


@lru_cache(maxsize=64)
def _unit(text: str) -> Any:
    """Pint's unit for `text`, multiplied up from its names. Raises what Pint raises."""
    found = terms(text)
    if not found:
        raise ValueError(text)
    registry = _registry()
    product = registry.dimensionless
    for term in found:
        product = product * registry.parse_units(term.name) ** term.power
    return product


@lru_cache(maxsize=1)
def _registry() -> Any:
    from pint import UnitRegistry  # noqa: PLC0415 - most of a second, and few houses need it

    return UnitRegistry(non_int_type=Fraction)
