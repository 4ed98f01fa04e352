"""Files that are private from the start, and what a disk refuses said as a sentence."""

from __future__ import annotations

import errno
import fcntl
import os
import sys
from pathlib import Path

from core.problems import Problem, StoreUnusable
from core.say import say

_FULL = (say("the disk is full"), say("free some space on it, then try again"))
_FORBIDDEN = (
    say("this user has no right to"),
    say("ask the folder's owner, or use another data folder"),
)
_IN_THE_WAY = (say("a file stands where a folder should be"), say("use another data folder"))
_REASONS = {
    errno.ENOSPC: _FULL,
    errno.EDQUOT: (say("this user's share of the disk is full"), _FULL[1]),
    errno.EROFS: (
        say("the disk is read-only"),
        say("make it writable, or use another data folder"),
    ),
    errno.EACCES: _FORBIDDEN,
    errno.EPERM: _FORBIDDEN,
    errno.ENOTDIR: _IN_THE_WAY,
    errno.EEXIST: _IN_THE_WAY,
    errno.EISDIR: (say("a folder stands where a file should be"), say("move it away")),
}
_GROUP_WRITES = 0o020


def unusable(error: OSError, path: Path, doing: str, first: str = "") -> StoreUnusable:
    """The disk's refusal as a problem: what could not be done, why, and what to do (`first`)."""
    reason, advice = _REASONS.get(
        error.errno or 0, (error.strerror or str(error), say("see to the disk, then try again"))
    )
    return StoreUnusable(
        Problem(
            str(path),
            say(
                "cannot {doing}: {reason}; {first}{advice}",
                doing=doing,
                reason=reason,
                first=first,
                advice=advice,
            ),
        )
    )


if sys.platform == "darwin":

    def sync_data(fd: int) -> None:
        """Wait until the file's bytes are on the disk itself; OSError when they may not be."""
        fcntl.fcntl(fd, fcntl.F_FULLFSYNC)  # its fsync stops at the drive's own cache

else:
    sync_data = os.fdatasync


def sync_folder(path: Path) -> None:
    """Wait until the names in the folder are on the disk; OSError when they may not be."""
    fd = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(fd)
    finally:
        os.close(fd)


def make_folder(path: Path, within: bool = False) -> None:
    """Make the folder where it is missing: its owner's alone, or as shared as its parent.

    `within`: its parent is the house's too. Modes are set apart from the making, so that no
    umask changes them.
    """
    if not path.is_dir():
        shared = within and path.parent.stat().st_mode & _GROUP_WRITES
        path.mkdir(mode=0o700, parents=True, exist_ok=True)
        path.chmod(0o2770 if shared else 0o700)
        sync_folder(path.parent)


def open_private(path: Path, flags: int) -> int:
    """Open a file, made where it is missing: its owner's alone, or the group's too.

    A house opens its records to a group by letting the group write in the data folder.
    """
    try:
        return os.open(path, flags)
    except FileNotFoundError:
        fd = os.open(path, flags | os.O_CREAT, 0o600)
        os.fchmod(fd, 0o660 if path.parent.stat().st_mode & _GROUP_WRITES else 0o600)
        return fd
