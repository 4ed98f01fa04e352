"""Restores that are killed before one of their steps on the disk, at a different one each time.

Run as `python -m tests.faults.restorer DATA FILE EVERY [--replace]`: for each EVERY-th step a
copy `DATA-STEP` of the folder, in which the restore was killed there.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from pathlib import Path

from core.desk.copies import restore_copy
from tests.desk.conftest import MORNING

STEPS = frozenset({"open", "os.rename", "os.link", "os.mkdir", "os.chmod", "os.remove", "os.rmdir"})


def killed(data: Path, file: Path, step: int, *, replace: bool) -> bool:
    """Restore in a process of its own, which dies at that step; whether there was one."""
    process = os.fork()
    if process:
        return os.WIFSIGNALED(os.waitpid(process, 0)[1])
    taken = 0

    def count(event: str, _args: object) -> None:
        nonlocal taken
        if event in STEPS:
            taken += 1
            if taken == step:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(count)
    try:
        restore_copy(data, file, lambda: MORNING, replace=replace)
    finally:
        os._exit(0)


def main() -> None:
    base, file, every, *how = sys.argv[1:]
    for step in range(1, 1000, int(every)):
        data = Path(f"{base}-{step}")
        shutil.copytree(base, data)
        if not killed(data, Path(file), step, replace="--replace" in how):
            shutil.rmtree(data)
            return


if __name__ == "__main__":
    main()
