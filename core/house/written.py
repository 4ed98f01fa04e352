"""An amount as it is written, taken apart into its number and the text of its unit."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import NamedTuple

from core.say import Said, say


class Written(NamedTuple):
    """The number, exactly as written, and the unit's text; no unit is an empty one."""

    number: Fraction
    unit: str


class Term(NamedTuple):
    """One name of a unit and the power it is raised to."""

    name: str
    power: int


class Unwritten(NamedTuple):
    """Why a text is no amount, to be said after the text itself."""

    says: Said


LONGEST = 60
_NUMBER = r"[+-]?(?:[0-9]{1,20}(?:[.,][0-9]{1,20})?|[.,][0-9]{1,20})(?:[eE][+-]?[0-9]{1,2})?"
_AMOUNT = re.compile(
    r"(?:(?:(?P<whole>[0-9]{1,6}) +)?(?P<over>[0-9]{1,4})/(?P<under>[0-9]{1,4})"
    rf"|(?P<number>{_NUMBER}))(?P<unit>|\s*[^\s0-9.,+/-].*)"
)
_GROUPED = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_BETWEEN = re.compile(r"\s*([/*·])\s*|\s+")
_TERM = re.compile(r"(?P<name>[^\W\d_](?:\w{0,22}[^\W\d_])?)\^?(?P<power>-?[1-3])?")
MOST_TERMS = 4


def take_apart(text: str) -> Written | Unwritten:
    """The number and unit of `15.3 g`, `0,35 mm`, or what sizes are named by: `5 1/2 in`."""
    plain = unicodedata.normalize("NFKC", text).strip() if len(text) <= LONGEST else ""
    found = _AMOUNT.fullmatch(plain)
    if found is None:
        return Unwritten(say("is not an amount"))
    unit = found["unit"].strip()
    if (number := found["number"]) is not None:
        if _GROUPED.fullmatch(number):
            point, none = number.replace(",", "."), number.replace(",", "")
            return Unwritten(say("can mean {point} or {none}", point=point, none=none))
        return Written(Fraction(number.replace(",", ".")), unit)
    if int(found["under"]) == 0:
        return Unwritten(say("divides by zero"))
    part = Fraction(int(found["over"]), int(found["under"]))
    return Written(int(found["whole"] or 0) + part, unit)


def terms(unit: str) -> tuple[Term, ...]:
    """`g/cm^3` as its names and powers; empty where it is more than names and small powers."""
    pieces = _BETWEEN.split(re.sub(r"\bper\b", "/", unit).replace("**", "^"))
    found: list[Term] = []
    sign = 1
    for place, piece in enumerate(pieces):
        if place % 2:
            sign = -1 if piece == "/" else 1
            continue
        term = _TERM.fullmatch(piece or "")
        if term is None or len(found) == MOST_TERMS:
            return ()
        found.append(Term(term["name"], sign * int(term["power"] or 1)))
    return tuple(found)
