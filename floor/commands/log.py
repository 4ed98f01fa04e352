"""`log`: what was recorded today, newest first."""

from __future__ import annotations

import argparse
from typing import Any

from core.desk.faces import LogLine
from core.house.numbering import bench_json
from core.say import joined, say
from floor.commands import out
from floor.commands.setting import setting, tell_damage

EVERY = 10**9


def run(args: argparse.Namespace) -> int:
    """Print an entry a line; one that is void says by which, and why."""
    with setting(args) as place:
        desk = place.desk(question=True)
        tell_damage(desk.damaged)
        entries = desk.log(EVERY)
        if args.json:
            out.json([_json(entry) for entry in entries])
        elif entries:
            out.result(out.table([_row(entry) for entry in entries], right=frozenset({0})))
        else:
            out.result(say("nothing recorded yet today"))
    return 0


def _row(entry: LogLine) -> tuple[str, ...]:
    who = " ".join(part for part in (entry.terminal, entry.who) if part)
    return str(entry.id), f"{entry.at:%H:%M}", who, _says(entry)


def _says(entry: LogLine) -> str:
    """The entry in words: what is odd about it comes first, so that it is not overheard."""
    parts: list[str] = []
    if entry.voided_by is not None:
        void = say("void by {by}", by=entry.voided_by)
        parts.append(joined(" ", (void, f"({entry.void_reason})")) if entry.void_reason else void)
    if entry.late:
        parts.append(say("after the close"))
    return joined(": ", (*parts, entry.says))


def _json(entry: LogLine) -> dict[str, Any]:
    return {
        "entry": entry.id,
        "at": entry.at.isoformat(),
        "bench": None if entry.bench is None else bench_json(entry.bench),
        "says": str(entry.says),
        "terminal": entry.terminal,
        "who": entry.who,
        "voided_by": entry.voided_by,
        "void_reason": entry.void_reason or None,
        "late": entry.late,
    }
