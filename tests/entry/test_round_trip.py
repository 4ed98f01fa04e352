"""Any request that can be made, typed as a line in either language, is read as itself."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any, cast

from hypothesis import given, settings
from hypothesis import strategies as st

from core.entry import requests as ask
from core.entry.faults import BY_WORD, FAULTS
from core.entry.parse import parse
from core.entry.words import FORMS, ORDERS
from core.measure import Measure
from tests.entry.room import BENCHES, BLENDS, COVER, FILLER, ROOM, VITOLAS

Draw = Any

benches = st.sampled_from(BENCHES)
leaves = st.sampled_from(FILLER + COVER)
counts = st.integers(1, 100_000)
lots = st.from_regex(r"[A-Za-z0-9][A-Za-z0-9./_-]{0,15}", fullmatch=True)
grams = st.decimals(Decimal("0.001"), Decimal(100_000), places=3)
readings = st.lists(st.decimals(Decimal("0.01"), Decimal(200), places=2), min_size=1, max_size=12)
free = st.text(
    st.characters(exclude_categories=("C", "Z"), include_characters=" "), min_size=1, max_size=200
).map(str.strip)
texts = free.filter(lambda text: text.strip("! ") != "")
reasons = texts.filter(lambda text: text.lstrip("!")[:1] not in "+-.,0123456789")


def _spelled(draw: Draw, word: str) -> str:
    """One of the word's spellings, in any case."""
    words = next(form.en + form.es for form in FORMS if form.means == word)
    case: Callable[[str], str] = draw(st.sampled_from([str.lower, str.upper, str.title]))
    return case(draw(st.sampled_from(words)))


def _number(draw: Draw, number: Decimal) -> str:
    text = f"{number:f}"
    thousands = len(text.partition(".")[2]) == 3  # such a comma is asked about
    return text.replace(".", ",") if draw(st.booleans()) and not thousands else text


@st.composite
def checks(draw: Draw) -> tuple[str, ask.Request]:
    bench, found = draw(benches), draw(readings)
    measure = draw(st.sampled_from(["filler", "bunch", "cigar", "ring", "length", "draw"]))
    word = _spelled(draw, measure)
    typed = " ".join(_number(draw, reading) for reading in found)
    line = (
        f"{bench} {typed}"
        if measure == "bunch" and draw(st.booleans())
        else (f"{bench} {word} {typed}")
    )
    return line, ask.Check(bench, cast(Measure, measure), tuple(map(float, found)))


@st.composite
def portions(draw: Draw) -> tuple[str, ask.Request]:
    bench, code, found = draw(benches), draw(st.sampled_from(FILLER)), draw(readings)
    typed = " ".join(_number(draw, reading) for reading in found)
    line = f"{bench} {_spelled(draw, 'portion')} {code.lower()} {typed}"
    return line, ask.Check(bench, "portion", tuple(map(float, found)), leaf=code)


@st.composite
def charted(draw: Draw) -> tuple[str, ask.Request]:
    bench, measure = draw(benches), draw(st.none() | st.sampled_from(["cigar", "bundle", "draw"]))
    word = _spelled(draw, "chart")
    of = "" if measure is None else f" {_spelled(draw, measure)}"
    start = draw(st.sampled_from([f"{bench} {word}{of}", f"{word} {bench}{of}"]))
    return start, ask.Chart(bench, measure)


@st.composite
def bundles(draw: Draw) -> tuple[str, ask.Request]:
    bench, of, weight = draw(benches), draw(st.integers(2, 1000)), draw(grams)
    line = f"{bench} {_spelled(draw, 'bundle')} {of} {_number(draw, weight)}"
    return line, ask.Check(bench, "bundle", (float(weight),), of)


@st.composite
def counted(draw: Draw) -> tuple[str, ask.Request]:
    kinds = ["made", "good", "rework", "second", "release", "workers", "panel"]
    bench, n, kind = draw(benches), draw(counts), draw(st.sampled_from(kinds))
    return f"{bench} {_spelled(draw, kind)} {n}", ask.Count(bench, kind, n)


@st.composite
def failed(draw: Draw) -> tuple[str, ask.Request]:
    bench = draw(benches)
    codes = st.sampled_from([fault.code for fault in FAULTS])
    faults = draw(st.dictionaries(codes, counts, min_size=1, max_size=6))
    words = {code: [w for w, fault in BY_WORD.items() if fault.code == code] for code in faults}
    typed = " ".join(f"{draw(st.sampled_from(words[code]))} {n}" for code, n in faults.items())
    return f"{bench} {_spelled(draw, 'fail')} {typed}", ask.Fail(bench, tuple(faults.items()))


@st.composite
def leaf(draw: Draw) -> tuple[str, ask.Request]:
    bench, code, weight = draw(benches), draw(leaves), draw(grams)
    kind = draw(st.sampled_from(["take", "back", "scrap", "stem"]))
    line = f"{bench} {_spelled(draw, kind)} {code.lower()} {_number(draw, weight)}"
    if kind in ("scrap", "stem"):
        return line, ask.Scrap(bench, float(weight), code, kind)
    lot = draw(st.none() | lots)
    of = "" if lot is None else f" {draw(st.sampled_from(['lot', 'LOTE']))} {lot}"
    return line + of, ask.Leaf(bench, kind, code, float(weight), lot)


@st.composite
def held(draw: Draw) -> tuple[str, ask.Request]:
    bench, n, reason = draw(benches), draw(counts), draw(st.just("") | reasons)
    return f"{bench} {_spelled(draw, 'hold')} {n} {reason}", ask.Hold(bench, n, reason)


@st.composite
def swept(draw: Draw) -> tuple[str, ask.Request]:
    code, weight = draw(st.none() | leaves), draw(grams)
    of = "" if code is None else f"{code} "
    line = f"{_spelled(draw, 'sweepings')} {of}{_number(draw, weight)}"
    return line, ask.Sweepings(float(weight), code)


@st.composite
def in_stock(draw: Draw) -> tuple[str, ask.Request]:
    """A lot received, what is told of it in any order; or what was found of one."""
    code, lot, weight = draw(leaves), draw(lots), draw(grams)
    wet = draw(st.none() | st.decimals(Decimal("0.1"), Decimal("59.9"), places=1))
    moisture = None if wet is None else float(wet / 100)
    start = f"{code} {lot} {weight:f}"
    if draw(st.booleans()):
        line = f"{_spelled(draw, 'stock')} {start}" + ("" if wet is None else f" {wet:f}%")
        return line, ask.Stocktake(code, lot, float(weight), moisture)
    crop, bales = draw(st.none() | st.integers(1900, 2199)), draw(st.none() | st.integers(1, 9999))
    price = draw(st.none() | st.decimals(Decimal("0.01"), Decimal(9999), places=2))
    told = [
        *([] if wet is None else [f"{wet:f} %"]),
        *([] if crop is None else [f"{draw(st.sampled_from(['crop', 'cosecha']))} {crop}"]),
        *([] if bales is None else [f"{draw(st.sampled_from(['bales', 'PACAS']))} {bales}"]),
        *([] if price is None else [f"{draw(st.sampled_from(['price', 'precio']))} {price:f}"]),
    ]
    rest = " ".join(draw(st.permutations(told)))
    line = f"{_spelled(draw, 'receive')} {start} {rest}".rstrip()
    cost = None if price is None else float(price)
    return line, ask.Receive(code, lot, float(weight), moisture, crop, bales, cost)


@st.composite
def tasted(draw: Draw) -> tuple[str, ask.Request]:
    text, word = draw(texts), _spelled(draw, "panel")
    return f"{word} {text}", ask.Panel(text, len(word) + 1)


@st.composite
def rolled(draw: Draw) -> tuple[str, ask.Request]:
    bench, vitola = draw(benches), draw(st.sampled_from(VITOLAS))
    blend = draw(st.none() | st.sampled_from(BLENDS))
    quota = draw(st.none() | counts)
    rest = [str(part) for part in (blend, quota) if part is not None]
    line = " ".join([bench, _spelled(draw, "roll"), vitola, *rest])
    return line, ask.Roll(bench, vitola, blend, quota)


@st.composite
def measured(draw: Draw) -> tuple[str, ask.Request]:
    code, percent = draw(leaves), draw(st.decimals(Decimal("0.1"), Decimal("59.9"), places=1))
    blank = draw(st.sampled_from(["", " "]))
    return f"{code} {_number(draw, percent)}{blank}%", ask.Moisture(code, float(percent / 100))


@st.composite
def written(draw: Draw) -> tuple[str, ask.Request]:
    text, bench = draw(texts), draw(st.none() | benches)
    start = f"{bench} " if bench else ""
    return f"{start}{_spelled(draw, 'note')} {text}", ask.Note(text, bench)


@st.composite
def undone(draw: Draw) -> tuple[str, ask.Request]:
    entry, reason = draw(st.none() | st.integers(1, 999_999_999)), draw(st.just("") | reasons)
    parts = [
        _spelled(draw, "undo"),
        *([str(entry)] if entry else []),
        *([reason] if reason else []),
    ]
    return " ".join(parts), ask.Undo(entry, reason)


@st.composite
def shown(draw: Draw) -> tuple[str, ask.Request]:
    screen = draw(
        st.sampled_from(
            [
                *("board", "rounds", "leaf", "day", "days", "panel", "log", "help", "close"),
                *("only", "sort"),
            ]
        )
    )
    word = _spelled(draw, screen)
    if screen == "only":
        wanted = draw(st.just("") | texts)
        return f"{word} {wanted}".strip(), ask.Show("only", wanted)
    if screen == "sort":
        order = draw(st.sampled_from(ORDERS))
        spelled = draw(st.sampled_from(order.en + order.es))
        return f"{word} {spelled}", ask.Show("sort", order.means)
    return word, ask.Show(screen)


FREE_TEXT = (ask.Note, ask.Undo, ask.Hold, ask.Panel)


@given(
    checks() | portions() | bundles() | counted() | failed() | leaf() | rolled() | measured()
    | written() | undone() | shown() | charted() | held() | swept() | in_stock() | tasted(),
    st.sampled_from(["", "!", " !"]),
)  # fmt: skip
@settings(deadline=None, max_examples=400)
def test_a_request_typed_is_read_as_itself(typed: tuple[str, ask.Request], mark: str) -> None:
    line, request = typed
    is_text = isinstance(request, FREE_TEXT) or (
        isinstance(request, ask.Show) and request.screen == "only"
    )
    mark = "" if is_text else mark
    assert parse(line + mark, ROOM, None) == ask.Parsed(request, sure=mark != "")


@given(benches, grams, st.sampled_from(["", "g", " g"]))
@settings(deadline=None)
def test_a_reading_typed_on_a_card_is_read_as_itself(
    bench: str, weight: Decimal, unit: str
) -> None:
    assert parse(f"{weight:f}{unit}", ROOM, bench) == ask.Parsed(
        ask.Reading(bench, float(weight), "g" if unit else None)
    )
