"""Values of a house book as a message may show them: short, on one line, printable."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from core.say import Said, say, say_as

LONGEST = 40
HUGE = 10**15
"""Beyond it no figure of a house is meant, and Python refuses to print the longest integers."""

KINDS: Mapping[type, Said] = {
    str: say("text"),
    int: say("a number"),
    float: say("a number"),
    list: say("a list"),
    dict: say("a table"),
    dt.date: say("a date"),
    dt.time: say_as("of day", "a time"),
}
OTHER = say("something else")


def shown(value: object) -> str:
    """`value` as it stood in the file, or its kind where it is not a text or a number."""
    if isinstance(value, str):
        return f'"{printable(value)}"'
    if isinstance(value, bool) or not isinstance(value, int | float):
        return kind_of(value)
    if isinstance(value, int) and abs(value) > HUGE:
        return say("a number beyond 10^15")
    return f"{value:.12g}"


def printable(text: str) -> str:
    """`text` cut to a length a line can hold, what cannot be printed escaped."""
    cut = text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in cut)


def kind_of(value: object) -> str:
    """What a value of TOML is, in plain words."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return next((name for kind, name in KINDS.items() if isinstance(value, kind)), OTHER)
