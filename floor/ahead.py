"""What the first picture needs nothing of: loaded after it, before anybody asks for it.

A terminal is there sooner, and no first key or page waits for its code.
"""

from __future__ import annotations

import contextlib
import gc
import threading
from importlib import import_module

from floor.screens.pages import PAGES

ROOMS = (
    "core.entry.parse",
    "core.day.compose",
    "core.day.doubts",
    "core.recipe.card",
    "core.entry.complete",
    *(f"floor.screens.{room}" for room, _ in PAGES.values()),
    "core.desk.rounds",
    "core.desk.measured",
    "core.desk.drawn",
    "core.stock.issue",
    "core.desk.line",
    "core.day.reporting",
    "core.desk.panel",
    "core.desk.closing",
)
"""In the order in which they are likely to be asked for."""


def load_ahead() -> threading.Thread:
    """Load them beside what goes on; leaving the floor waits for the end of it."""
    thread = threading.Thread(target=_load, name="load-ahead")
    thread.start()
    return thread


def _load() -> None:
    for room in ROOMS:
        with contextlib.suppress(Exception):  # who asks for it will say what is wrong
            import_module(room)
    gc.freeze()  # as before the first picture: code never becomes garbage
