"""Codes of leaf, blends and vitolas, and bench numbers: what may be one, and who has it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from core.house.model import BENCH_NUMBER
from core.say import Said, say

LONGEST = 16
_AMOUNT_LIKE = re.compile(r"[\d.]+[^\W\d_]*")


class Holder(NamedTuple):
    """The first entry that has a code: its place in its list from 1, its spelling, its use."""

    place: int
    code: str
    use: str


Holders = Mapping[str, Holder]


class Known(NamedTuple):
    """Who has which code in each list of tables, by `code_key`."""

    leaf: Holders
    blend: Holders
    vitola: Holders
    bench: Holders


def code_key(code: str) -> str:
    """What two codes are compared by: letter case and ways of writing an accent aside."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", code).casefold())


def code_fault(code: str) -> Said | None:
    """Why the entry line could not take `code`, to be said after it; None if it can."""
    if not code:
        return say("is empty")
    if len(code) > LONGEST:
        return say("is longer than {longest} characters", longest=LONGEST)
    if not all(_allowed(character) for character in code):
        return say("may hold only letters, digits, - _ and . (no blanks)")
    if not code[0].isalnum():
        return say("must begin with a letter or a digit")
    if _AMOUNT_LIKE.fullmatch(code) or _is_float(code) or BENCH_NUMBER.fullmatch(code):
        return say("reads as a number or a bench on the entry line: begin it with a letter")
    return None


def bench_number(value: object) -> str | None:
    """A bench's number as the book keeps it, `7` or `7-A`; None if `value` is none."""
    if isinstance(value, bool) or not isinstance(value, int | str):
        return None
    found = BENCH_NUMBER.fullmatch(str(value)) if not _is_long(value) else None
    if found is None or int(found[1]) == 0:
        return None
    plain = str(int(found[1]))
    return f"{plain}-{found[2]}" if found[2] else plain


def holders(entries: Iterable[Mapping[str, object]], key: str) -> dict[str, Holder]:
    """Who has each code of one list of tables, the first where two have the same."""
    found: dict[str, Holder] = {}
    for place, entry in enumerate(entries, start=1):
        value = entry.get(key)
        code = bench_number(value) if key == "number" else value
        if isinstance(code, str):
            spelled, use = unicodedata.normalize("NFC", code), entry.get("use")
            holder = Holder(place, spelled, use if isinstance(use, str) else "")
            found.setdefault(code_key(code), holder)
    return found


def _allowed(character: str) -> bool:
    category = unicodedata.category(character)
    return character in "-_." or category[0] in "LM" or category == "Nd"


def _is_float(code: str) -> bool:
    try:
        float(code)
    except ValueError:
        return False
    return True


def _is_long(value: int | str) -> bool:
    return len(value) > LONGEST if isinstance(value, str) else not 0 <= value <= 9999
