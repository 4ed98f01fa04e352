"""`rounds`: whom to weigh next."""

from __future__ import annotations

import argparse
import datetime as dt
from typing import TYPE_CHECKING, Any

from core.desk.faces import RoundLine
from core.desk.rounds import overdue_min
from core.desk.today import NO_HOUSE
from core.house.numbering import bench_json
from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.setting import setting, tell_damage

if TYPE_CHECKING:
    from core.desk.desk import Desk


def run(args: argparse.Namespace) -> int:
    """Print every bench in the order to be weighed, as of now or as of `--at`."""
    with setting(args) as place:
        desk = place.desk(question=True)
        tell_damage(desk.damaged)
        lines, now = _rounds(desk), desk.now()
        if args.json:
            out.json([_json(line, now) for line in lines])
        elif lines:
            head = (say("bench"), say("pair"), say("vitola"), say("why"))
            out.result(out.table([head, *map(_row, lines)]))
    return 0


def _rounds(desk: Desk) -> tuple[RoundLine, ...]:
    """Whom to weigh; BadInput where no house book says who there is."""
    if desk.house is None:
        raise BadInput(NO_HOUSE)
    return desk.rounds()


def _row(line: RoundLine) -> tuple[str, ...]:
    return line.bench, line.buncher, line.vitola, line.says


def _json(line: RoundLine, now: dt.datetime) -> dict[str, Any]:
    late = overdue_min(line, now)
    return {
        "bench": bench_json(line.bench),
        "buncher": line.buncher or None,
        "vitola": line.vitola,
        "blend": line.blend,
        "reason": line.reason,
        "says": line.says,
        "due": None if line.due is None else line.due.isoformat(),
        "overdue_min": None if late is None else round(late, 1),
    }
