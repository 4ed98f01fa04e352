"""Output that never waits: a thread writes, whoever has something to write goes on."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from queue import Queue

LONGEST_QUEUE = 30
GRACE_S = 1.0


class Outlet:
    """Writes to a file descriptor in a thread; `drained` is called there when all is written."""

    def __init__(self, fileno: int, drained: Callable[[], None]) -> None:
        self._fileno = fileno
        self._drained = drained
        self._queue: Queue[bytes | None] = Queue()
        self._thread = threading.Thread(target=self._run, name="outlet", daemon=True)

    @property
    def stalled(self) -> bool:
        """Whether so much waits that pictures had better be left out."""
        return self._queue.qsize() >= LONGEST_QUEUE

    def start(self) -> None:
        """Begin to write."""
        self._thread.start()

    def put(self, data: bytes) -> int:
        """Have the bytes written, after those before them."""
        self._queue.put(data)
        return len(data)

    def finish(self) -> None:
        """Write what is left, unless nobody takes it."""
        self._queue.put(None)
        if self._thread.is_alive():
            self._thread.join(GRACE_S)

    def _run(self) -> None:
        gone = False
        while (data := self._queue.get()) is not None:
            try:
                while data and not gone:
                    data = data[os.write(self._fileno, data) :]
            except OSError:
                gone = True  # whoever read this is no more; what is recorded does not hang on it
            if self._queue.empty():
                self._drained()
