"""Leaving in order when the system says so: a signal, a dropped line, a closed terminal."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
import threading
from collections.abc import Callable
from types import FrameType
from typing import Protocol

GRACE_S = 3.0
"""A terminal that takes no output can hold the loop for ever; after this the process ends.

Nothing is lost by it: whatever was acknowledged is on the disk.
"""

SIGNALS = (signal.SIGTERM, signal.SIGHUP)

Handler = Callable[[int, FrameType | None], object] | int | None


class Leaves(Protocol):
    """What is told to leave."""

    def leave(self) -> None: ...


class Departure:
    """Turns the system's signals into an ordinary exit.

    The handlers are Python's own, not the loop's: they run even while the loop waits for a
    stalled terminal, and can then start the clock on it.
    """

    def __init__(self, app: Leaves) -> None:
        self._app = app
        self._before: dict[int, Handler] = {}
        self._loop: asyncio.AbstractEventLoop | None = None
        self._had_terminal = False
        self._last_resort: threading.Timer | None = None

    def watch(self) -> None:
        """Take over the signals; only a program's main thread may."""
        self._loop = asyncio.get_running_loop()
        self._had_terminal = _terminal_is_there()
        if threading.current_thread() is threading.main_thread():
            for number in SIGNALS:
                self._before[number] = signal.signal(number, self._told)

    def forget(self) -> None:
        """Give the signals back."""
        for number, handler in self._before.items():
            signal.signal(number, handler)
        self._before.clear()

    def look(self) -> None:
        """Leave where the terminal is gone, though no signal said so."""
        if self._had_terminal and not _terminal_is_there():
            self._leave()

    def _told(self, _number: int, _frame: FrameType | None) -> None:
        self._leave()

    def _leave(self) -> None:
        if self._last_resort is None:
            self._last_resort = threading.Timer(GRACE_S, os._exit, (1,))
            self._last_resort.daemon = True
            self._last_resort.start()
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self._app.leave)


def _terminal_is_there() -> bool:
    """Whether standard input still is a terminal: one that was hung up is none."""
    return sys.__stdin__ is not None and not sys.__stdin__.closed and sys.__stdin__.isatty()
