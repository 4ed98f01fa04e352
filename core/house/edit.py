"""A house book's text with something set where it stands; all else stays as it was typed."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

_TABLE = re.compile(r"\s*\[\[?\s*([\w-]+)")
_COMMENT = re.compile(r"\s+#[^\"']*$")


class _Table(NamedTuple):
    """Where a [[table]] stands among the lines, and the line that gives its code."""

    start: int
    end: int
    code_at: int


def with_value(text: str, table: str, code: str, key: str, value: str) -> str | None:
    """The text with `key = value` in the [[table]] of that code; None where there is none such.

    A key that is not there is written below the code; the comment behind a value stays. Keys
    within strings are not told from others: whoever saves the text reads it again first.
    """
    lines = text.splitlines(keepends=True)
    found = _table(lines, table, code)
    if found is None:
        return None
    _set(lines, found, key, value)
    return "".join(lines)


def with_house_key(text: str, key: str, value: str | None) -> str | None:
    """The text with `key = value` in its [house], or without that key; None without a [house]."""
    lines = text.splitlines(keepends=True)
    found = _house(lines)
    if found is None:
        return None
    if value is not None:
        lines[found.code_at] = lines[found.code_at].rstrip("\r\n") + _ending(lines[found.code_at])
        _set(lines, found, key, value)
    elif (place := _key(lines, found.start, found.end, key)) is not None:
        del lines[place : _value_end(lines, place)]
    return "".join(lines)


def _house(lines: Sequence[str]) -> _Table | None:
    """The [house]: what is new in it goes below its name."""
    starts = [n for n, row in enumerate(lines) if _TABLE.match(row)]
    for start, end in pairwise([*starts, len(lines)]):
        head = _TABLE.match(lines[start])
        if head is not None and head[1] == "house":
            name = _key(lines, start, end, "name")
            return _Table(start, end, start if name is None else name)
    return None


def with_copy(
    text: str, table: str, code: str, new_code: str, values: Sequence[tuple[str, str]]
) -> str | None:
    """The text with a copy of a [[table]] behind it, under `new_code` and with those `values`.

    None where there is no table of that code.
    """
    lines = text.splitlines(keepends=True)
    found = _table(lines, table, code)
    if found is None:
        return None
    end = found.end
    while not lines[end - 1].strip() or lines[end - 1].lstrip().startswith("#"):
        end -= 1  # what stands before the next table is said of that one
    ending = _ending(lines[found.code_at])
    copied = lines[found.start : end]
    copied[-1] = copied[-1].rstrip("\r\n") + ending
    own = _Table(0, len(copied), found.code_at - found.start)
    _set(copied, own, "code", f'"{new_code}"')
    for key, value in values:
        _set(copied, own._replace(end=len(copied)), key, value)
    before, after = lines[:end], lines[end:]
    before[-1] = before[-1].rstrip("\r\n") + ending
    return "".join((*before, ending, *copied, *after))


def _table(lines: Sequence[str], table: str, code: str) -> _Table | None:
    starts = [n for n, row in enumerate(lines) if _TABLE.match(row)]
    for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        head = _TABLE.match(lines[start])
        at = _key(lines, start, end, "code")
        if head is None or head[1] != table or at is None or _bare(lines[at]) != code:
            continue
        return _Table(start, end, at)
    return None


def _set(lines: list[str], table: _Table, key: str, value: str) -> None:
    place = _key(lines, table.start, table.end, key)
    ending = _ending(lines[table.code_at])
    if place is None:
        lines.insert(table.code_at + 1, f"{key} = {value}{ending}")
        return
    before, _, after = lines[place].rstrip("\r\n").partition("=")
    comment = _COMMENT.search(after)
    told = comment[0] if comment else ""
    lines[place : _value_end(lines, place)] = [f"{before.rstrip()} = {value}{told}{ending}"]


def _value_end(lines: Sequence[str], place: int) -> int:
    """The line behind the value that begins on one: an array may go on over several."""
    for end in range(place + 1, len(lines) + 1):
        try:
            tomllib.loads("".join(lines[place:end]))
        except tomllib.TOMLDecodeError:
            continue
        return end
    return place + 1


def _key(lines: Sequence[str], start: int, end: int, key: str) -> int | None:
    named = re.compile(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=")
    return next((n for n in range(start, end) if named.match(lines[n])), None)


def _bare(line: str) -> str:
    """The string or number a line gives, without its quotes and comment."""
    _, _, value = line.partition("=")
    return _COMMENT.sub("", value).strip().strip("\"'")


def _ending(line: str) -> str:
    return line[len(line.rstrip("\r\n")) :] or "\n"
