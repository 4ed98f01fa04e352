"""Where in a house book something stands, as the lines about it begin."""

from __future__ import annotations

from core.house.shown import printable, shown
from core.say import joined

HOUSE = "[house]"
SINGLE = ("house", "excise")
"""The tables there is only one of."""


def entry_place(table: str, number: int, code: object = None) -> str:
    """`[[vitola]] 3 "toro"`, counted from 1; without a code where there is none to show."""
    place = f"[[{table}]] {number}"
    if isinstance(code, bool) or not isinstance(code, str | int):
        return place
    if isinstance(code, str):
        return f'{place} "{printable(code)}"'
    return joined("", (place, ' "', shown(code), '"'))


def heading(table: str) -> str:
    """How a table is headed in the file."""
    return f"[{table}]" if table in SINGLE else f"[[{table}]]"
