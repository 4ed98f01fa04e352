"""How long a line sheet takes."""

from __future__ import annotations

import time
from pathlib import Path

from core.desk.load import examine
from core.line.sheet import line_sheet
from core.recipe.law import fit
from tests.bench.row import Row, interleaved
from tests.bench.workshop import house_toml

PROMISED_S = 0.050


def measure(_place: Path) -> list[Row]:
    """The sheet of 200 vitolas by five classes beside what was promised for it."""
    house = examine(house_toml(benches=8, vitolas=200), "bench.toml").house
    assert house is not None
    law = fit(house, "B1")

    def sheet() -> float:
        began = time.perf_counter()
        line_sheet(house, "B1", {}, law=law)
        return time.perf_counter() - began

    (ours,) = interleaved(15, sheet)
    peer = "the promise"
    return [Row("line sheet 200 × 5", 1000 * ours, "ms", peer, 1000 * PROMISED_S, bar=1.0)]
