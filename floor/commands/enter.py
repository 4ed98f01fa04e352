"""`enter`: entry lines from the shell, the same grammar as on the floor."""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Iterator, Sequence
from typing import Any

from core.desk.desk import Desk
from core.desk.faces import AsksPin, Go, Mistake, NotSaved, Outcome, Question, Recorded, Told
from core.house.numbering import bench_json
from core.measure import WEIGHED
from core.problems import BadInput, StoreUnusable
from core.say import say
from floor.commands import out
from floor.commands.ask_pin import pin_for
from floor.commands.setting import setting, tell_damage

STRICT_OUT = 1


def run(args: argparse.Namespace) -> int:
    """Record each line; lines before and after one that cannot be are recorded."""
    code = 0
    gc.enable()
    with setting(args) as place:
        desk = place.recording(question=True)
        tell_damage(desk.damaged)
        for line in _lines(args.lines):
            outcome = _entered(desk, line)
            typed = line.encode(errors="replace").decode()
            code = max(code, _code(outcome, strict=args.strict))
            if args.json:
                out.json(_json(typed, outcome))
            else:
                _say(typed, outcome)
    return code


def _entered(desk: Desk, line: str) -> Outcome:
    """Enter a line; where it asks for the PIN, ask whoever typed it."""
    outcome = desk.enter(line, None)
    if not isinstance(outcome, AsksPin):
        return outcome
    try:
        return desk.enter(outcome.line, None, pin=pin_for(outcome.says))
    except BadInput as nobody:
        return Mistake(nobody.said)


def _lines(given: Sequence[str]) -> Iterator[str]:
    """The lines; `-` stands for standard input, where blank lines are passed over.

    Bytes that are no UTF-8 are kept as what the entry line refuses, with their place.
    """
    for line in given:
        if line != "-":
            yield line
            continue
        for raw in sys.stdin.buffer:
            text = raw.decode(errors="surrogateescape").strip().removeprefix("\ufeff")
            if text:
                yield text


def _code(outcome: Outcome, *, strict: bool) -> int:
    if isinstance(outcome, NotSaved):
        return StoreUnusable.exit_code
    if isinstance(outcome, Told):
        return 0
    if not isinstance(outcome, Recorded):
        return BadInput.exit_code
    out_of_window = outcome.verdict is not None and outcome.verdict.state == "out"
    return STRICT_OUT if strict and out_of_window else 0


def _problem(outcome: Outcome) -> str:
    if isinstance(outcome, Question):
        return say("{says}; if it is right, end the line with !", says=outcome.says)
    if isinstance(outcome, AsksPin):
        return outcome.wrong
    if isinstance(outcome, (Mistake, NotSaved)):
        return outcome.says
    if isinstance(outcome, Go) and outcome.screen == "close":
        return say("nothing to record: the day is closed with: bunchbook close")
    return say(
        'nothing to record: this opens a screen; write a whole line in quotes, as "7 15.3 15.6"'
    )


def _say(line: str, outcome: Outcome) -> None:
    if isinstance(outcome, Recorded | Told):
        out.result(outcome.says)
    else:
        lost = isinstance(outcome, NotSaved)
        state = say("not saved: {line}: {why}") if lost else say("not recorded: {line}: {why}")
        out.message(state.format(line=line, why=_problem(outcome)))


def _json(line: str, outcome: Outcome) -> dict[str, Any]:
    if isinstance(outcome, Told):
        return {"line": line, "ok": True, "entry": None, "says": outcome.says}
    if not isinstance(outcome, Recorded):
        at = outcome.at if isinstance(outcome, Mistake) else None
        return {"line": line, "ok": False, "problem": _problem(outcome), "at": at}
    row: dict[str, Any] = {
        "line": line,
        "ok": True,
        "entry": outcome.entry,
        "kind": outcome.kind,
        "bench": bench_json(outcome.bench) if outcome.bench else None,
        "says": outcome.says,
    }
    if outcome.measure is not None:
        row["measure"] = outcome.measure
    if outcome.verdict is not None and outcome.window is not None:
        unit = "_g" if outcome.measure in WEIGHED else ""
        row |= {
            "verdict": outcome.verdict.mean_place,
            "state": outcome.verdict.state,
            "steady": outcome.verdict.steady,
            "places": outcome.verdict.places,
            f"mean{unit}": outcome.verdict.mean,
            f"target{unit}": outcome.window.target,
            f"low{unit}": outcome.window.low,
            f"high{unit}": outcome.window.high,
        }
    return row
