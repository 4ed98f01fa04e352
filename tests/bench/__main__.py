"""Measure the promises: `python -m tests.bench [NAME ...]`; exit 1 where one is missed."""

from __future__ import annotations

import sys
import tempfile
from importlib import import_module
from pathlib import Path

from tests.bench.row import Row, table

ROOMS = ("commands", "floor", "entry", "line", "control", "day", "store", "trend", "memory")


def main(names: list[str]) -> int:
    """Measure the rooms named, all of them without a name, on the disk of this folder."""
    unknown = [name for name in names if name not in ROOMS]
    if unknown:
        print(f"expected some of {', '.join(ROOMS)}, found {', '.join(unknown)}", file=sys.stderr)
        return 2
    rows: list[Row] = []
    with tempfile.TemporaryDirectory(dir=Path.cwd(), prefix=".bench-") as place:
        for name in names or ROOMS:
            print(f"measuring {name} …", file=sys.stderr, flush=True)
            rows += import_module(f"tests.bench.{name}").measure(Path(place))
    print(table(rows))
    return 0 if all(row.met for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
