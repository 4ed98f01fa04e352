"""What may follow a bench: checks, counts, faults, leaf, a change of vitola."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, cast

from core.entry import leaf
from core.entry import requests as ask
from core.entry.faults import FAULT_WORDS, FAULTS
from core.entry.numbers import (
    DIAL,
    DRAW,
    LENGTH,
    MOST_COUNTED,
    RING,
    WEIGHT,
    Quantity,
    amounts,
    quantity_typed,
    starts_number,
    whole,
)
from core.entry.tokens import Cursor, Misread, codes, unknown
from core.entry.words import Form, Takes, spelt
from core.house.model import HouseBook
from core.measure import DrawUnit, Measure
from core.say import say, say_as

LEAST_BUNDLE, MOST_BUNDLE = 2, 1000

_MEASURED: dict[str, Quantity] = {"ring": RING, "length": LENGTH}


def _readings(cursor: Cursor, _house: HouseBook, form: Form, bench: str) -> ask.Request:
    measure = cast(Measure, form.means)
    if not cursor.left:
        return ask.Begin(bench, measure)
    return ask.Check(bench, measure, amounts(cursor, _MEASURED.get(measure, WEIGHT)))


def _draw(cursor: Cursor, _house: HouseBook, _form: Form, bench: str) -> ask.Request:
    """Draw is in whatever its house reads it in; a unit that is typed must be that one."""
    if not cursor.left:
        return ask.Begin(bench, "draw")
    typed = quantity_typed(cursor, (DRAW, DIAL))
    unit = cast(DrawUnit | None, typed.unit if typed else None)
    return ask.Check(bench, "draw", amounts(cursor, typed or DRAW), unit=unit)


def _bundle(cursor: Cursor, _house: HouseBook, _form: Form, bench: str) -> ask.Check:
    of = whole(cursor, say_as("expected", "how many cigars"), LEAST_BUNDLE, MOST_BUNDLE)
    return ask.Check(bench, "bundle", amounts(cursor, WEIGHT), of)


def _portion(cursor: Cursor, house: HouseBook, _form: Form, bench: str) -> ask.Request:
    of = cursor.take(codes(tuple(house.filler)))
    if of is None:
        token = cursor.next(say("a filler leaf and its grams"))
        raise unknown(token, say("a filler leaf"), house.filler)
    if not cursor.left:
        return ask.Begin(bench, "portion", leaf=of)
    return ask.Check(bench, "portion", amounts(cursor, WEIGHT), leaf=of)


def _count(cursor: Cursor, _house: HouseBook, form: Form, bench: str) -> ask.Count:
    kind = cast(
        Literal["made", "good", "rework", "second", "release", "workers", "panel"], form.means
    )
    return ask.Count(bench, kind, whole(cursor, say_as("expected", "how many")))


def _hold(cursor: Cursor, _house: HouseBook, _form: Form, bench: str) -> ask.Hold:
    return ask.Hold(bench, whole(cursor, say_as("expected", "how many")), cursor.reason())


def _faults(cursor: Cursor, house: HouseBook, _form: Form, bench: str) -> ask.Fail:
    counts: dict[str, int] = {}
    while cursor.left or not counts:
        fault = cursor.take(FAULT_WORDS)
        if fault is None:
            token = cursor.next(say("a fault and how many"))
            own, others = spelt(FAULTS, house.house.language)
            hint = say("type its word, then how many, as torn 1; Tab shows them")
            raise unknown(token, say("a fault"), own, hint, others)
        counts[fault.code] = counts.get(fault.code, 0) + whole(
            cursor, say_as("expected", "how many")
        )
        if counts[fault.code] > MOST_COUNTED:
            raise Misread(
                say(
                    "expected at most {most} pieces with one fault, found {found}: "
                    "check the counts",
                    most=MOST_COUNTED,
                    found=counts[fault.code],
                ),
                cursor.before().at,
            )
    return ask.Fail(bench, tuple(counts.items()))


def _vitola(cursor: Cursor, house: HouseBook, _form: Form, bench: str) -> ask.Roll:
    vitola = cursor.take(codes(tuple(house.vitola)))
    if vitola is None:
        raise unknown(cursor.next(say("a vitola")), say("a vitola"), house.vitola)
    blend = cursor.take(codes(tuple(house.blend)))
    token = cursor.peek()
    if token is None:
        return ask.Roll(bench, vitola, blend)
    if blend is None and not starts_number(token):
        raise unknown(token, say("a blend"), house.blend)
    return ask.Roll(bench, vitola, blend, whole(cursor, say("the quota")))


AT_BENCH: dict[Takes, Callable[[Cursor, HouseBook, Form, str], ask.Request]] = {
    "readings": _readings,
    "draw": _draw,
    "bundle": _bundle,
    "leaf and readings": _portion,
    "count": _count,
    "faults": _faults,
    "count and reason": _hold,
    "cigars or scores": _count,
    "leaf and weight": leaf.issued,
    "weight of cuttings": leaf.offcuts,
    "vitola": _vitola,
}
"""Reads what a word of a bench takes."""
