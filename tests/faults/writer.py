"""A terminal that records entries until it is killed, and says each one it has safe.

Run as `python -m tests.faults.writer DATA NAME [COUNT]`.
"""

from __future__ import annotations

import itertools
import os
import sys
from pathlib import Path

from core.records.folder import Folder
from tests.records.books import DAY


def main() -> None:
    data, name, *count = sys.argv[1:]
    book = Folder(Path(data), wait_s=60.0).day(DAY)
    os.write(1, b"ready\n")
    for n in itertools.islice(itertools.count(), int(count[0]) if count else None):
        event = f"{name}.{n}"
        book.append("entries", lambda number: {"id": number, "text": "x" * (number % 300)}, event)
        os.write(1, event.encode() + b"\n")


if __name__ == "__main__":
    main()
