"""A bench's checks over days, as its control charts see them.

A day's book carries the latest checks of the days before it, so that no chart has to read
other books. They are kept by bench, and by what was weighed, what it was rolled from and
into, and whose hands bunched it: limits learned of one buncher say nothing of another.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain, repeat
from typing import TYPE_CHECKING, NamedTuple

from core.checks import mean_and_spread
from core.control.limits import MOST_CHECKS
from core.control.subgroups import Subgroup, range_of
from core.day.calendar import local
from core.house.model import HouseBook
from core.measure import Measure

if TYPE_CHECKING:
    from core.day.bench import CheckMade, RunKey
    from core.day.entries import CarriedChecks
    from core.day.ledger import Ledger

FORGOTTEN = dt.timedelta(days=60)
"""Checks of a kind not weighed for so long are carried no further: common practice."""
_UNIT = 1000


class Kind(NamedTuple):
    """What checks on one chart have in common.

    `of` is the leaf of a portion, and what draw was read in (of a dial with what a higher
    figure means); empty of anything else.
    """

    measure: Measure
    blend: str
    vitola: str
    buncher: str
    of: str = ""


class Charted(NamedTuple):
    """A check by its deviation from its own target, in the measure's unit.

    A bundle's is for one of its cigars, so that bundles of several sizes share a chart.
    """

    at: dt.datetime
    day: dt.date
    check: int
    group: Subgroup


class Made(NamedTuple):
    """Checks of one kind made today, as they were judged and as charts see them."""

    checks: list[CheckMade]
    charted: list[Charted]


Earlier = Mapping[str, Sequence["CarriedChecks"]]


def made_today(
    bench: str, checks: Iterable[CheckMade], day: dt.date, houses: Mapping[int, HouseBook]
) -> dict[Kind, Made]:
    """A bench's complete checks of the day that had a target, by kind, oldest first."""
    found: dict[Kind, Made] = {}
    known: dict[tuple[Measure, str, RunKey], Made] = {}
    for check in checks:
        if check.closed and check.window is not None:
            like = (check.measure, _of(check), check.run)
            made = known.get(like)
            if made is None:
                made = found.setdefault(kind_of(bench, check, houses), Made([], []))
                known[like] = made
            made.checks.append(check)
            ranges = houses[check.run.house].house.spread_chart == "range"
            made.charted.append(charted(check, day, ranges=ranges))
    return found


def kind_of(bench: str, check: CheckMade, houses: Mapping[int, HouseBook]) -> Kind:
    """Which chart a check of that bench belongs to."""
    version, blend, vitola = check.run
    return Kind(check.measure, blend, vitola, buncher_of(bench, version, houses), _of(check))


def _of(check: CheckMade) -> str:
    if check.leaf or check.draw is None:
        return check.leaf or ""
    unit, rises = check.draw
    return f"{unit} {rises}" if unit == "dial" else unit


def buncher_of(bench: str, version: int, houses: Mapping[int, HouseBook]) -> str:
    """Who bunched at the bench by that house-book version; empty where it does not say."""
    known = houses[version].bench.get(bench)
    return (known.buncher if known else None) or ""


def charted(check: CheckMade, day: dt.date, *, ranges: bool = False) -> Charted:
    """A check as charts see it, with its range where asked for; it must have a target."""
    if check.window is None:
        raise ValueError(f"check {check.id} has no target")
    mean, s = mean_and_spread(check.readings)
    off, of = mean - check.window.target, check.of
    wide = range_of(check.readings) / of if ranges and s is not None else None
    group = Subgroup(len(check.readings), off / of, None if s is None else s / of, wide)
    return Charted(local(check.at, check.offset), day, check.id, group)


def kind_carried(carried: CarriedChecks) -> Kind:
    """Which chart they belong to."""
    return Kind(
        carried["measure"],
        carried["blend"],
        carried["vitola"],
        carried["buncher"],
        carried["of"],
    )


def take_apart(carried: CarriedChecks) -> list[Charted]:
    """The checks in the columns, oldest first. ValueError where the columns do not fit."""
    zone = dt.timezone(dt.timedelta(minutes=carried["offset"]))
    dated = carried["days"].split(" ")
    pairs = zip(dated[::2], dated[1::2], strict=True)
    days = chain.from_iterable(repeat(dt.date.fromisoformat(d), int(n)) for d, n in pairs)
    columns = [carried["at"], carried["check"], carried["n"], carried["off"], carried["s"]]
    wides = carried["r"].split(" ") if "r" in carried else repeat("-", len(carried["n"].split(" ")))
    rows = zip(days, *(column.split(" ") for column in columns), wides, strict=True)
    midnights: dict[dt.date, dt.datetime] = {}
    checks: list[Charted] = []
    for day, at, check, n, off, s, r in rows:
        midnight = midnights.get(day)
        if midnight is None:
            midnight = midnights[day] = dt.datetime.combine(day, dt.time(), zone)
        group = Subgroup(int(n), int(off) / _UNIT, _spread(s), _spread(r))
        checks.append(Charted(midnight + dt.timedelta(minutes=int(at)), day, int(check), group))
    return checks


def _spread(text: str) -> float | None:
    return None if text == "-" else int(text) / _UNIT


def spreads_carried(carried: CarriedChecks) -> Iterator[tuple[int, float | None]]:
    """Readings and standard deviation of each check in the columns, and nothing else of it."""
    for n, s in zip(carried["n"].split(" "), carried["s"].split(" "), strict=True):
        yield int(n), None if s == "-" else int(s) / _UNIT


def put_together(kind: Kind, checks: Sequence[Charted]) -> CarriedChecks:
    """The checks (one or more, oldest first) as a day's opening carries them."""
    runs: dict[dt.date, int] = {}
    for check in checks:
        runs[check.day] = runs.get(check.day, 0) + 1
    east = checks[-1].at.utcoffset() or dt.timedelta()
    carried: CarriedChecks = {
        "measure": kind.measure,
        "blend": kind.blend,
        "vitola": kind.vitola,
        "buncher": kind.buncher,
        "of": kind.of,
        "offset": int(east.total_seconds()) // 60,
        "days": " ".join(f"{day} {n}" for day, n in runs.items()),
        "at": " ".join(str(_minutes(check)) for check in checks),
        "check": " ".join(str(check.check) for check in checks),
        "n": " ".join(str(check.group.n) for check in checks),
        "off": " ".join(str(round(check.group.mean * _UNIT)) for check in checks),
        "s": " ".join(_thousandths(check.group.s) for check in checks),
    }
    if any(check.group.range is not None for check in checks):
        carried["r"] = " ".join(_thousandths(check.group.range) for check in checks)
    return carried


def _thousandths(figure: float | None) -> str:
    return "-" if figure is None else str(round(figure * _UNIT))


def _minutes(check: Charted) -> int:
    """From the working day's midnight, on the clock of then: a night shift's may be over 1440."""
    wall = check.at.replace(tzinfo=None) - dt.datetime.combine(check.day, dt.time())
    return int(wall.total_seconds()) // 60


def carry(earlier: Earlier, ledger: Ledger, day: dt.date) -> dict[str, list[CarriedChecks]]:
    """What the next day's charts go on from: `earlier` with that day's checks, the latest 50."""
    carried: dict[str, list[CarriedChecks]] = {}
    for bench in dict.fromkeys((*earlier, *ledger.benches())):
        new = made_today(bench, ledger.bench(bench).checks, day, ledger.houses)
        kept = [known for known in earlier.get(bench, ()) if _remembered(known, day)]
        whole = [_longer(known, new.pop(kind_carried(known), None)) for known in kept]
        whole += [put_together(kind, made.charted[-MOST_CHECKS:]) for kind, made in new.items()]
        if whole:
            carried[bench] = whole
    return carried


def _longer(known: CarriedChecks, new: Made | None) -> CarriedChecks:
    if new is None:
        return known
    return put_together(kind_carried(known), [*take_apart(known), *new.charted][-MOST_CHECKS:])


def _remembered(known: CarriedChecks, day: dt.date) -> bool:
    latest = dt.date.fromisoformat(known["days"].split(" ")[-2])
    return day - latest <= FORGOTTEN
