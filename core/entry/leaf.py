"""What may be said of leaf: issued, returned, cuttings, stem, sweepings, lots."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Literal, cast

from core.entry import requests as ask
from core.entry.numbers import (
    PRICE,
    WEIGHT,
    amount,
    is_percentage,
    is_weight_unit,
    percentage,
    starts_number,
    whole,
)
from core.entry.tokens import Cursor, Misread, Token, codes, unknown
from core.entry.words import LOT_WORD, LOT_WORDS, Form
from core.house.model import HouseBook
from core.say import Said, say, say_as

LONGEST_LOT = 16
FIRST_CROP, LAST_CROP = 1900, 2199
MOST_BALES = 10_000

_AND_WEIGHT = say("a leaf and its weight")
_AND_LOT = say("a leaf and its lot")

_LOT = re.compile(r"[^\W_][\w./-]*")


def leaf_code(cursor: Cursor, house: HouseBook, expected: Said = _AND_WEIGHT) -> str:
    """Read a leaf's code; `expected` is it with what comes after it."""
    leaf = cursor.take(codes(tuple(house.leaf)))
    if leaf is None:
        raise unknown(cursor.next(expected), say("a leaf"), house.leaf)
    return leaf


def lot_code(cursor: Cursor) -> str:
    """Read a lot's code: letters, digits and - . / _"""
    token = cursor.next(say("a lot"))
    if not _is_lot(token):
        raise Misread(
            say(
                "expected a lot of up to {most} letters, digits, - . / _, found {found}: as 24-118",
                most=LONGEST_LOT,
                found=token.shown,
            ),
            token.at,
        )
    return token.text


def _is_lot(token: Token) -> bool:
    return len(token.text) <= LONGEST_LOT and _LOT.fullmatch(token.text) is not None


def issued(cursor: Cursor, house: HouseBook, form: Form, bench: str) -> ask.Leaf:
    """Leaf issued to a bench or returned."""
    kind = cast(Literal["take", "back"], form.means)
    leaf = leaf_code(cursor, house)
    grams = amount(cursor, WEIGHT)
    if cursor.take(LOT_WORD) is None:
        _no_bare_lot(cursor)
        return ask.Leaf(bench, kind, leaf, grams)
    return ask.Leaf(bench, kind, leaf, grams, lot_code(cursor))


def _no_bare_lot(cursor: Cursor) -> None:
    """Refuse one word that stands where a lot would, and say how a lot is told."""
    token = cursor.peek()
    if token is not None and cursor.left == 1 and _is_lot(token):
        raise Misread(
            say(
                "expected nothing more after {word}, found {lot}: a lot is typed as lot {lot}",
                word=cursor.before().shown,
                lot=token.shown,
            ),
            token.at,
        )


def offcuts(cursor: Cursor, house: HouseBook, form: Form, bench: str) -> ask.Scrap:
    """Cuttings or stem of a bench."""
    kind = cast(Literal["scrap", "stem"], form.means)
    leaf, grams = _leaf_or_all(cursor, house)
    return ask.Scrap(bench, grams, leaf, kind)


def sweepings(cursor: Cursor, house: HouseBook) -> ask.Sweepings:
    """What was swept up in the room."""
    leaf, grams = _leaf_or_all(cursor, house)
    return ask.Sweepings(grams, leaf)


def _leaf_or_all(cursor: Cursor, house: HouseBook) -> tuple[str | None, float]:
    """A weight, and before it the leaf where one is told; a code may look like a number."""
    alone = cursor.left == 1 or (cursor.left == 2 and is_weight_unit(cursor.peek(1)))
    if starts_number(cursor.peek()) and alone:
        return None, amount(cursor, WEIGHT)
    return leaf_code(cursor, house), amount(cursor, WEIGHT)


def received(cursor: Cursor, house: HouseBook) -> ask.Receive:
    """A lot that came in; after its weight its moisture, crop, bales and price in any order."""
    leaf = leaf_code(cursor, house, _AND_LOT)
    lot, grams = lot_code(cursor), amount(cursor, WEIGHT_IN_STOCK)
    told = told_of_lot(cursor)
    crop, bales = told.get("crop"), told.get("bales")
    return ask.Receive(
        leaf,
        lot,
        grams,
        told.get("moisture"),
        None if crop is None else int(crop),
        None if bales is None else int(bales),
        told.get("price"),
    )


def told_of_lot(cursor: Cursor) -> dict[str, float]:
    """What follows the weight of a lot that came in, by what it tells; Misread for all else."""
    told: dict[str, float] = {}
    while (token := cursor.peek()) is not None:
        key, value = _of_lot(cursor, token)
        if key in told:
            raise Misread(
                say(
                    "expected moisture, crop, bales and price once each, found {found} again:"
                    " leave one out",
                    found=token.shown,
                ),
                token.at,
            )
        told[key] = value
    return told


def _of_lot(cursor: Cursor, token: Token) -> tuple[str, float]:
    if is_percentage(token, cursor.peek(1)):
        return "moisture", percentage(cursor)
    word = cursor.take(LOT_WORDS)
    if word is None:
        raise unknown(
            token,
            say("its moisture, crop, bales or price"),
            LOT_WORDS.exact,
            say("as 13.5% crop 2023 bales 3 price 24"),
        )
    if word.means == "crop":
        return "crop", whole(cursor, say("the year of the crop"), FIRST_CROP, LAST_CROP)
    if word.means == "bales":
        return "bales", whole(cursor, say_as("expected", "how many bales"), most=MOST_BALES)
    return "price", amount(cursor, PRICE)


def on_hand(cursor: Cursor, house: HouseBook) -> ask.Stocktake:
    """What was found of a lot, with its moisture where it was measured then."""
    leaf = leaf_code(cursor, house, _AND_LOT)
    lot, grams = lot_code(cursor), amount(cursor, WEIGHT_IN_STOCK, or_none=True)
    moisture = percentage(cursor) if cursor.left else None
    return ask.Stocktake(leaf, lot, grams, moisture)


WEIGHT_IN_STOCK = WEIGHT._replace(
    most=50_000_000.0,
    most_says="50,000 kg",
    takes=say("in g, kg, t, oz or lb"),
    factors={**WEIGHT.factors, **dict.fromkeys(("t", "ton", "tonelada"), Decimal(1_000_000))},
)
