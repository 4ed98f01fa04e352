"""What may follow a bench: checks, counts, faults, leaf, a change of vitola."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, cast

from core.entry import requests as ask
from core.entry.faults import FAULT_WORDS, FAULTS
from core.entry.numbers import (
    DRAW,
    LENGTH,
    MOST_COUNTED,
    RING,
    WEIGHT,
    Quantity,
    amount,
    amounts,
    is_weight_unit,
    starts_number,
    whole,
)
from core.entry.tokens import Cursor, Misread, codes, unknown
from core.entry.words import Form, Takes
from core.house.model import HouseBook
from core.measure import Measure

LEAST_BUNDLE, MOST_BUNDLE = 2, 1000

_MEASURED: dict[str, Quantity] = {"ring": RING, "length": LENGTH, "draw": DRAW}


def _readings(cursor: Cursor, _house: HouseBook, form: Form, bench: str) -> ask.Check:
    quantity = _MEASURED.get(form.means, WEIGHT)
    return ask.Check(bench, cast(Measure, form.means), amounts(cursor, quantity))


def _bundle(cursor: Cursor, _house: HouseBook, _form: Form, bench: str) -> ask.Check:
    of = whole(cursor, "how many cigars", LEAST_BUNDLE, MOST_BUNDLE)
    return ask.Check(bench, "bundle", amounts(cursor, WEIGHT), of)


def _count(cursor: Cursor, _house: HouseBook, form: Form, bench: str) -> ask.Count:
    kind = cast(Literal["made", "good", "rework"], form.means)
    return ask.Count(bench, kind, whole(cursor, "how many"))


def _faults(cursor: Cursor, _house: HouseBook, _form: Form, bench: str) -> ask.Fail:
    counts: dict[str, int] = {}
    while cursor.left or not counts:
        fault = cursor.take(FAULT_WORDS)
        if fault is None:
            token = cursor.next("a fault and how many")
            words = (word for fault in FAULTS for word in fault.words)
            raise unknown(token, "a fault", words, "type its word, then how many, as torn 1")
        counts[fault.code] = counts.get(fault.code, 0) + whole(cursor, "how many")
        if counts[fault.code] > MOST_COUNTED:
            raise Misread(
                f"expected at most {MOST_COUNTED} pieces with one fault, "
                f"found {counts[fault.code]}: check the counts",
                cursor.before().at,
            )
    return ask.Fail(bench, tuple(counts.items()))


def _leaf_code(cursor: Cursor, house: HouseBook) -> str:
    leaf = cursor.take(codes(tuple(house.leaf)))
    if leaf is None:
        raise unknown(cursor.next("a leaf and its weight"), "a leaf", house.leaf)
    return leaf


def _leaf_and_weight(cursor: Cursor, house: HouseBook, form: Form, bench: str) -> ask.Leaf:
    kind = cast(Literal["take", "back"], form.means)
    leaf = _leaf_code(cursor, house)
    return ask.Leaf(bench, kind, leaf, amount(cursor, WEIGHT))


def _cuttings(cursor: Cursor, house: HouseBook, _form: Form, bench: str) -> ask.Scrap:
    alone = cursor.left == 1 or is_weight_unit(cursor.peek(1))
    if starts_number(cursor.peek()) and alone:
        return ask.Scrap(bench, amount(cursor, WEIGHT))
    leaf = _leaf_code(cursor, house)
    return ask.Scrap(bench, amount(cursor, WEIGHT), leaf)


def _vitola(cursor: Cursor, house: HouseBook, _form: Form, bench: str) -> ask.Roll:
    vitola = cursor.take(codes(tuple(house.vitola)))
    if vitola is None:
        raise unknown(cursor.next("a vitola"), "a vitola", house.vitola)
    blend = cursor.take(codes(tuple(house.blend)))
    token = cursor.peek()
    if token is None:
        return ask.Roll(bench, vitola, blend)
    if blend is None and not starts_number(token):
        raise unknown(token, "a blend", house.blend)
    return ask.Roll(bench, vitola, blend, whole(cursor, "the quota"))


AT_BENCH: dict[Takes, Callable[[Cursor, HouseBook, Form, str], ask.Request]] = {
    "readings": _readings,
    "bundle": _bundle,
    "count": _count,
    "faults": _faults,
    "leaf and weight": _leaf_and_weight,
    "weight of cuttings": _cuttings,
    "vitola": _vitola,
}
"""Reads what a word of a bench takes."""
