"""From a typed line to a request, or to what is wrong with it and where."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from typing import Literal, cast

from core.entry import leaf
from core.entry import requests as ask
from core.entry.bench import AT_BENCH
from core.entry.numbers import (
    WEIGHT,
    WITH_UNITS,
    amount,
    amounts,
    is_plain,
    is_unit,
    is_whole,
    percentage,
    quantity_typed,
    starts_number,
    whole,
)
from core.entry.tokens import Cursor, Misread, Token, codes, unknown
from core.entry.words import (
    BENCH_FORMS,
    CHART_WORDS,
    CHARTED,
    FORM_WORDS,
    FORMS,
    ORDER_WORDS,
    Form,
    Takes,
    spelt,
)
from core.house.model import BENCH_NUMBER, HouseBook
from core.house.numbering import bench_order
from core.measure import Measure
from core.say import say

MOST_ENTRY = 999_999_999
MOST_INITIALS = 4

Screen = Literal["board", "why", "rounds", "leaf", "drop", "day", "days", "log", "close", "help"]


def parse(line: str, house: HouseBook, at: str | None) -> ask.Parsed | ask.Unread:
    """What the line asks for, every code as the house spells it; never raises for any text.

    `at` is the bench whose card is shown, None elsewhere.
    """
    try:
        cursor = Cursor(line)
        request = _request(cursor, house, at)
        cursor.must_end()
    except Misread as wrong:
        return ask.Unread(wrong.says, wrong.at)
    return ask.Parsed(request, cursor.sure)


def _request(cursor: Cursor, house: HouseBook, at: str | None) -> ask.Request:
    first = cursor.peek()
    if first is None:
        return _blank(cursor, house, at)
    if first.text.startswith("/"):
        return _slash(cursor, house)
    if _is_moisture(cursor, house):
        return _moisture(cursor, house)
    if at is not None and _is_reading(cursor, first, house):
        return _reading(cursor, _here(at, house))
    bench = cursor.take(codes(tuple(house.bench)))
    if bench is not None:
        return _of_bench(cursor, house, bench)
    form = cursor.take(FORM_WORDS)
    if form is not None:
        return _of_word(cursor, house, form, at)
    if codes(tuple(house.leaf)).find([token.text for token in cursor.tokens]):
        return _moisture(cursor, house)
    raise _no_such_start(cursor, first, house, at)


def _blank(cursor: Cursor, house: HouseBook, at: str | None) -> ask.Done:
    if cursor.sure:
        raise Misread(say("expected a line before the !, found none: type it again with its !"), 0)
    if at is None:
        raise Misread(say("expected a bench or a word, found nothing: type 7, or help"), 0)
    return ask.Done(_here(at, house))


def _slash(cursor: Cursor, house: HouseBook) -> ask.OpenBench:
    slash = cursor.read()
    number = Token(slash.text[1:], slash.at + 1)
    if not number.text:
        raise Misread(say("expected a bench after /, found none: type it as /7"), number.at)
    found = codes(tuple(house.bench)).find([number.text])
    if found is None:
        raise _no_bench(number, house)
    return ask.OpenBench(found[0])


def _is_moisture(cursor: Cursor, house: HouseBook) -> bool:
    """Whether the line is a leaf and a percentage, so that the leaf cannot be a bench or word."""
    if not cursor.tokens[-1].text.endswith("%"):
        return False
    words = [token.text for token in cursor.tokens]
    found = codes(tuple(house.leaf)).find(words)
    if found is None:
        return False
    after = words[found[1] :]
    return starts_number(cursor.peek(found[1])) and (len(after) == 1 or after[1:] == ["%"])


def _moisture(cursor: Cursor, house: HouseBook) -> ask.Moisture:
    of = cast(str, cursor.take(codes(tuple(house.leaf))))
    return ask.Moisture(of, percentage(cursor, f"{of} 14.2%"))


def _is_reading(cursor: Cursor, first: Token, house: HouseBook) -> bool:
    """Whether the line is one number, with its unit or without; `7-A` is a bench."""
    named = "-" in first.text and BENCH_NUMBER.fullmatch(first.text)
    if named or not starts_number(first):
        return False
    return cursor.left == 1 or (cursor.left == 2 and is_unit(cursor.peek(1)))


def _reading(cursor: Cursor, bench: str) -> ask.Reading:
    """What it is of is known where the open check is; here only the unit, where one is typed."""
    typed = quantity_typed(cursor, WITH_UNITS)
    return ask.Reading(bench, amount(cursor, typed or WEIGHT), typed.unit if typed else None)


def _of_bench(cursor: Cursor, house: HouseBook, bench: str) -> ask.Request:
    token = cursor.peek()
    if token is None:
        return ask.OpenBench(bench)
    if starts_number(token):
        return ask.Check(bench, "bunch", amounts(cursor, WEIGHT))
    form = cursor.take(FORM_WORDS)
    if form is None:
        expected = say("a weight or a word like made")
        own, others = spelt(BENCH_FORMS, house.house.language)
        raise unknown(token, expected, own, say("type ? for them all"), others)
    if form.where in ("bench", "either"):
        return _of_word(cursor, house, form, bench)
    raise Misread(
        say(
            "expected something of bench {bench}, found {found}: type it without the bench",
            bench=bench,
            found=token.shown,
        ),
        token.at,
    )


def _of_word(cursor: Cursor, house: HouseBook, form: Form, at: str | None) -> ask.Request:
    word = cursor.before()
    if form.where == "bench":
        if at is None:
            raise Misread(
                say(
                    "expected a bench before {word}, found none: type it as {example}",
                    word=word.shown,
                    example=form.examples[0].typed,
                ),
                cursor.tokens[0].at,
            )
        return AT_BENCH[form.takes](cursor, house, form, _here(at, house))
    if form.where == "card" and at is None:
        raise Misread(
            say(
                "expected a card for {word}, found none open: type a bench first, as 7",
                word=word.shown,
            ),
            0,
        )
    if at is not None and form.where in ("either", "card"):
        at = _here(at, house)
    if form.takes == "chart":
        return _chart(cursor, house, at)
    if form.takes == "cigars or scores":
        return _panel(cursor, house, form, at)
    if form.takes == "bench":
        return ask.Approve(_bench(cursor, house, at))
    if form.takes in _BY_HOUSE:
        return _BY_HOUSE[form.takes](cursor, house)
    return _ANYWHERE[form.takes](cursor, form, at)


def _panel(cursor: Cursor, house: HouseBook, form: Form, at: str | None) -> ask.Request:
    """Cigars of a bench kept for the panel, the Panel itself, or something for it."""
    token, of_bench = cursor.peek(), cursor.before().at > cursor.tokens[0].at
    if at is not None and (of_bench if token is None else is_whole(token)):
        return AT_BENCH[form.takes](cursor, house, form, at)
    if token is None:
        return ask.Show("panel")
    return ask.Panel(cursor.rest(), token.at)


def _line(cursor: Cursor, house: HouseBook) -> ask.Show:
    blends = codes(tuple(house.blend))
    blend = cursor.take(blends)
    token = cursor.peek()
    if blend is None and token is not None:
        raise unknown(token, say("a blend"), blends.exact, say("as line B4"))
    return ask.Show("line", blend or "")


_BY_HOUSE: dict[Takes, Callable[[Cursor, HouseBook], ask.Request]] = {
    "weight of sweepings": leaf.sweepings,
    "lot received": leaf.received,
    "lot on hand": leaf.on_hand,
    "blend": _line,
}


def _chart(cursor: Cursor, house: HouseBook, at: str | None) -> ask.Chart:
    """Of the bench named before or after the word, else of the card's."""
    benches = codes(tuple(house.bench))
    named = cursor.take(benches)
    measure = cursor.take(CHART_WORDS)
    named = named or cursor.take(benches)
    token = cursor.peek()
    if token is not None and measure is None:
        if is_whole(token) or BENCH_NUMBER.fullmatch(token.text):
            raise _no_bench(token, house)
        own, others = spelt(CHARTED, house.house.language)
        raise unknown(token, say("a kind of check"), own, say("as chart cigar"), others)
    bench = named or at
    if bench is None:
        raise cursor.missing(say("a bench"))
    return ask.Chart(bench, cast(Measure, measure.means) if measure else None)


def _bench(cursor: Cursor, house: HouseBook, at: str | None) -> str:
    """The bench named after the word, else the one before it or of the card."""
    named = cursor.take(codes(tuple(house.bench)))
    token = cursor.peek()
    if named is None and token is not None:
        raise _no_bench(token, house)
    if named is None and at is None:
        raise cursor.missing(say("a bench"))
    return named or cast(str, at)


def _here(at: str, house: HouseBook) -> str:
    if at not in house.bench:
        raise Misread(
            say(
                "expected a bench of the house book, found {bench}, which has left it: "
                "open another",
                bench=at,
            ),
            0,
        )
    return at


def _note(cursor: Cursor, form: Form, at: str | None) -> ask.Note:
    if not cursor.left:
        raise cursor.missing(say("its text"))
    return ask.Note(cursor.rest(), at)


def _undo(cursor: Cursor, _form: Form, _at: str | None) -> ask.Undo:
    token = cursor.peek()
    entry = None
    if token is not None and is_plain(token):
        entry = whole(cursor, say("the number of an entry"), most=MOST_ENTRY)
    elif token is not None and token.text[0] in "#0123456789":
        raise Misread(
            say(
                "expected the number of an entry or a reason, found {found}: as undo 118 reason",
                found=token.shown,
            ),
            token.at,
        )
    return ask.Undo(entry, cursor.reason())


def _initials(cursor: Cursor, _form: Form, _at: str | None) -> ask.Initials:
    expected = say("1 to 4 letters")
    if not cursor.left:
        raise cursor.missing(expected)
    token = cursor.read()
    who = unicodedata.normalize("NFC", token.text)
    if not (who.isalpha() and len(who) <= MOST_INITIALS):
        raise Misread(
            say(
                "expected {expected}, found {found}: type them as initials RM",
                expected=expected,
                found=token.shown,
            ),
            token.at,
        )
    return ask.Initials(who.upper())


def _reopen(cursor: Cursor, _form: Form, _at: str | None) -> ask.Reopen:
    if not cursor.left:
        raise cursor.missing(say("the reason"))
    return ask.Reopen(cursor.rest())


def _only(cursor: Cursor, _form: Form, _at: str | None) -> ask.Show:
    return ask.Show("only", cursor.rest())


def _sort(cursor: Cursor, _form: Form, _at: str | None) -> ask.Show:
    expected = say("bench, due, mean or good")
    order = cursor.take(ORDER_WORDS)
    if order is None:
        raise unknown(cursor.next(expected), expected, ORDER_WORDS.exact, say("type one of them"))
    return ask.Show("sort", order.means)


def _try(cursor: Cursor, _form: Form, _at: str | None) -> ask.Try:
    token = cursor.peek()
    if token is None:
        raise cursor.missing(say("what to try"))
    return ask.Try(cursor.rest(), token.at)


def _screen(_cursor: Cursor, form: Form, _at: str | None) -> ask.Show:
    return ask.Show(cast(Screen, form.means))


_ANYWHERE: dict[Takes, Callable[[Cursor, Form, str | None], ask.Request]] = {
    "note": _note,
    "undo": _undo,
    "benches wanted": _only,
    "order": _sort,
    "reason": _reopen,
    "what to try": _try,
    "initials": _initials,
    "nothing": _screen,
}


def _no_bench(token: Token, house: HouseBook) -> Misread:
    in_order = sorted(house.bench, key=bench_order)
    if not in_order:
        return unknown(token, say("a bench"), ())
    run = say("they run from {first} to {last}", first=in_order[0], last=in_order[-1])
    return unknown(token, say("a bench"), in_order, run)


def _no_such_start(cursor: Cursor, first: Token, house: HouseBook, at: str | None) -> Misread:
    """The message for a line whose first word is no bench, word or leaf."""
    follows = cursor.peek(1)
    if at is not None and starts_number(first) and starts_number(follows):
        return Misread(
            say(
                "expected one reading a line on a card, found more after {word}: "
                "or start with the bench",
                word=first.shown,
            ),
            first.at,
        )
    if is_whole(first) or BENCH_NUMBER.fullmatch(first.text):
        return _no_bench(first, house)
    if starts_number(first):
        return Misread(
            say(
                "expected a bench first, found {found}: a reading needs one, as 7 {found}",
                found=first.shown,
            ),
            first.at,
        )
    own, others = spelt(FORMS, house.house.language)
    known, expected = (*own, *house.leaf), say("a bench, a word or a leaf")
    return unknown(first, expected, known, say("type ? for them all"), others)
