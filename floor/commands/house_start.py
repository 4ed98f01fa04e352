"""`house start`: a house book by question and answer, on plain lines."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from core.desk.faces import Mistake
from core.desk.start.check import question_told, summary, worded
from core.desk.start.first import FirstHouse
from core.desk.start.questions import because
from core.desk.start.usual import TAKEN_AS_USUAL
from core.entry.words import LEAVE
from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.setting import setting, tell_damage


def start(args: argparse.Namespace) -> int:
    """Ask for everything a house needs, write its house book, put it in force.

    At a terminal an answer that is not taken is asked for again, and answers are kept. From a
    pipe the first one that is not taken ends it: what follows would answer another question.
    """
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        if today.house is not None:
            raise BadInput(
                say(
                    "a house book is in force already, version {version}; change it instead: "
                    "bunchbook house show > house.toml",
                    version=today.house_version,
                )
            )
        today.folder.close()
        asks = at_a_terminal()
        target = None if args.file is None else Path(args.file)
        first = FirstHouse(place.folder, place.clock, out.language(), target=target, keeps=asks)
        out.message(
            say("Enter alone takes what is in brackets; < goes back, ? shows answers, quit stops")
        )
        if not first.kept:
            first.begin()
        while first.stage != "done":
            _prompt(first)
            _line(first, _typed(first), asks=asks)
    return 0


def at_a_terminal() -> bool:
    """Whether somebody types the answers."""
    return sys.stdin.isatty()


def _prompt(first: FirstHouse) -> None:
    question = first.question
    if first.stage == "ask" and question is not None:
        out.message(question_told(question, first.answers))
        out.message(because(question, first.answers))
        out.message(f"[{out.tell(worded(first.usual))}]")
    elif first.stage == "choose":
        out.message(say("{n} answers were kept; Enter goes on, new begins anew", n=len(first.kept)))
    elif first.stage == "over":
        out.message(say("{file} is there already.", file=str(first.target)))
        out.message(say("yes overwrites it; no, or another path, leaves it"))
    else:
        _answers(first)
        out.message(say("The house: {contents}", contents=first.contents))
        out.message(TAKEN_AS_USUAL)
        out.message(say("Enter writes it and loads it; or type another path:"))
        out.message(f"[{first.target}]")


def _answers(first: FirstHouse) -> None:
    for label, value in summary(first.answers):
        out.message(say("{what}: {value}", what=label, value=value))


def _typed(first: FirstHouse) -> str:
    """A line of standard input; BadInput where it has ended, or is not text."""
    try:
        line = sys.stdin.readline()
    except ValueError as error:
        raise BadInput(say("standard input is not UTF-8 text; nothing was loaded")) from error
    if line and line.strip().casefold() not in LEAVE.values():
        return line
    raise BadInput(_stopped(first))


def _stopped(first: FirstHouse) -> str:
    if first.answers and not first.unkept:
        return say("stopped, nothing is loaded; the answers are kept: bunchbook house start")
    return say("stopped, nothing is loaded")


def _line(first: FirstHouse, line: str, *, asks: bool) -> None:
    """Do the line, and say what came of it."""
    if line.strip() == "?":
        _answers(first)
        return
    outcome = first.enter(line)
    out.speak(first.language)
    if isinstance(outcome, Mistake):
        if not asks:
            raise BadInput(outcome.says)
        out.message(outcome.says)
    elif first.stage == "done":
        out.result(outcome.says)
    elif outcome.says:
        out.message(outcome.says)
