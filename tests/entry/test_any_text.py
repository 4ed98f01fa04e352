"""Whatever is typed, there is an answer, and what is read can be recorded."""

from __future__ import annotations

import math
import random
from typing import cast

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from core.entry import requests as ask
from core.entry.faults import FAULTS
from core.entry.parse import parse
from core.entry.words import GRAMMAR
from tests.entry.room import ROOM

CODES = {fault.code for fault in FAULTS}
MUTATIONS = 6000
PIECES = (
    *(token for line in GRAMMAR for token in line.typed.split()),
    *"0 00 1e9 -1 +2 .5 ,5 % ! / ? g kg lb mm 7- -A 7-A é ñ ½ ² ٣".split(),  # noqa: SIM905
    *"\u00a0\u0301\t\x00\ud800",
    "9" * 60,
    "x" * 60,
    "hechos", "falla", "roto", "toma", "vitola", "orden", "por", "qué", "hard", "spot",
    "segunda", "retiene", "libera", "fuma", "cata", "vena", "barrido", "recibe", "existencia",
    "línea", "prueba", "sin", "LI-2=1,5",
    "lote", "cosecha", "pacas", "precio", "24-118", "t", "13,5%",
)  # fmt: skip


def _sound(request: ask.Request) -> None:
    """Fail if a request names what the house has not, or holds what cannot be recorded."""
    bench = getattr(request, "bench", None)
    assert bench is None or bench in ROOM.bench
    assert getattr(request, "leaf", None) is None or cast(str, request.leaf) in ROOM.leaf  # type: ignore[union-attr]
    weighed = [getattr(request, "reading", 1.0)]
    if not isinstance(request, ask.Receive | ask.Stocktake):
        weighed.append(getattr(request, "grams", 1.0))
    if isinstance(request, ask.Check):
        assert 1 <= len(request.readings) <= 100
        assert 2 <= request.of <= 1000 if request.measure == "bundle" else request.of == 1
        weighed += request.readings
    assert all(math.isfinite(grams) and 0 < grams <= 100_000 for grams in weighed)
    counts = [getattr(request, "n", 1), getattr(request, "quota", None) or 1]
    if isinstance(request, ask.Fail):
        counts += [n for _, n in request.faults]
        assert {code for code, _ in request.faults} <= CODES
        assert len(request.faults) == len(dict(request.faults)) > 0
    assert all(1 <= n <= 100_000 for n in counts)
    _of_a_sound_lot(request)
    if isinstance(request, ask.Hold):
        assert request.reason.strip("! ") == request.reason
    if isinstance(request, ask.Moisture):
        assert 0 < request.moisture < 0.6
    if isinstance(request, ask.Roll):
        assert request.vitola in ROOM.vitola
        assert request.blend is None or request.blend in ROOM.blend
    if isinstance(request, ask.Panel | ask.Try):
        assert request.text.strip() == request.text != ""
    if isinstance(request, ask.Note):
        assert request.text.strip() == request.text != ""
    if isinstance(request, ask.Undo):
        assert request.entry is None or 1 <= request.entry <= 999_999_999


def _of_a_sound_lot(request: ask.Request) -> None:
    lot = getattr(request, "lot", None)
    assert lot is None or (1 <= len(lot) <= 16 and lot.replace("_", "x").strip("./-") != "")
    if isinstance(request, ask.Receive):
        assert request.crop is None or 1900 <= request.crop <= 2199
        assert request.bales is None or 1 <= request.bales <= 10_000
        assert request.price_per_kg is None or 0 < request.price_per_kg < math.inf
    if isinstance(request, ask.Receive | ask.Stocktake):
        assert 0 <= request.grams <= 50_000_000
        assert request.grams > 0 or isinstance(request, ask.Stocktake)
        assert request.moisture is None or 0 < request.moisture < 0.6


def _answered(line: str, at: str | None) -> None:
    answer = parse(line, ROOM, at)
    assert parse(line, ROOM, at) == answer
    if isinstance(answer, ask.Parsed):
        _sound(answer.request)
        return
    assert 0 <= answer.at <= len(line)
    assert answer.says.startswith("expected ")
    assert answer.says.isprintable()
    answer.says.encode()


where = st.sampled_from([None, "7", "7-A", "gone"])


@given(st.text(st.characters(), max_size=60), where)
@example("/", None)
@example("!", "7")
@example("%", "7")
@example("LI-2 %", None)
@example("7 scrap 5", "7")
@settings(deadline=None, max_examples=400)
def test_any_text_has_an_answer(line: str, at: str | None) -> None:
    _answered(line, at)


@given(st.lists(st.sampled_from(PIECES), max_size=8).map(" ".join), where)
@settings(deadline=None, max_examples=400)
def test_any_words_in_any_order_have_an_answer(line: str, at: str | None) -> None:
    _answered(line, at)


def _changed(line: str, chance: random.Random) -> str:
    """The line with one slip of the fingers, or one piece of another line in it."""
    at = chance.randrange(len(line) + 1)
    to = min(len(line), at + chance.randrange(1, 4))
    return chance.choice(
        (
            line[:at] + line[to:],
            line[:at] + chance.choice(PIECES) + line[at:],
            line[:at] + chance.choice(PIECES) + line[to:],
            line[:at] + " " + line[at:],
            line[:to] + line[at:],
            line[to:] + line[:at],
            line.swapcase(),
        )
    )


@pytest.mark.parametrize("seed", range(3))
def test_lines_with_slips_in_them_have_an_answer(seed: int) -> None:
    chance = random.Random(seed)
    for _ in range(MUTATIONS // 3):
        line = chance.choice(GRAMMAR).typed
        for _ in range(chance.randrange(1, 6)):
            line = _changed(line, chance)
        _answered(line, chance.choice((None, "7", "7-A", "gone")))


@pytest.mark.parametrize(
    "line",
    [
        "9" * 400,
        "7 " + "9 " * 199,
        "." * 400,
        "!" * 400,
        "é" * 400,
        "\u0301" * 400,
        "7 fail " + "torn 1 " * 56,
        "/" * 400,
        "x" * 100_000,
        "7 " * 200_000,
    ],
    ids=lambda line: f"{line[:4]!a}-{len(line)}",
)
@pytest.mark.parametrize("at", [None, "7"])
def test_long_lines_have_an_answer(line: str, at: str | None) -> None:
    _answered(line, at)
