"""`days`: the trend over closed days, from their summaries alone."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Iterator, Sequence

from core.day.calendar import stamp
from core.day.parts import parts
from core.day.trend import DayLine, Figures, Trend, closed_days, trend
from core.desk.figures import fixed, percent
from core.desk.summaries import span
from core.problems import BadInput
from core.records.folder import Folder
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.spreadsheet import csv_text

NAMED = 8
"""Days named before only their number is told."""
WIDE = 80
"""Columns; a reason may be longer than the table is wide."""


def run(args: argparse.Namespace) -> int:
    """Print what was made and where the leaf went, day by day and added up."""
    if args.json and args.csv:
        raise BadInput("give --json or --csv, not both")
    first, last = _asked(args.first, args.last)
    with setting(args) as place:
        until = None if place.asked is None else stamp(place.asked)[0]
        latest = last if place.asked is None else min(last, place.asked.date())
        folder = Folder(place.folder)
        found = span(folder, first, latest, until)
        folder.close()
    tell_damage(found.damaged)
    told = trend(found.kept, found.unclosed)
    if args.json:
        by = parts(closed_days(found.kept))
        out.json({"from": first.isoformat(), "to": last.isoformat(), **_json(told), **by.json()})
    elif args.csv:
        out.result(csv_text(_table(told)).rstrip("\n"))
    else:
        for line in _lines(told):
            out.result(line)
    if not told.days:
        out.message(f"no day was recorded from {first} to {last}")
    _tell_unclosed(found.unclosed)
    return 0


def _asked(first: str, last: str | None) -> tuple[dt.date, dt.date]:
    """The days from the first of what is named first to the last of what is named last."""
    begins, ends = _stretch(first)
    if last is not None:
        _, ends = _stretch(last)
    if begins > ends:
        raise BadInput(f"expected the earlier day first, found {first} after {last}")
    return begins, ends


def _stretch(text: str) -> tuple[dt.date, dt.date]:
    """The first and the last day of a day, month or year; BadInput says how to write it."""
    try:
        if len(text) == len("2026"):
            begins = dt.date.fromisoformat(f"{text}-01-01")
            return begins, begins.replace(month=12, day=31)
        if len(text) == len("2026-05"):
            begins = dt.date.fromisoformat(f"{text}-01")
            return begins, (begins + dt.timedelta(31)).replace(day=1) - dt.timedelta(1)
        begins = dt.date.fromisoformat(text)
    except (ValueError, OverflowError):
        like = "2026-05-04, 2026-05 or 2026"
        raise BadInput(f'expected a day, a month or a year like {like}, found "{text}"') from None
    return begins, begins


def _tell_unclosed(days: Sequence[str]) -> None:
    if days:
        named = ", ".join(days[:NAMED])
        more = f" and {len(days) - NAMED} more" if len(days) > NAMED else ""
        out.message(
            f"not closed, or closed without a summary: {named}{more};"
            " to have their figures: bunchbook close DATE"
        )


def _json(told: Trend) -> dict[str, object]:
    totals = None if told.totals is None else told.totals._asdict()
    return {"days": [_day(line) for line in told.days], "closed": told.closed, "totals": totals}


def _table(told: Trend) -> Iterator[Sequence[object]]:
    """A row a day, the names of the columns first."""
    yield (*DayLine._fields[:-1], *Figures._fields)
    for line in told.days:
        yield tuple(_day(line).values())


def _day(line: DayLine) -> dict[str, object]:
    """The day's facts and figures side by side; a day without figures has none of each."""
    facts = line._asdict()
    figures = facts.pop("figures")
    return facts | (dict.fromkeys(Figures._fields) if figures is None else figures._asdict())


def _lines(told: Trend) -> Iterator[str]:
    figures = [(line.date, line.figures) for line in told.days if line.figures is not None]
    if told.totals is not None:
        named = f"{told.closed} days" if told.closed > 1 else "1 day"
        figures.append((named, told.totals))
        counted = [_COUNTED, *(_counted(name, each) for name, each in figures)]
        head, *rows = out.table(counted, right=frozenset(range(1, len(_COUNTED)))).splitlines()
        yield head
        closed = iter(rows)
        yield from (_words(line) or next(closed) for line in told.days)
        yield from closed
        leaf = [_LEAF, *(_leaf(name, each) for name, each in figures)]
        yield "filler leaf at standard moisture"
        yield out.table(leaf, right=frozenset(range(1, len(_LEAF))))
    else:
        yield from (_words(line) for line in told.days)
    corrected = [line for line in told.days if line.corrected and line.figures is not None]
    if corrected:
        named = ", ".join(f"{line.date} ({line.corrected} ×)" for line in corrected)
        yield f"corrected after it was closed: {named}"


def _words(line: DayLine) -> str:
    """What to say of a day without figures."""
    if line.figures is not None:
        return ""
    if line.open_since is None:
        return f"{line.date}  {line.state}"
    since = dt.datetime.fromisoformat(line.open_since).astimezone()
    says = f"{line.date}  open again since {since:%Y-%m-%d %H:%M}: {line.reason}"
    return says if len(says) <= WIDE else f"{says[: WIDE - 1]}…"


_COUNTED = (
    "date", "made", "good", "rejected", "rework", "first pass", "checks", "out", "off g",
)  # fmt: skip
_LEAF = ("date", "used kg", "kg/1000 good", "leaf yield", "unexplained g", "leaves beyond")


def _counted(name: str, day: Figures) -> tuple[str, ...]:
    counts = (day.made, day.good, day.rejected, day.rework)
    off_g = day.mean_deviation_g
    return (
        name,
        *map(str, counts),
        _share(day.first_pass_yield),
        str(day.checks),
        str(day.out),
        "" if off_g is None else f"{off_g:+.3f}",
    )


def _leaf(name: str, day: Figures) -> tuple[str, ...]:
    per_1000 = day.filler_kg_per_1000_good
    return (
        name,
        fixed(day.filler_used_kg, 2),
        "" if per_1000 is None else fixed(per_1000, 3),
        _share(day.leaf_yield),
        fixed(day.unexplained_g, 0),
        str(day.leaves_beyond),
    )


def _share(share: float | None) -> str:
    return "" if share is None else percent(share)
