"""The command line: its words, options and help. What a command does is in its own file."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

VERSION = "0.3.0"
JOB = "One blend, every size: recipe cards, weight checks and the day's leaf for a rolling room."
CAUTION = (
    "Tobacco products harm health; for adults in a licensed trade. Tax and record figures are "
    "aids: local law and a licensed adviser decide."
)

Parser = argparse.ArgumentParser


class Command(NamedTuple):
    """A command: what it does, the room that does it, and the words it takes."""

    does: str
    room: str
    words: Callable[[Parser], None]


def parse(words: Sequence[str]) -> argparse.Namespace:
    """Read a command line. Exits with 2 and the usage where it cannot be read.

    A line that begins with its command is read by that command's parser alone: a card should
    not wait for the words of every other command to be put together.
    """
    if words and words[0] in COMMANDS:
        name = words[0]
        one = _parser(f"bunchbook {name}", COMMANDS[name].does)
        COMMANDS[name].words(one)
        return _read(one, words[1:], argparse.Namespace(command=name))
    return _read(_every(), words, argparse.Namespace())


def _read(parser: Parser, words: Sequence[str], into: argparse.Namespace) -> argparse.Namespace:
    """Read words into `into`; changes to try may stand behind an option too.

    argparse takes a list of words only where it begins.
    """
    found, more = parser.parse_known_args(words, into)
    if more and "changes" in found and not any(word.startswith("-") for word in more):
        found.changes += more
    elif more:
        parser.error(f"unrecognized arguments: {' '.join(more)}")
    return found


def _parser(prog: str, does: str) -> Parser:
    """A parser of the common options, with their defaults."""
    made = Parser(
        prog=prog, description=does, epilog=CAUTION, parents=[_common()], allow_abbrev=False
    )
    made.set_defaults(data=None, at=None, demo=False, terminal=None, who=None)
    return made


def _every() -> Parser:
    """The whole command line."""
    # Not one object for both: defaults set on a parser are set on the options it was given.
    common = _common()
    top = _parser("bunchbook", JOB)
    top.set_defaults(command=None)
    top.add_argument("--version", action="version", version=f"bunchbook {VERSION}")
    commands = top.add_subparsers(
        dest="command", metavar="COMMAND", title="commands (none: the floor)"
    )
    for name, command in COMMANDS.items():
        command.words(_add(commands, name, command.does, common))
    return top


def _add(under: Any, name: str, does: str, common: Parser) -> Parser:
    made: Parser = under.add_parser(
        name, help=does, description=does, parents=[common], allow_abbrev=False
    )
    return made


def _common() -> Parser:
    """Options that every command takes, before or after its word."""
    common = Parser(add_help=False, argument_default=argparse.SUPPRESS)
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


def _house(house: Parser) -> None:
    common = _common()
    verbs = house.add_subparsers(dest="verb", metavar="VERB", required=True)
    for verb, does in (
        ("check", "list every problem of a house book; nothing is loaded"),
        ("load", "take a house book into the data folder as its next version"),
    ):
        _add(verbs, verb, does, common).add_argument("file", metavar="FILE", help="a TOML file")
    _json(_add(verbs, "show", "print the house book in force", common))


def _card(card: Parser) -> None:
    card.add_argument("bench", metavar="BENCH", help="the bench's number, as 7 or 7-A")
    _json(card)
    card.add_argument("--why", action="store_true", help="add the steps behind every figure")


def _line(line: Parser) -> None:
    line.add_argument("blend", metavar="BLEND", help="the blend's code")
    _json(line)
    line.add_argument("--csv", action="store_true", help="as CSV")
    line.add_argument("--svg", metavar="FILE", help="draw filler by size into a new file")
    line.add_argument("--against", metavar="VITOLA", help="the size the others are held against")


def _try(tried: Parser) -> None:
    tried.add_argument("blend", metavar="BLEND", help="the blend's code")
    tried.add_argument(
        "changes",
        metavar="CHANGE",
        nargs="*",
        help="LI-2=1.5 (parts), toro.ring=50, toro.length=5in, LI-2.piece=1, LI-2.half_leaf=3g, "
        "LI-2.moisture=15%%",
    )
    tried.add_argument(
        "--without", metavar="LEAF,…", action="append", help="new parts, this leaf being out"
    )
    tried.add_argument(
        "--strength-within", metavar="POINTS", type=float, default=0.2, help="0.2 without it"
    )
    tried.add_argument(
        "--class-within", metavar="SHARE", default="5%", help="of the filler; 5%% without it"
    )
    tried.add_argument(
        "--planned", metavar="WEIGHT", help="filler planned, as 120kg: keep to the stock on hand"
    )
    _json(tried)


def _enter(enter: Parser) -> None:
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


def _chart(chart: Parser) -> None:
    chart.add_argument("bench", metavar="BENCH", help="the bench's number, as 7 or 7-A")
    chart.add_argument(
        "--measure",
        choices=("filler", "portion", "bunch", "cigar", "bundle", "ring", "length", "draw"),
        help="what was weighed or measured; what it was last weighed by without it",
    )
    chart.add_argument("--svg", metavar="FILE", help="draw it into a new file, for a report")
    _json(chart)


def _leaf(leaf: Parser) -> None:
    leaf.add_argument("--issue", action="store_true", help="what to issue for today's quotas")
    _json(leaf)
    leaf.add_argument("--csv", action="store_true", help="as CSV")
    leaf.add_argument("--html", metavar="FILE", help="the issue sheet to print, into a new file")


def _day(day: Parser) -> None:
    _date(day)
    _json(day)
    day.add_argument("--html", metavar="FILE", help="as a page to print, into a new file")
    day.add_argument("--csv", metavar="DIR", help="as tables, into a new or empty folder")


def _cards(cards: Parser) -> None:
    cards.add_argument(
        "--html", metavar="FILE", help="to print four to a page, into a new file; else as text"
    )


def _days(days: Parser) -> None:
    days.add_argument("first", metavar="FROM", help="a day, month or year: 2026-05-04, 2026-05")
    days.add_argument("last", metavar="TO", nargs="?", help="the same; without it FROM alone")
    _json(days)
    days.add_argument("--csv", action="store_true", help="as CSV, a row a day or a week")
    days.add_argument("--html", metavar="FILE", help="as a page to print, into a new file")
    days.add_argument("--by", choices=("day", "week"), default="day", help="ISO weeks")


def _pay(pay: Parser) -> None:
    pay.add_argument("first", metavar="FROM", help="a day, month or year: 2026-05-04, 2026-05")
    pay.add_argument("last", metavar="TO", nargs="?", help="the same; without it FROM alone")
    _json(pay)
    pay.add_argument("--csv", action="store_true", help="as CSV, a row a pair, vitola and rate")


def _month(month: Parser) -> None:
    month.add_argument("month", metavar="MONTH", help="as 2026-05")
    _json(month)
    month.add_argument("--csv", action="store_true", help="as CSV, a row a day")
    month.add_argument("--html", metavar="FILE", help="as a page to print, into a new file")


def _backup(backup: Parser) -> None:
    backup.add_argument("file", metavar="FILE", help="a new file; best on another disk")
    _json(backup)


def _restore(restore: Parser) -> None:
    restore.add_argument("file", metavar="FILE", help="a file that backup made")
    restore.add_argument(
        "--replace",
        action="store_true",
        help="also where newer or other records are here; they are set aside, never deleted",
    )
    _json(restore)


def _reopen(reopen: Parser) -> None:
    reopen.add_argument("reason", metavar="REASON", help="why, in quotes")
    _date(reopen)


def _panel(panel: Parser) -> None:
    common = _common()
    verbs = panel.add_subparsers(dest="verb", metavar="VERB", required=True)
    begin = _add(verbs, "open", "begin a session on a blend", common)
    begin.add_argument("blend", metavar="BLEND", help="the blend's code")
    begin.add_argument(
        "--vitolas", metavar="A,B,…", help="the chosen one first; without it all the blend has"
    )
    begin.add_argument("--blind", action="store_true", help="under codes A, B, … told later")
    score = _add(verbs, "score", "one taster's scores of one size", common)
    score.add_argument("taster", metavar="TASTER", help="a code with a figure, as T1; never a name")
    score.add_argument("code", metavar="CODE", help="the session's code, or the vitola")
    score.add_argument(
        "scores", metavar="SCORE", nargs="+", help="strength balance burn draw, 0 to 10; - for none"
    )
    _add(verbs, "reveal", "tell which vitola stood behind each code", common)
    _add(verbs, "note", "keep a note on the session", common).add_argument(
        "text", metavar="TEXT", help="in quotes"
    )
    show = _add(verbs, "show", "what the newest session says", common)
    _json(show)
    show.add_argument("--csv", action="store_true", help="the scores as CSV")


def _date(command: Parser) -> None:
    command.add_argument("date", metavar="DATE", nargs="?", help="as 2026-05-04; today without it")


def _json(command: Parser) -> None:
    command.add_argument("--json", action="store_true", help="as JSON")


COMMANDS: dict[str, Command] = {
    "house": Command("the house book: check, load, show", "floor.commands.house", _house),
    "card": Command("a bench's recipe card for today", "floor.commands.card", _card),
    "cards": Command("all benches' recipe cards, to print", "floor.commands.cards", _cards),
    "line": Command("a blend in every size: the line sheet", "floor.commands.line", _line),
    "try": Command("a blend with changes, or without a leaf", "floor.commands.try_", _try),
    "enter": Command("record entry lines, as typed on the floor", "floor.commands.enter", _enter),
    "rounds": Command("whom to weigh next, and why", "floor.commands.rounds", _json),
    "chart": Command("a bench's control chart, and its advice", "floor.commands.chart", _chart),
    "leaf": Command("leaf on hand by lot, days of cover, shortages", "floor.commands.leaf", _leaf),
    "panel": Command("does the line taste alike in every size?", "floor.commands.panel", _panel),
    "day": Command("what was made, and where the leaf went", "floor.commands.day", _day),
    "days": Command("a trend over closed days", "floor.commands.days", _days),
    "pay": Command("piece-rate counts of closed days", "floor.commands.pay", _pay),
    "month": Command("the month's record, as an aid", "floor.commands.month", _month),
    "close": Command("close a day; it takes no more entries", "floor.commands.close", _date),
    "reopen": Command("open a closed day again", "floor.commands.close", _reopen),
    "verify": Command("are the records sound?", "floor.commands.verify", _json),
    "backup": Command("copy all records into one file", "floor.commands.backup", _backup),
    "restore": Command("put a copy of the records back", "floor.commands.restore", _restore),
}
