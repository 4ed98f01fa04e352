"""Values of a house book as a message may show them: short, on one line, printable."""

from __future__ import annotations

import datetime as dt

LONGEST = 40
HUGE = 10**15
"""Beyond it no figure of a house is meant, and Python refuses to print the longest integers."""

KINDS: dict[type, str] = {
    str: "text",
    int: "a number",
    float: "a number",
    list: "a list",
    dict: "a table",
    dt.date: "a date",
    dt.time: "a time",
}


def shown(value: object) -> str:
    """`value` as it stood in the file, or its kind where it is not a text or a number."""
    if isinstance(value, str):
        return f'"{printable(value)}"'
    if isinstance(value, bool) or not isinstance(value, int | float):
        return kind_of(value)
    if isinstance(value, int) and abs(value) > HUGE:
        return "a number beyond 10^15"
    return f"{value:.12g}"


def printable(text: str) -> str:
    """`text` cut to a length a line can hold, what cannot be printed escaped."""
    cut = text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in cut)


def kind_of(value: object) -> str:
    """What a value of TOML is, in plain words."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return next((name for kind, name in KINDS.items() if isinstance(value, kind)), "something else")
