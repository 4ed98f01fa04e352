"""What the line being typed may go on to be: whole lines for Tab."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import chain

from core.entry.faults import FAULT_WORDS, FAULTS, Fault
from core.entry.leaf import WEIGHT_IN_STOCK, lot_code, told_of_lot
from core.entry.numbers import WEIGHT, amount, is_whole
from core.entry.tokens import Cursor, Misread, codes, fold
from core.entry.words import (
    BENCH_FORMS,
    CHART_WORDS,
    CHARTED,
    FORM_WORDS,
    FORMS,
    LOT_WORDS_SHOWN,
    ORDERS,
    THE_LOT,
    WITHOUT,
    Form,
    LotWord,
    Order,
    Takes,
)
from core.house.model import HouseBook, Language

ALONE: tuple[Form, ...] = tuple(form for form in FORMS if form.where in ("floor", "either"))
"""What a line may begin with where no card is shown."""


def complete(
    line: str, house: HouseBook, at: str | None, language: Language | None = None
) -> tuple[str, ...]:
    """Whole lines that complete the last word in `language` (the house's); never raises.

    `at` is the bench whose card is shown, None elsewhere. Where nothing of the word is typed,
    each thing is offered once; else every single word that begins like it. Words of the other
    language are offered where none of this one begins so.
    """
    try:
        cursor = Cursor(line)
    except Misread:
        return ()
    if cursor.sure:
        return ()
    start = len(line) if not line or line[-1].isspace() else cursor.tokens[-1].at
    spoken = language or house.house.language
    for each in (spoken, _OTHER[spoken]):
        found = _completed(line, start, house, at, each)
        if found:
            return tuple(whole for whole in found if whole != line)
    return ()


_OTHER: dict[Language, Language] = {"en": "es", "es": "en"}


def _completed(
    line: str, start: int, house: HouseBook, at: str | None, language: Language
) -> Iterable[str]:
    """Whole lines, that itself which is typed among them; the last word begins at `start`."""
    before = Cursor(line[:start])
    words = _next_words(before, house, at, language, typed=start < len(line))
    unread = before.peek()
    start = start if unread is None else unread.at
    begun = fold(line[start:])
    return dict.fromkeys(line[:start] + word for word in words if fold(word).startswith(begun))


def _next_words(
    cursor: Cursor, house: HouseBook, at: str | None, language: Language, *, typed: bool
) -> Iterable[str]:
    """The words that may come next; reads what is typed whole, leaves the rest unread."""
    bench = cursor.take(codes(tuple(house.bench)))
    starts = FORMS if at is not None else ALONE
    if bench is not None:
        starts = BENCH_FORMS
    form = cursor.take(FORM_WORDS)
    if form is not None:
        return _arguments(cursor, house, form, language, typed=typed) if form in starts else ()
    leaves = house.leaf if bench is None else ()
    return chain(_spelled(starts, language, typed=typed), leaves)


def _arguments(
    cursor: Cursor, house: HouseBook, form: Form, language: Language, *, typed: bool
) -> Iterable[str]:
    if form.takes == "faults":
        wanted = _passed_counts(cursor)
        return _spelled(FAULTS, language, typed=typed) if wanted else ()
    if form.takes in _OF_LEAF:
        if cursor.take(codes(tuple(house.leaf))) is None:
            return house.leaf
        return _of_lot(cursor, form, language, typed=typed)
    if form.takes == "leaf and readings":
        return () if cursor.take(codes(tuple(house.filler))) else house.filler
    if form.takes == "chart":
        cursor.take(codes(tuple(house.bench)))
        return () if cursor.take(CHART_WORDS) else _spelled(CHARTED, language, typed=typed)
    if form.takes == "vitola":
        if cursor.take(codes(tuple(house.vitola))) is None:
            return house.vitola
        return () if cursor.take(codes(tuple(house.blend))) else house.blend
    if form.takes == "order":
        return _spelled(ORDERS, language, typed=typed)
    return _of_line(cursor, house, form, language)


def _of_line(cursor: Cursor, house: HouseBook, form: Form, language: Language) -> Iterable[str]:
    """A blend to look at, or what to try on the one that is."""
    if form.takes == "blend":
        return () if cursor.take(codes(tuple(house.blend))) else house.blend
    return _to_try(cursor, house, language) if form.takes == "what to try" else ()


def _to_try(cursor: Cursor, house: HouseBook, language: Language) -> Iterable[str]:
    """A leaf to be left out after that word, else a leaf to have other parts."""
    told = [cursor.read().text for _ in range(cursor.left)]
    if told and fold(told[0]) in WITHOUT:
        return [leaf for leaf in house.filler if leaf not in told]
    without = () if told else (WITHOUT[language == "es"],)
    return (*without, *(f"{leaf}=" for leaf in house.filler))


_OF_LEAF = frozenset[Takes](
    (
        "leaf and weight",
        "weight of cuttings",
        "weight of sweepings",
        "lot received",
        "lot on hand",
    )
)


def _of_lot(cursor: Cursor, form: Form, language: Language, *, typed: bool) -> Iterable[str]:
    """What may come after the weight of what was received, or issued."""
    if form.takes == "leaf and weight":
        return _spelled((THE_LOT,), language, typed=typed) if _only_a_weight(cursor) else ()
    if form.takes != "lot received":
        return ()
    try:
        lot_code(cursor)  # it may be called what a word is called
        amount(cursor, WEIGHT_IN_STOCK)
        told = told_of_lot(cursor)
    except Misread:
        return ()  # among them a word whose figure comes next
    return _spelled([w for w in LOT_WORDS_SHOWN if w.means not in told], language, typed=typed)


def _only_a_weight(cursor: Cursor) -> bool:
    """Read a weight; whether there is one, and nothing more."""
    try:
        amount(cursor, WEIGHT)
    except Misread:
        return False
    return not cursor.left


def _passed_counts(cursor: Cursor) -> bool:
    """Read faults with their counts; whether a fault may come next."""
    while cursor.take(FAULT_WORDS) is not None:
        count = cursor.peek()
        if count is None or not is_whole(count):
            return False
        cursor.read()
    return True


def _spelled(
    words: Sequence[Form | Order | Fault | LotWord], language: Language, *, typed: bool
) -> tuple[str, ...]:
    own = [word.es if language == "es" else word.en for word in words]
    if not typed:
        return tuple(spellings[0] for spellings in own)
    return tuple(word for word in chain(*own) if " " not in word)
