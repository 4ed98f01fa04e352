"""Numbers of a line: amounts with their units, whole numbers, percentages."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from core.entry.requests import Unit
from core.entry.tokens import Cursor, Misread, Token, fold
from core.say import Said, say
from core.units import G_PER_LB, G_PER_OZ, MM_PER_INCH

MOST_READINGS = 100
MOST_COUNTED = 100_000
MOST_MOISTURE = Decimal("0.60")

_NUMBER = re.compile(r"([+-]?)([0-9]*[.,]?[0-9]+)(.*)")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_WHOLE = re.compile(r"[0-9]{1,9}")


class Quantity(NamedTuple):
    """What an amount measures. `factors` turn its units into `unit`, which is recorded."""

    unit: Unit | None
    what: Said
    takes: Said
    factors: Mapping[str, Decimal]
    most: float
    most_says: str


def _factors(*units: tuple[str, str | float]) -> dict[str, Decimal]:
    """Every unit spelling with its exact factor, which decimals hold as written."""
    return {spelling: Decimal(str(factor)) for names, factor in units for spelling in names.split()}


WEIGHT = Quantity(
    unit="g",
    what=say("a weight"),
    takes=say("in g, kg, mg, oz or lb"),
    factors=_factors(
        ("g gr grs gram grams gramo gramos", 1),
        ("kg kgs kilo kilos", 1000),
        ("mg", "0.001"),
        ("oz onza onzas", G_PER_OZ),
        ("lb lbs libra libras", G_PER_LB),
    ),
    most=100_000.0,
    most_says="100 kg",
)
LENGTH = Quantity(
    unit="mm",
    what=say("a length"),
    takes=say("in mm, cm or in"),
    factors=_factors(
        ("mm", 1), ("cm", 10), ('in " inch inches pulg pulgada pulgadas', MM_PER_INCH)
    ),
    most=1000.0,
    most_says="1000 mm",
)
PRICE = Quantity(
    None, say("a price a kilogram"), say("without a unit"), {}, 1_000_000.0, "1,000,000"
)
RING = Quantity(None, say("a ring gauge"), say("without a unit"), {}, 200.0, "200")
DRAW = Quantity(
    "mmH2O", say("a draw"), say("in mmH2O"), _factors(("mmh2o", 1)), 10_000.0, "10000 mmH2O"
)
DIAL = Quantity("dial", say("a draw"), say("in dial"), _factors(("dial", 1)), 10_000.0, "10000")
WITH_UNITS = (WEIGHT, LENGTH, DRAW, DIAL)


def starts_number(token: Token | None) -> bool:
    """Whether the token is a number, with or without a unit attached."""
    return token is not None and _NUMBER.match(token.text) is not None


def is_whole(token: Token) -> bool:
    """Whether the token is digits alone."""
    return _WHOLE.fullmatch(token.text) is not None


def is_plain(token: Token) -> bool:
    """Whether the token is a number with nothing attached."""
    found = _NUMBER.fullmatch(token.text)
    return found is not None and not found[3]


def is_unit(token: Token | None) -> bool:
    """Whether the token is a unit of anything measured, standing alone."""
    return token is not None and any(fold(token.text) in each.factors for each in WITH_UNITS)


def quantity_typed(cursor: Cursor, among: tuple[Quantity, ...]) -> Quantity | None:
    """Which of them the amounts that are left have a unit of, the first that has one."""
    for ahead in range(cursor.left):
        token = cursor.peek(ahead)
        unit = _unit_of(token) if token else ""
        for quantity in among:
            if unit in quantity.factors:
                return quantity
    return None


def _unit_of(token: Token) -> str:
    """The unit attached to a number, or the token itself where it is none, folded."""
    found = _NUMBER.fullmatch(token.text)
    return fold(found[3] if found else token.text)


def is_weight_unit(token: Token | None) -> bool:
    """Whether the token is a unit of weight standing alone."""
    return token is not None and fold(token.text) in WEIGHT.factors


def is_percentage(token: Token, following: Token | None) -> bool:
    """Whether a number with its `%`, attached or standing alone after it, comes next."""
    found = _NUMBER.fullmatch(token.text)
    if found is None:
        return False
    return found[3] == "%" or (not found[3] and following is not None and following.text == "%")


def amount(cursor: Cursor, quantity: Quantity, *, or_none: bool = False) -> float:
    """Read a number and its unit, attached or as the next token, in the quantity's own unit.

    `or_none`: zero too.
    """
    token = cursor.next(quantity.what)
    found = _NUMBER.fullmatch(token.text)
    if found is None:
        raise Misread(
            say(
                "expected {what}, found {found}: type it in digits",
                what=quantity.what,
                found=token.shown,
            ),
            token.at,
        )
    sign, digits, unit = found.groups()
    if _THOUSANDS.fullmatch(digits) and unit[:1] not in (".", ","):
        raise Misread(
            say(
                "expected {what}, found {found}, which can mean {small} or {great}: "
                "write one of them",
                what=quantity.what,
                found=token.shown,
                small=digits.replace(",", "."),
                great=digits.replace(",", ""),
            ),
            token.at,
        )
    shown = Token(token.text, token.at + found.start(3) if unit else token.at)
    following = cursor.peek()
    if not unit and following is not None and fold(following.text) in quantity.factors:
        unit = cursor.read().text
    value = _in_own_unit(digits.replace(",", "."), unit, quantity, shown)
    if sign == "-" or value < 0 or (value == 0 and not or_none):
        raise Misread(_too_small(quantity, token, or_none=or_none), token.at)
    if value > quantity.most:
        raise Misread(
            say(
                "expected {what} of at most {most}, found {found}: check the digits and the unit",
                what=quantity.what,
                most=quantity.most_says,
                found=token.shown,
            ),
            token.at,
        )
    return value


def _too_small(quantity: Quantity, token: Token, *, or_none: bool) -> Said:
    if or_none:
        says = say("expected {what} of zero or more, found {found}: read it again")
    else:
        says = say("expected {what} of more than zero, found {found}: read it again")
    return says.format(what=quantity.what, found=token.shown)


def _in_own_unit(digits: str, unit: str, quantity: Quantity, token: Token) -> float:
    if not unit:
        return float(digits)
    if unit[0] in ".,":
        raise Misread(
            say(
                "expected one decimal mark and digits after it, found {found}: such as 15.3",
                found=token.shown,
            ),
            token.at,
        )
    if unit == "%":
        raise Misread(
            say(
                "expected {what}, found {found}: moisture is of a leaf, as LI-2 14.2%",
                what=quantity.what,
                found=token.shown,
            ),
            token.at,
        )
    factor = quantity.factors.get(fold(unit))
    if factor is None:
        raise Misread(
            say(
                "expected {what} {takes}, found {found}: correct the unit",
                what=quantity.what,
                takes=quantity.takes,
                found=token.shown,
            ),
            token.at,
        )
    return float(Decimal(digits) * factor)


def amounts(cursor: Cursor, quantity: Quantity) -> tuple[float, ...]:
    """Read the rest of the line as one amount or more."""
    found = [amount(cursor, quantity)]
    while (token := cursor.peek()) is not None:
        if len(found) == MOST_READINGS:
            raise Misread(
                say(
                    "expected at most {most} readings, found more: type the rest as another line",
                    most=MOST_READINGS,
                ),
                token.at,
            )
        found.append(amount(cursor, quantity))
    return tuple(found)


def whole(cursor: Cursor, what: Said, least: int = 1, most: int = MOST_COUNTED) -> int:
    """Read a whole number from `least` to `most`; `what` names it in the message."""
    token = cursor.next(what)
    if not is_whole(token) or not least <= int(token.text) <= most:
        raise Misread(
            say(
                "expected {what}, {least} to {most}, found {found}: type a whole number",
                what=what,
                least=least,
                most=most,
                found=token.shown,
            ),
            token.at,
        )
    return int(token.text)


def percentage(cursor: Cursor, example: str = "14.2%") -> float:
    """Read a moisture in percent, the `%` attached or as the next token, as a fraction."""
    token = cursor.next(say("a moisture in percent"))
    found = _NUMBER.fullmatch(token.text)
    unit = found[3] if found else ""
    if found and not unit and cursor.left:
        unit = cursor.read().text
    if found is None or unit != "%":
        raise Misread(
            say(
                "expected a moisture with its %, found {found}: type it as {example}",
                found=token.shown,
                example=example,
            ),
            token.at,
        )
    moisture = Decimal(found[2].replace(",", ".")) / 100
    if found[1] == "-" or not 0 < moisture < MOST_MOISTURE:
        raise Misread(
            say(
                "expected a moisture over 0 % and under 60 %, found {found}: measure again",
                found=token.shown,
            ),
            token.at,
        )
    return float(moisture)
