"""A year of closed days to measure trends on, and the same figures in other stores."""

from __future__ import annotations

import datetime as dt
import itertools
import json
import random
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, cast

from core.day.summary import DaySummary, Runs, as_text
from core.desk.summaries import SUMMARIES
from core.records.book import Make
from core.records.folder import Folder

YEAR, DAYS, BENCHES, LEAVES = 2026, 250, 300, 5
COLUMNS = (
    "made", "good", "rework", "rejected", "checks", "out", "n_dev", "sum_dev_g",
    "sum_sq_dev_g2", "filler_g", "second", "workers", "panel", "in_good_g", "unexplained_g",
)  # fmt: skip
GRAMS = (
    "issued_g", "returned_g", "used_g", "in_good_g", "rejects_g", "heavy_g", "cuttings_g",
    "in_seconds_g", "stem_g", "sweepings_g",
)  # fmt: skip
LOT_GRAMS = ("received_g", "issued_g", "returned_g", "adjusted_g", "on_hand_g")
OF_LEAF = ("filler_g", "in_good_g", "unexplained_g")


def year(days: int = DAYS, benches: int = BENCHES) -> Iterator[DaySummary]:
    """Working days of one year, invented and seeded, one run a bench; some benches change."""
    dice = random.Random(11)
    for nth in range(days):
        date = dt.date(YEAR, 1, 1) + dt.timedelta(nth * 365 // days)
        yield _day(date, benches, dice)


def _day(date: dt.date, benches: int, dice: random.Random) -> DaySummary:
    names = [str(n) for n in range(1, benches + 1)]
    made = [dice.randrange(260, 340) for _ in names]
    rejected = [dice.randrange(0, 20) for _ in names]
    off = [[dice.gauss(0.05, 0.2) for _ in range(8)] for _ in names]
    used = [[round(dice.gauss(900, 30), 2) for _ in names] for _ in range(LEAVES)]
    runs: dict[str, list[Any]] = {
        "bench": list(map(int, names)),
        "buncher": [f"P-{n}" for n in names],
        "blend": ["B1"] * benches,
        "vitola": [f"v{(int(n) + (dice.random() < 0.03)) % 8}" for n in names],
        "made": made,
        "good": [m - r for m, r in zip(made, rejected, strict=True)],
        "rework": [r // 3 for r in rejected],
        "rejected": rejected,
        "checks": [8] * benches,
        "out": [sum(abs(x) > 0.5 for x in each) for each in off],
        "n_dev": [8] * benches,
        "sum_dev_g": [round(sum(each), 4) for each in off],
        "sum_sq_dev_g2": [round(sum(x * x for x in each), 6) for each in off],
        "filler_g": [round(sum(each), 2) for each in zip(*used, strict=True)],
        "second": [dice.randrange(0, 4) for _ in names],
        "workers": [0] * benches,
        "panel": [dice.randrange(0, 2) for _ in names],
    }
    runs["in_good_g"] = [round(0.93 * grams, 2) for grams in runs["filler_g"]]
    runs["unexplained_g"] = [round(dice.gauss(0, 8), 2) for _ in names]
    codes = [f"F{n}" for n in range(LEAVES)]
    leaf: dict[str, list[Any]] = {key: [round(sum(each), 2) for each in used] for key in GRAMS}
    leaf |= {"code": codes, "class": ["seco"] * LEAVES, "heavy_se_g": [30.0] * LEAVES}
    leaf |= {"unexplained_g": [12.5] * LEAVES, "beyond": [False] * LEAVES}
    lots: dict[str, list[Any]] = dict.fromkeys(LOT_GRAMS, leaf["issued_g"])
    lots |= {"leaf": codes, "lot": [f"L{n}" for n in range(LEAVES)]}
    summary = {
        "summary": 2, "date": date.isoformat(), "closed": True, "at": f"{date}T17:00:00.000Z",
        "lines": 20_000, "end": f"{dice.getrandbits(128):032x}", "corrected": 0, "version": 1,
        "entries": 19_998, "voided": 3, "faults": {"torn": 5, "plugged": 7}, "leaf_yield": 0.94,
        "totals": {key: sum(runs[key]) for key in COLUMNS if key not in OF_LEAF},
        "runs": as_text(cast("Runs", runs)), "leaf": leaf, "lots": lots,
        "bench_leaf": as_text({"bench": runs["bench"], "leaf": codes, "used_g": used}),
    }  # fmt: skip
    return cast("DaySummary", summary)


def keep(folder: Path, days: list[DaySummary]) -> Path:
    """A data folder with that year in it."""

    def make(day: DaySummary) -> Make:
        return lambda _number: cast("dict[str, Any]", day)

    Folder(folder).year(YEAR).append_many(SUMMARIES, [make(day) for day in days])
    return folder


def rows(days: Iterable[DaySummary]) -> Iterator[tuple[Any, ...]]:
    """A row a day and bench: date, bench, vitola, and the figures."""
    for day in days:
        runs = json.loads(day["runs"])
        columns = [runs[key] for key in ("bench", "vitola", *COLUMNS)]
        yield from zip(itertools.repeat(day["date"]), *columns, strict=False)
