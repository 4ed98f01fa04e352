"""Whatever a file holds, it comes to a house or to problems, and never to an exception."""

from __future__ import annotations

import tomllib
from typing import Any

import orjson
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from core.house.model import HouseBook
from core.house.read import Read, read_house
from core.house.stored import plain, restore, store
from tests.house.books import DEMO, document

HOUSE_BOOK = TypeAdapter(HouseBook)
"""Pydantic's own reading of the same types."""
DEMO_TEXT = DEMO.read_bytes()
TABLES = ("house", "leaf", "blend", "vitola", "approved", "bench")
NAMES = ("code", "use", "ring", "parts", "number", "length", "moisture", "draw", "profile", "x")
KEYS = st.sampled_from((*TABLES, *NAMES))
SCALARS = (
    st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=20)
    | st.sampled_from(["5 in", "13 %", "0.5 g", "60 g/m^2", "toro", "filler", "figurado", "7-A"])
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=5),
    max_leaves=12,
)
Path = tuple[str | int, ...]


def sound(read: Read) -> None:
    """What is promised of every reading."""
    assert (read.house is None) == bool(read.problems)
    assert read.house is not None or read.odd == ()
    for line in map(str, (*read.problems, *read.odd)):
        assert line.startswith("FILE: ")
        assert line.isprintable()
    if read.house is not None:
        assert HOUSE_BOOK.validate_python(plain(read.house)) == read.house
        assert restore(orjson.loads(orjson.dumps(store(read.house)))) == read.house


def nodes(value: Any, path: Path = ()) -> list[Path]:
    """Every place in the demo's tables."""
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    found: list[Path] = []
    for key, child in inner:
        found.append((*path, key))
        if isinstance(child, dict | list):
            found += nodes(child, (*path, key))
    return found


EDITS = st.tuples(st.sampled_from(nodes(tomllib.loads(DEMO_TEXT.decode()))), st.none() | VALUES)


@settings(deadline=None, max_examples=150)
@given(data=st.dictionaries(KEYS, VALUES, max_size=6))
def test_any_tables(data: dict[str, object]) -> None:
    sound(read_house(document(data), "FILE"))


@settings(deadline=None, max_examples=100)
@given(edits=st.lists(EDITS, min_size=1, max_size=3))
def test_the_demo_with_parts_replaced_or_taken_out(edits: list[tuple[Path, object]]) -> None:
    data = tomllib.loads(DEMO_TEXT.decode())
    for path, value in edits:
        replace(data, path, value)
    sound(read_house(document(data), "FILE"))


def replace(data: Any, path: Path, value: object) -> None:
    """Put `value` at a place, or take it out; nothing where an earlier edit took the way to it."""
    for key in path[:-1]:
        data = data[key] if has(data, key) else None
    if not has(data, path[-1]):
        return
    if value is None:
        del data[path[-1]]
    else:
        data[path[-1]] = value


def has(data: Any, key: str | int) -> bool:
    if isinstance(data, dict):
        return key in data
    return isinstance(data, list) and isinstance(key, int) and key < len(data)


@settings(deadline=None, max_examples=100)
@given(
    start=st.integers(0, len(DEMO_TEXT)),
    length=st.integers(0, 40),
    new=st.binary(max_size=12) | st.sampled_from([b"[", b'"', b"=", b"\n", b"{", b"nan", b"\\u"]),
)
def test_the_demo_with_bytes_replaced(start: int, length: int, new: bytes) -> None:
    sound(read_house(DEMO_TEXT[:start] + new + DEMO_TEXT[start + length :], "FILE"))


@settings(deadline=None, max_examples=60)
@given(end=st.integers(0, len(DEMO_TEXT)))
def test_the_demo_cut_short(end: int) -> None:
    sound(read_house(DEMO_TEXT[:end], "FILE"))


@settings(deadline=None, max_examples=100)
@given(text=st.binary(max_size=200) | st.text(max_size=200))
def test_anything_at_all(text: bytes | str) -> None:
    sound(read_house(text, "FILE"))
