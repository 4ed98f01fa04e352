"""The command line: its words, options and help. What a command does is in its own file."""

from __future__ import annotations

import argparse
from typing import Any

VERSION = "0.1.0"
JOB = "One blend, every size: recipe cards, weight checks and the day's leaf for a rolling room."
CAUTION = (
    "Tobacco products harm health; for adults in a licensed trade. Tax and record figures are "
    "aids: local law and a licensed adviser decide."
)


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    # Not the same options again: defaults set on a parser are set on the options it was given.
    common = _common()
    top = argparse.ArgumentParser(
        prog="bunchbook", description=JOB, epilog=CAUTION, parents=[_common()], allow_abbrev=False
    )
    top.set_defaults(data=None, at=None, demo=False, terminal=None, who=None, command=None)
    top.add_argument("--version", action="version", version=f"bunchbook {VERSION}")
    commands = top.add_subparsers(
        dest="command", metavar="COMMAND", title="commands (none: the floor)"
    )

    def command(name: str, does: str, under: Any = commands) -> argparse.ArgumentParser:
        made: argparse.ArgumentParser = under.add_parser(
            name, help=does, description=does, parents=[common], allow_abbrev=False
        )
        return made

    house = command("house", "the house book: check, load, show")
    verbs = house.add_subparsers(dest="verb", metavar="VERB", required=True)
    for verb, does in (
        ("check", "list every problem of a house book; nothing is loaded"),
        ("load", "take a house book into the data folder as its next version"),
    ):
        command(verb, does, verbs).add_argument("file", metavar="FILE", help="a TOML file")
    show = command("show", "print the house book in force", verbs)
    show.add_argument("--json", action="store_true", help="as JSON")

    card = command("card", "a bench's recipe card for today")
    card.add_argument("bench", metavar="BENCH", help="the bench's number, as 7 or 7-A")
    card.add_argument("--json", action="store_true", help="as JSON")
    card.add_argument("--why", action="store_true", help="add the steps behind every figure")

    line = command("line", "a blend in every size: the line sheet")
    line.add_argument("blend", metavar="BLEND", help="the blend's code")
    line.add_argument("--json", action="store_true", help="as JSON")
    line.add_argument("--csv", action="store_true", help="as CSV")

    enter = command("enter", "record entry lines, as typed on the floor")
    enter.add_argument(
        "lines",
        metavar="LINE",
        nargs="+",
        help='one line in quotes, as "7 15.3 15.6"; - reads standard input',
    )
    enter.add_argument("--json", action="store_true", help="one JSON object a line")
    enter.add_argument(
        "--strict", action="store_true", help="exit 1 when a check is out of its window"
    )

    day = command("day", "what was made, and where the leaf went")
    day.add_argument("date", metavar="DATE", nargs="?", help="as 2026-05-04; today without it")
    day.add_argument("--json", action="store_true", help="as JSON")

    close = command("close", "close a day; it takes no more entries")
    close.add_argument("date", metavar="DATE", nargs="?", help="as 2026-05-04; today without it")
    reopen = command("reopen", "open a closed day again")
    reopen.add_argument("reason", metavar="REASON", help="why, in quotes")
    reopen.add_argument("date", metavar="DATE", nargs="?", help="as 2026-05-04; today without it")

    verify = command("verify", "are the records sound?")
    verify.add_argument("--json", action="store_true", help="as JSON")
    return top


def _common() -> argparse.ArgumentParser:
    """Options that every command takes, before or after its word."""
    common = argparse.ArgumentParser(add_help=False, argument_default=argparse.SUPPRESS)
    group = common.add_argument_group("options for every command")
    group.add_argument(
        "--data", metavar="DIR", help="the data folder (else BUNCHBOOK_DATA, else the user's own)"
    )
    group.add_argument(
        "--at", metavar="TIME", help='entries and questions as of then: "2026-05-04 09:15"'
    )
    group.add_argument(
        "--demo", action="store_true", help="work on a throw-away copy of the demo house"
    )
    group.add_argument("--terminal", metavar="NAME", help="this terminal's name in the records")
    group.add_argument("--who", metavar="CODE", help="initials or code kept with each entry")
    return common
