"""How long the rounds and every bench's control chart take on a full day.

Cached before the clock starts: what an open day has once its Board was shown, which is each
bench's tally, its Board line with when it is due, its checks as deviations, and its limits.
Not cached: any chart as it is drawn (running means, run rules, capability, advice, words).
"""

from __future__ import annotations

import datetime as dt
import gc
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from core.control.constants import of_deviation
from core.desk.desk import Desk
from core.desk.faces import Recorded
from tests.bench.row import Row, interleaved
from tests.bench.workshop import NOON, desk, fill

ENTRIES = 20_001
"""A note, 15,000 checks of five readings at 225 benches, and counts at the others."""
PROMISED_S = 0.100
FRAME_S = 1 / 60


def measure(place: Path) -> list[Row]:
    """Rounds and all charts, beside the promise and beside X̄–s of the same checks in NumPy."""
    opened = desk(place / "control")
    fill(opened, ENTRIES)
    gc.collect()
    gc.freeze()  # as the floor does once its day is open
    opened.board()
    readings = _readings(opened)
    everything, vectorised = interleaved(9, lambda: _everything(opened), lambda: _numpy(readings))
    (typed,) = interleaved(25, lambda: _typed(opened))
    tomorrow = NOON + dt.timedelta(days=1)
    (carried,) = interleaved(5, lambda: _carried(place / "control", tomorrow))
    gc.unfreeze()
    checks = len(readings)
    return [
        Row(f"rounds and 300 charts, {checks:,} checks", 1000 * everything, "ms", "the promise",
            1000 * PROMISED_S, bar=1.0),
        Row("… beside the limits of means and spreads alone", 1000 * everything, "ms",
            "NumPy, the checks in an array", 1000 * vectorised),
        Row("typed check to saved, verdict and chart", 1000 * typed, "ms", "a frame",
            1000 * FRAME_S, bar=1.0),
        Row("300 charts on a new day, of 50 carried checks each", 1000 * carried, "ms",
            "the promise", 1000 * PROMISED_S),
    ]  # fmt: skip


def _timed(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def _everything(opened: Desk) -> float:
    """Seconds for the rounds and all charts, drawn anew."""
    opened._drawn.clear()
    return _timed(lambda: (opened.rounds(), *map(opened.chart, _benches(opened))))


def _typed(opened: Desk) -> float:
    """Seconds from a line at one bench to its verdict and its chart."""
    target = opened.card("7").targets["bunch"].target_g
    line = f"7 {target:.1f} {target + 0.1:.1f} {target - 0.1:.1f} {target:.1f} {target:.1f} !"

    def work() -> None:
        outcome = opened.enter(line, None)
        assert isinstance(outcome, Recorded)
        assert outcome.verdict is not None
        assert opened.chart("7").points[-1].check == outcome.entry

    return _timed(work)


def _carried(folder: Path, now: dt.datetime) -> float:
    """Seconds for the charts of a day that has its opening and no check yet."""
    opened = Desk(folder, lambda: now, "T1")
    opened.enter("note the day begins", None)
    opened.board()
    return _timed(lambda: [*map(opened.chart, _benches(opened))])


def _benches(opened: Desk) -> list[str]:
    return [bench.number for bench in opened.loaded.benches]


def _readings(opened: Desk) -> np.ndarray:
    """Deviations of every check, bench after bench."""
    checks = [check for number in _benches(opened) for check in opened.ledger.bench(number).checks]
    return np.array(
        [[r - check.window.target for r in check.readings] for check in checks if check.window]
    )


def _numpy(readings: np.ndarray) -> float:
    """Seconds for means, spreads and limits of 250 rows at once, two rules and a capability."""
    each = readings.reshape(250, -1, readings.shape[1])
    c4, a3, b3, b4 = of_deviation(readings.shape[1])

    def work() -> np.ndarray:
        means, spreads = each.mean(axis=2), each.std(axis=2, ddof=1)
        mean_s = spreads.mean(axis=1, keepdims=True)
        out = (np.abs(means) > a3 * mean_s) | (spreads > b4 * mean_s) | (spreads < b3 * mean_s)
        side = np.lib.stride_tricks.sliding_window_view(means > 0, 8, axis=1).all(axis=2)
        index: np.ndarray = 0.6 / (3 * mean_s / c4) + out.sum() + side.sum()
        return index

    return _timed(work)
