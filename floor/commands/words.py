"""Codes as people read them."""

from __future__ import annotations

from collections.abc import Mapping

from core.measure import MEASURES
from core.say import say, say_as

_WORDS: Mapping[str, str] = {
    **dict[str, str](MEASURES.items()),
    "binder": say("binder"),
    "labour": say("labour"),
    "box": say("box"),
    "price": say("price"),
    "wrapper": say("wrapper"),
    "ring gauge": say("ring gauge"),
    "beyond": say_as("rule", "beyond"),
    "two_of_three": say_as("rule", "two of three"),
    "four_of_five": say_as("rule", "four of five"),
    "one_side": say_as("rule", "one side"),
    "run": say_as("rule", "run"),
    "rework at bunch": say("rework at bunch"),
    "re-wrap": say("re-wrap"),
    "second": say_as("fate", "second"),
    "scrap": say_as("fate", "scrap"),
    "hold": say_as("fate", "hold"),
}


def word(code: str) -> str:
    """What is shown for a measure, leaf class, unit, cost, run rule or fate, else the code."""
    return _WORDS.get(code, code)
