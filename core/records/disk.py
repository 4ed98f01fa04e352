"""Files that are private from the start, and what a disk refuses said as a sentence."""

from __future__ import annotations

import errno
import fcntl
import os
import sys
from pathlib import Path

from core.problems import Problem, StoreUnusable

_REASONS = {
    errno.ENOSPC: ("the disk is full", "free some space on it"),
    errno.EDQUOT: ("this user's share of the disk is full", "free some space on it"),
    errno.EROFS: ("the disk is read-only", "make it writable, or use another data folder"),
    errno.EACCES: ("this user has no right to", "ask its owner, or use another data folder"),
    errno.EPERM: ("this user has no right to", "ask its owner, or use another data folder"),
    errno.ENOTDIR: ("a file stands where a folder should be", "use another data folder"),
    errno.EEXIST: ("a file stands where a folder should be", "use another data folder"),
    errno.EISDIR: ("a folder stands where a file should be", "move it away"),
}


def unusable(error: OSError, path: Path, doing: str) -> StoreUnusable:
    """The disk's refusal as a problem: what could not be done, why, and what to do."""
    reason, advice = _REASONS.get(
        error.errno or 0, (error.strerror or str(error), "check the disk before working on")
    )
    return StoreUnusable(Problem(str(path), f"cannot {doing}: {reason}; {advice}"))


def sync_data(fd: int) -> None:
    """Wait until the file's bytes are on the disk itself; OSError when they may not be."""
    if sys.platform == "darwin":
        fcntl.fcntl(fd, fcntl.F_FULLFSYNC)  # its fsync stops at the drive's own cache
    else:
        os.fdatasync(fd)


def sync_folder(path: Path) -> None:
    """Wait until the names in the folder are on the disk; OSError when they may not be."""
    fd = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(fd)
    finally:
        os.close(fd)


def make_folder(path: Path) -> None:
    """Make the folder where it is missing: its owner's alone, or its parent's group's too."""
    if path.is_dir():
        return
    shared = path.parent.stat().st_mode & 0o2070 if path.parent.is_dir() else 0
    path.mkdir(mode=0o700, parents=True, exist_ok=True)
    path.chmod(0o700 | shared)
    sync_folder(path.parent)


def open_private(path: Path, flags: int) -> int:
    """Open a file, made where it is missing: its owner's alone, or its folder's group's too.

    The mode is set on the open file, so that no umask widens or narrows it.
    """
    try:
        return os.open(path, flags)
    except FileNotFoundError:
        fd = os.open(path, flags | os.O_CREAT, 0o600)
        os.fchmod(fd, 0o600 | (path.parent.stat().st_mode & 0o060))
        return fd
