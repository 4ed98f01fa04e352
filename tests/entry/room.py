"""An invented rolling room to type lines for, in English and in Spanish."""

from __future__ import annotations

from typing import Any

from core.entry import requests as ask
from core.entry.parse import parse
from core.house.model import (
    Bench,
    Blend,
    CoverLeaf,
    FillerLeaf,
    HouseBook,
    HouseRules,
    Language,
    Part,
    Vitola,
)

BENCHES = ("3", "7", "7-A", "15", "118")
FILLER = ("VO-11", "SE-20", "LI-2")
COVER = ("BI-7", "CA-3")
BLENDS = ("B4", "B5")
# A vitola may be called what a word of the line is called.
VITOLAS = ("toro", "robusto", "good", "54x6", "Campaña")


def filler(code: str) -> FillerLeaf:
    """A filler leaf called `code`."""
    return FillerLeaf(code=code, leaf_class="seco", moisture=0.13, half_leaf_g=2.0)


def vitola(code: str) -> Vitola:
    """A size called `code`."""
    return Vitola(code=code, ring=52, length_mm=152.4)


def _cover(code: str) -> CoverLeaf:
    return CoverLeaf(
        code=code,
        use="binder",
        moisture=0.18,
        half_leaf_g=2.4,
        build_mm=0.3,
        on_cigar_g_per_m2=60.0,
    )


def _blend(code: str) -> Blend:
    parts = (Part(leaf="LI-2", parts=1),)
    return Blend(code=code, parts=parts, binder="BI-7", wrapper="CA-3")


def room(language: Language = "en", **other: Any) -> HouseBook:
    """The room, its words shown in `language`, with `other` tables in place of its own."""
    rules = HouseRules(
        name="Test house", language=language, standard_moisture=0.13, scale_division_g=0.1
    )
    tables = {
        "leaves": (*map(filler, FILLER), *map(_cover, COVER)),
        "blends": tuple(map(_blend, BLENDS)),
        "vitolas": tuple(map(vitola, VITOLAS)),
        "benches": tuple(Bench(number=number, blend="B4", vitola="toro") for number in BENCHES),
    }
    return HouseBook(house=rules, **(tables | other))


ROOM = room()


def asked(line: str, at: str | None = None) -> ask.Request:
    """What the line asks for; the test fails if it cannot be read."""
    parsed = parse(line, ROOM, at)
    assert isinstance(parsed, ask.Parsed), parsed
    return parsed.request


def refused(line: str, at: str | None = None) -> ask.Unread:
    """What is wrong with the line; the test fails if it can be read."""
    unread = parse(line, ROOM, at)
    assert isinstance(unread, ask.Unread), unread
    return unread
