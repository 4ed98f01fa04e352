"""The latch of a data folder: who holds it may write, and nobody else."""

from __future__ import annotations

import _thread
import contextlib
import fcntl
import os
import threading
import time
from pathlib import Path
from types import TracebackType
from typing import Self

from core.problems import Problem, StoreUnusable
from core.records.disk import make_folder, open_private, unusable
from core.say import say

LOOK_EVERY_S = 0.05
"""A writer sees to it that its files are still in their places when this time has passed."""

_AT_ONCE = fcntl.LOCK_EX | fcntl.LOCK_NB
_SHORT_PAUSE_S = 0.05e-3
_TRIES = 2


class Latch:
    """An advisory lock on a file of its own, shared by all books of the folder.

    The kernel opens it when its holder ends, however it ends. Its holder may enter again.
    `looks` counts how often it was seen to that the file is in its place.
    """

    def __init__(self, path: Path, wait_s: float = 5.0) -> None:
        self.path = path
        self.wait_s = wait_s
        self._threads = threading.RLock()
        self._depth = 0
        self._fd = -1
        self._look_at = 0.0
        self.looks = 0

    def __enter__(self) -> Self:
        """Wait for the latch; StoreUnusable after `wait_s`, naming the holder."""
        if not (self._threads.acquire(False) or self._threads.acquire(True, self.wait_s)):
            raise self._busy()
        try:
            if not self._depth:
                if self._fd < 0:
                    self._open()
                try:
                    fcntl.flock(self._fd, _AT_ONCE)
                except BlockingIOError:
                    self._wait()
                if time.monotonic() > self._look_at:
                    self._look()
            self._depth += 1
        except BaseException as error:
            if not self._depth:
                self.close()
            self._threads.release()
            if isinstance(error, OSError):
                raise unusable(error, self.path, say("take the folder's latch")) from error
            raise
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        self._depth -= 1
        if not self._depth:
            fcntl.flock(self._fd, fcntl.LOCK_UN)
        self._threads.release()

    def __del__(self) -> None:
        self.close()

    def close(self) -> None:
        """Give the file back; the next use opens it again."""
        if self._fd >= 0:
            os.close(self._fd)
            self._fd = -1

    def _look(self) -> None:
        """See that the file is in its place: gone or moved, it latches nobody out there."""
        while not self._is_in_place():
            self.close()
            self._open()
            self._wait()
        self._look_at = time.monotonic() + LOOK_EVERY_S
        self.looks += 1

    def _is_in_place(self) -> bool:
        try:
            return os.path.samestat(os.fstat(self._fd), self.path.stat())
        except FileNotFoundError:
            return False

    def _wait(self) -> None:
        """Try again shortly, then stand in the kernel's queue, where turns are fair."""
        for _ in range(_TRIES):
            time.sleep(_SHORT_PAUSE_S)
            with contextlib.suppress(BlockingIOError):
                return fcntl.flock(self._fd, _AT_ONCE)
        return self._queue()

    def _queue(self) -> None:
        """Wait in a thread of its own: no waiting lock call can be told to give up.

        It waits on a second name of the same open file. When we have given up and closed
        ours, the latch that it gets at last is free again as it closes its own.
        """
        theirs, ended = os.dup(self._fd), threading.Lock()
        refused: list[OSError] = []

        def wait() -> None:
            try:
                fcntl.flock(theirs, fcntl.LOCK_EX)
            except OSError as error:
                refused.append(error)
            os.close(theirs)
            ended.release()

        ended.acquire()
        try:
            _thread.start_new_thread(wait, ())
        except RuntimeError:
            os.close(theirs)
            says = say(
                "the system has no thread left to wait for it with; end what is not needed, then "
                "try again"
            )
            raise StoreUnusable(Problem(str(self.path), says)) from None
        if not ended.acquire(timeout=self.wait_s):
            raise self._busy()
        if refused:
            raise refused[0]

    def _open(self) -> None:
        make_folder(self.path.parent)
        self._fd = open_private(self.path, os.O_RDWR)

    def _busy(self) -> StoreUnusable:
        return StoreUnusable(
            Problem(
                str(self.path),
                say(
                    "{it} has held the records for over {wait_s:g} s; nothing was recorded: let it "
                    "go on or end it, then try again",
                    it=self._holder(),
                    wait_s=self.wait_s,
                ),
            )
        )

    def _holder(self) -> str:
        """Who holds the latch, as Linux tells it; nothing is spent on it while all is well."""
        with contextlib.suppress(OSError, ValueError):
            inode = str(self.path.stat().st_ino)
            for lock in Path("/proc/locks").read_text().splitlines():
                _, kind, _, _, process, file, *_ = lock.split()
                if kind == "FLOCK" and file.rpartition(":")[2] == inode:
                    return say("process {process}", process=process)
        return say("another process")
