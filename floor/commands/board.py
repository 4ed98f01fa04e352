"""`board`: how every bench is doing, as of now."""

from __future__ import annotations

import argparse
import datetime as dt
from typing import Any

from core.desk.faces import BenchLine
from core.desk.figures import decimals, fixed
from core.desk.today import NO_HOUSE
from core.house.numbering import bench_json
from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.setting import setting, tell_damage

STATES = {
    "light": say("light"),
    "within": say("within"),
    "heavy": say("heavy"),
    "mixed": say("mixed"),
}
HOURS_FROM_MIN = 100


def run(args: argparse.Namespace) -> int:
    """Print a row a bench: when it is weighed next, its last check, what it made."""
    with setting(args) as place:
        desk = place.desk(question=True)
        tell_damage(desk.damaged)
        if desk.house is None:
            raise BadInput(NO_HOUSE)
        benches, now = desk.board(), desk.now()
        if args.json:
            out.json([_json(bench) for bench in benches])
        else:
            places = decimals(desk.house.house.scale_division_g)
            out.result(_table(benches, now, places))
    return 0


def _table(benches: tuple[BenchLine, ...], now: dt.datetime, places: int) -> str:
    head = (
        *(say("bench"), say("pair"), say("vitola"), say("weigh"), say("mean g"), say("target")),
        *(say("is"), say("checks"), say("out"), say("made"), say("good")),
    )
    rows = [_row(bench, now, places) for bench in benches]
    return out.table([head, *rows], right=frozenset({4, 5, 7, 8, 9, 10}))


def _row(bench: BenchLine, now: dt.datetime, places: int) -> tuple[str, ...]:
    quota = "" if bench.quota is None else f"/{bench.quota}"
    return (
        bench.number,
        " ".join(part for part in (bench.buncher, bench.roller) if part),
        bench.vitola,
        _due(bench, now),
        "" if bench.last_mean is None else fixed(bench.last_mean, places),
        "" if bench.target is None else fixed(bench.target, places),
        STATES.get(bench.last_state, ""),
        str(bench.checks),
        str(bench.out),
        str(bench.made),
        f"{bench.good}{quota}",
    )


def _due(bench: BenchLine, now: dt.datetime) -> str:
    """A check that waits; else when the bench is weighed next, or how late that is."""
    if bench.open is not None:
        return say("{n} of {needs} open", n=bench.open[0], needs=bench.open[1])
    if bench.due is None:
        return say("first piece")
    minutes = round((bench.due - now).total_seconds() / 60)
    if minutes == 0:
        return say("now")
    near = abs(minutes) < HOURS_FROM_MIN
    time = f"{abs(minutes)} min" if near else f"{round(abs(minutes) / 60)} h"
    return say("{time} late", time=time) if minutes < 0 else say("in {time}", time=time)


def _json(bench: BenchLine) -> dict[str, Any]:
    return {
        "bench": bench_json(bench.number),
        "buncher": bench.buncher or None,
        "roller": bench.roller or None,
        "vitola": bench.vitola,
        "blend": bench.blend,
        "due": None if bench.due is None else bench.due.isoformat(),
        "open": None if bench.open is None else list(bench.open),
        "last_mean_g": bench.last_mean,
        "target_g": bench.target,
        "state": bench.last_state or None,
        "checks": bench.checks,
        "out": bench.out,
        "made": bench.made,
        "good": bench.good,
        "quota": bench.quota,
    }
