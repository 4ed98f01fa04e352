"""Wrong PINs counted, on the disk, before it is known that they are wrong.

One small file in the data folder, written with the latch held, so that all terminals and
commands share one count and a killed process saves no guess. A file that is damaged counts as
many wrong ones; a clock set back begins the wait anew: neither takes longer than the longest
wait, and neither lets anybody in.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import NamedTuple

from core.problems import BadInput
from core.records.disk import open_private, sync_data, sync_folder, unusable
from core.records.folder import Folder
from core.say import say

FILE = "pin-tries"
FREE = 3
"""Wrong PINs before the first wait."""
FIRST_WAIT_S, LONGEST_WAIT_S = 5, 300
MOST = 9
"""Counted no further: the wait is the longest by then."""
_LONGEST_TEXT = 80


class Tries(NamedTuple):
    """How many were wrong since the last right one, and when the last was tried (epoch, s)."""

    wrong: int
    at_s: float

    def wait_s(self, now_s: float) -> float:
        """Seconds before the next may be tried."""
        if self.wrong < FREE:
            return 0.0
        pause_s: int = min(FIRST_WAIT_S << (self.wrong - FREE), LONGEST_WAIT_S)
        return max(0.0, self.at_s + pause_s - now_s)

    @property
    def left(self) -> int:
        """How many more may be tried without a wait."""
        return max(0, FREE - self.wrong)


def count(folder: Folder, now_s: float) -> Tries:
    """Count one more as wrong, before it is checked; BadInput while there is a wait.

    StoreUnusable where it cannot be counted: then it must not be checked either.
    """
    path = folder.path / FILE
    with folder.latch:
        known = _read(path, now_s)
        wait_s = known.wait_s(now_s)
        if wait_s > 0:
            if known != _on_disk(path):
                _write(path, known)
            raise BadInput(
                say("too many wrong PINs; wait {seconds} s, then try again", seconds=_whole(wait_s))
            )
        counted = Tries(min(known.wrong + 1, MOST), now_s)
        _write(path, counted)
        return counted


def forgive(folder: Folder) -> None:
    """The PIN was right: the count begins anew."""
    path = folder.path / FILE
    try:
        with folder.latch:
            path.unlink(missing_ok=True)
            sync_folder(folder.path)
    except OSError as error:
        raise unusable(error, path, say("reset the count of wrong PINs")) from error


def wrong_says(tries: Tries, now_s: float) -> str:
    """That the PIN was wrong, and what comes next."""
    if tries.left == 1:
        return say("the PIN is wrong; 1 more try before there is a wait")
    if tries.left:
        return say("the PIN is wrong; {n} more tries before there is a wait", n=tries.left)
    wait_s = _whole(tries.wait_s(now_s))
    return say("the PIN is wrong; the next try in {seconds} s", seconds=wait_s)


def _whole(seconds: float) -> int:
    """Seconds, rounded up: who waits as long as he was told is not told to wait again."""
    return int(-(-seconds // 1))


def _read(path: Path, now_s: float) -> Tries:
    """What was counted, held against the clock of now."""
    known = _on_disk(path)
    if known is None:
        return Tries(MOST, now_s)
    return known._replace(at_s=min(known.at_s, now_s))


def _on_disk(path: Path) -> Tries | None:
    """What the file says, nothing counted where there is none; None where it is damaged."""
    try:
        with path.open("rb") as file:
            text = file.read(_LONGEST_TEXT)
    except FileNotFoundError:
        return Tries(0, 0.0)
    except OSError as error:
        raise unusable(error, path, say("read the count of wrong PINs")) from error
    words = text.split()
    try:
        wrong, at_s = int(words[0]), float(words[1])
    except (ValueError, IndexError):
        return None
    sound = len(words) == 2 and 0 <= wrong <= MOST and at_s >= 0
    return Tries(wrong, at_s) if sound else None


def _write(path: Path, tries: Tries) -> None:
    """Put the count in place whole, safe on the disk; the latch is held."""
    beside = path.with_name(f".{FILE}.part")
    try:
        fd = open_private(beside, os.O_WRONLY | os.O_TRUNC)
        try:
            os.write(fd, f"{tries.wrong} {tries.at_s:.3f}\n".encode())
            sync_data(fd)
        finally:
            os.close(fd)
        beside.replace(path)
        sync_folder(path.parent)
    except OSError as error:
        raise unusable(error, path, say("count a PIN that is tried")) from error
