"""The command line: its words, options and help. What a command does is in its own file."""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple, cast

from core.house.language import LANGUAGES
from core.say import say
from floor.commands import out
from floor.commands.usage import usage_in

VERSION = "0.5.0"
JOB = say(
    "One blend, every size: recipe cards, weight checks and the day's leaf for a rolling room."
)
CAUTION = say(
    "Tobacco products harm health; for adults in a licensed trade. Tax and record figures are "
    "aids: local law and a licensed adviser decide."
)


class Help(argparse.HelpFormatter):
    """Help as wide as the terminal; argparse imports every archive format to find that out."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=_columns() - 2)


def _columns() -> int:
    """The terminal's width, or what COLUMNS says; 80 where there is none."""
    given = os.environ.get("COLUMNS", "")
    try:
        return (int(given) if given.isdecimal() else 0) or os.get_terminal_size().columns or 80
    except OSError:
        return 80


class Parser(argparse.ArgumentParser):
    """A parser that tells what it is given to show, in the language spoken."""

    def __init__(self, **how: Any) -> None:
        super().__init__(**{"formatter_class": Help, "allow_abbrev": False, **how})

    def add_argument(self, *names: Any, **how: Any) -> argparse.Action:
        return super().add_argument(*names, **_told(how))


def _told(how: dict[str, Any]) -> dict[str, Any]:
    return how | {key: out.tell(how[key]) for key in ("help", "metavar") if key in how}


class Command(NamedTuple):
    """A command: what it does, the room that does it, and the words it takes."""

    does: str
    room: str
    words: Callable[[Parser], None]


def parse(words: Sequence[str]) -> argparse.Namespace:
    """Read a command line. Exits with 2 and the usage where it cannot be read.

    Usage, help and errors are in the language spoken. A line that begins with its command is
    read by that command's parser alone: a card should not wait for the words of every other
    command to be put together.
    """
    with usage_in(out.language()):
        if words and words[0] in COMMANDS:
            name = words[0]
            one = _parser(f"bunchbook {name}", COMMANDS[name].does)
            COMMANDS[name].words(one)
            return _read(one, words[1:], argparse.Namespace(command=name))
        top = _every(words)
        found = _read(top, words, argparse.Namespace())
        if found.command and found.only_bench is not None:
            top.error(out.tell(say("--bench is for the floor alone, without a command")))
        return found


def _read(parser: Parser, words: Sequence[str], into: argparse.Namespace) -> argparse.Namespace:
    """Read words into `into`; changes to try may stand behind an option too.

    argparse takes a list of words only where it begins.
    """
    found, more = parser.parse_known_args(words, into)
    if more and "changes" in found and not any(word.startswith("-") for word in more):
        found.changes += more
    elif more:
        parser.error(out.tell(say("unrecognized arguments: %s")) % " ".join(more))
    return found


def _parser(prog: str, does: str) -> Parser:
    """A parser of the common options, with their defaults."""
    made = Parser(
        prog=prog,
        description=out.tell(does),
        epilog=out.tell(CAUTION),
        parents=[_common()],
    )
    made.set_defaults(data=None, lang=None, at=None, demo=False, terminal=None, who=None)
    return made


def _every(words: Sequence[str]) -> Parser:
    """The whole command line; a command that is not among `words` has no parser of its own."""
    # Not one object for both: defaults set on a parser are set on the options it was given.
    common = _common()

    def named(**how: Any) -> Parser:
        return Parser(**how) if how["prog"].rpartition(" ")[2] in words else common

    top = _parser("bunchbook", JOB)
    top.set_defaults(command=None)
    top.add_argument(
        "--version",
        action="version",
        version=f"bunchbook {VERSION}",
        help=say("show program's version number and exit"),
    )
    top.add_argument(
        "--bench",
        dest="only_bench",
        metavar=say("BENCH"),
        help=say("the floor for that bench alone: its card and chart, nothing else"),
    )
    commands: Any = top.add_subparsers(
        parser_class=cast(Any, named),
        dest="command",
        metavar=out.tell(say("COMMAND")),
        title=out.tell(say("commands (none: the floor)")),
    )
    for name, command in COMMANDS.items():
        if name in words:
            command.words(_add(commands, name, command.does, common))
        else:
            commands.add_parser(name, help=out.tell(command.does))
    return top


def _add(under: Any, name: str, does: str, common: Parser) -> Parser:
    told = out.tell(does)
    made: Parser = under.add_parser(name, help=told, description=told, parents=[common])
    return made


def _common() -> Parser:
    """Options that every command takes, before or after its word."""
    common = Parser(add_help=False, argument_default=argparse.SUPPRESS)
    group = common.add_argument_group(out.tell(say("options for every command")))

    def option(name: str, **how: Any) -> None:
        group.add_argument(name, **_told(how))

    option(
        "--data",
        metavar=say("DIR"),
        help=say("the data folder (else BUNCHBOOK_DATA, else the user's own)"),
    )
    option("--lang", choices=LANGUAGES, help=say("the language to speak in (else the house's)"))
    option(
        "--at",
        metavar=say("TIME"),
        help=say('entries and questions as of then: "2026-05-04 09:15"'),
    )
    option("--demo", action="store_true", help=say("work on a throw-away copy of the demo house"))
    option("--terminal", metavar=say("NAME"), help=say("this terminal's name in the records"))
    option("--who", metavar=say("CODE"), help=say("initials or code kept with each entry"))
    return common


def _house(house: Parser) -> None:
    common = _common()
    verbs = house.add_subparsers(dest="verb", metavar=out.tell(say("VERB")), required=True)
    for verb, does in (
        ("check", say("list every problem of a house book; nothing is loaded")),
        ("load", say("take a house book into the data folder as its next version")),
    ):
        _add(verbs, verb, does, common).add_argument(
            "file", metavar=say("FILE"), help=say("a TOML file")
        )
    _json(_add(verbs, "show", say("print the house book in force"), common))
    start = _add(verbs, "start", say("make the first house book by question and answer"), common)
    start.add_argument(
        "file",
        metavar=say("FILE"),
        nargs="?",
        help=say("where to write it; into the data folder without it"),
    )


def _card(card: Parser) -> None:
    card.add_argument("bench", metavar=say("BENCH"), help=say("the bench's number, as 7 or 7-A"))
    _json(card)
    card.add_argument("--why", action="store_true", help=say("add the steps behind every figure"))


def _line(line: Parser) -> None:
    line.add_argument("blend", metavar=say("BLEND"), help=say("the blend's code"))
    _json(line)
    line.add_argument("--csv", action="store_true", help=say("as CSV"))
    line.add_argument("--svg", metavar=say("FILE"), help=say("draw filler by size into a new file"))
    line.add_argument(
        "--against", metavar=say("VITOLA"), help=say("the size the others are held against")
    )


def _try(tried: Parser) -> None:
    tried.add_argument("blend", metavar=say("BLEND"), help=say("the blend's code"))
    tried.add_argument(
        "changes",
        metavar=say("CHANGE"),
        nargs="*",
        help=say(
            "LI-2=1.5 (parts), toro.ring=50, toro.length=5in, LI-2.piece=1, LI-2.half_leaf=3g, "
            "LI-2.moisture=15%%"
        ),
    )
    tried.add_argument(
        "--without",
        metavar=say("LEAF,…"),
        action="append",
        help=say("new parts, this leaf being out"),
    )
    tried.add_argument(
        "--strength-within",
        metavar=say("POINTS"),
        type=float,
        default=0.2,
        help=say("0.2 without it"),
    )
    tried.add_argument(
        "--class-within",
        metavar=say("SHARE"),
        default="5%",
        help=say("of the filler; 5%% without it"),
    )
    tried.add_argument(
        "--planned",
        metavar=say("WEIGHT"),
        help=say("filler planned, as 120kg: keep to the stock on hand"),
    )
    tried.add_argument(
        "--svg",
        metavar=say("FILE"),
        help=say("draw filler by size, today and as tried, into a new file"),
    )
    _json(tried)


def _enter(enter: Parser) -> None:
    enter.add_argument(
        "lines",
        metavar=say("LINE"),
        nargs="+",
        help=say('one line in quotes, as "7 15.3 15.6"; - reads standard input'),
    )
    enter.add_argument("--json", action="store_true", help=say("one JSON object a line"))
    enter.add_argument(
        "--strict", action="store_true", help=say("exit 1 when a check is out of its window")
    )


def _chart(chart: Parser) -> None:
    chart.add_argument("bench", metavar=say("BENCH"), help=say("the bench's number, as 7 or 7-A"))
    chart.add_argument(
        "--measure",
        choices=("filler", "portion", "bunch", "cigar", "bundle", "ring", "length", "draw"),
        help=say("what was weighed or measured; what it was last weighed by without it"),
    )
    chart.add_argument(
        "--svg", metavar=say("FILE"), help=say("draw it into a new file, for a report")
    )
    _json(chart)


def _leaf(leaf: Parser) -> None:
    leaf.add_argument("--issue", action="store_true", help=say("what to issue for today's quotas"))
    _json(leaf)
    leaf.add_argument("--csv", action="store_true", help=say("as CSV"))
    leaf.add_argument(
        "--html", metavar=say("FILE"), help=say("the issue sheet to print, into a new file")
    )


def _day(day: Parser) -> None:
    _date(day)
    _json(day)
    day.add_argument("--html", metavar=say("FILE"), help=say("as a page to print, into a new file"))
    day.add_argument("--csv", metavar=say("DIR"), help=say("as tables, into a new or empty folder"))


def _cards(cards: Parser) -> None:
    cards.add_argument(
        "--html",
        metavar=say("FILE"),
        help=say("to print four to a page, into a new file; else as text"),
    )


def _days(days: Parser) -> None:
    days.add_argument(
        "first", metavar=say("FROM"), help=say("a day, month or year: 2026-05-04, 2026-05")
    )
    days.add_argument(
        "last", metavar=say("TO"), nargs="?", help=say("the same; without it FROM alone")
    )
    _json(days)
    days.add_argument("--csv", action="store_true", help=say("as CSV, a row a day or a week"))
    days.add_argument(
        "--html", metavar=say("FILE"), help=say("as a page to print, into a new file")
    )
    days.add_argument("--by", choices=("day", "week"), default="day", help=say("ISO weeks"))


def _pay(pay: Parser) -> None:
    pay.add_argument(
        "first", metavar=say("FROM"), help=say("a day, month or year: 2026-05-04, 2026-05")
    )
    pay.add_argument(
        "last", metavar=say("TO"), nargs="?", help=say("the same; without it FROM alone")
    )
    _json(pay)
    pay.add_argument(
        "--csv", action="store_true", help=say("as CSV, a row a pair, vitola and rate")
    )


def _month(month: Parser) -> None:
    month.add_argument("month", metavar=say("MONTH"), help=say("as 2026-05"))
    _json(month)
    month.add_argument("--csv", action="store_true", help=say("as CSV, a row a day"))
    month.add_argument(
        "--html", metavar=say("FILE"), help=say("as a page to print, into a new file")
    )


def _backup(backup: Parser) -> None:
    backup.add_argument("file", metavar=say("FILE"), help=say("a new file; best on another disk"))
    _json(backup)


def _restore(restore: Parser) -> None:
    restore.add_argument("file", metavar=say("FILE"), help=say("a file that backup made"))
    restore.add_argument(
        "--replace",
        action="store_true",
        help=say("also where newer or other records are here; they are set aside, never deleted"),
    )
    _json(restore)


def _reopen(reopen: Parser) -> None:
    reopen.add_argument("reason", metavar=say("REASON"), help=say("why, in quotes"))
    _date(reopen)


def _pin(pin: Parser) -> None:
    pin.description = out.tell(
        say(
            "Set or change the house's PIN, which is asked for to close a day or open it again, to "
            "void another's entry and to change the house book. It keeps hands off, it is no "
            "safe: whoever may write the data folder can get round it. Without a terminal "
            "commands take it from BUNCHBOOK_PIN."
        )
    )
    pin.add_argument(
        "--remove", action="store_true", help=say("take the PIN away; it asks for it a last time")
    )


def _serve(serve: Parser) -> None:
    serve.add_argument(
        "--port", metavar=say("N"), default="8017", help=say("8017 without it; 0: any free")
    )
    serve.add_argument(
        "--address",
        metavar=say("A"),
        default="127.0.0.1",
        help=say("127.0.0.1 (this machine) without it"),
    )
    serve.add_argument(
        "--token",
        metavar=say("T"),
        help=say(
            "who opens the page must have it (else BUNCHBOOK_TOKEN; made up for other addresses)"
        ),
    )
    serve.add_argument(
        "--sessions", metavar=say("N"), default="8", help=say("browsers at once; 8 without it")
    )


def _panel(panel: Parser) -> None:
    common = _common()
    verbs = panel.add_subparsers(dest="verb", metavar=out.tell(say("VERB")), required=True)
    begin = _add(verbs, "open", say("begin a session on a blend"), common)
    begin.add_argument("blend", metavar=say("BLEND"), help=say("the blend's code"))
    begin.add_argument(
        "--vitolas",
        metavar=say("A,B,…"),
        help=say("the chosen one first; without it all the blend has"),
    )
    begin.add_argument("--blind", action="store_true", help=say("under codes A, B, … told later"))
    begin.add_argument(
        "--book",
        metavar=say("BOOK"),
        help=say("the house book's version, or the day, of the cigars smoked; today's without it"),
    )
    score = _add(verbs, "score", say("one taster's scores of one size"), common)
    score.add_argument(
        "taster", metavar=say("TASTER"), help=say("a code with a figure, as T1; never a name")
    )
    score.add_argument("code", metavar=say("CODE"), help=say("the session's code, or the vitola"))
    score.add_argument(
        "scores",
        metavar=say("SCORE"),
        nargs="+",
        help=say("strength balance burn draw, 0 to 10; - for none"),
    )
    _add(verbs, "reveal", say("tell which vitola stood behind each code"), common)
    _add(verbs, "note", say("keep a note on the session"), common).add_argument(
        "text", metavar=say("TEXT"), help=say("in quotes")
    )
    show = _add(verbs, "show", say("what the newest session says"), common)
    _json(show)
    show.add_argument("--csv", action="store_true", help=say("the scores as CSV"))


def _date(command: Parser) -> None:
    command.add_argument(
        "date", metavar=say("DATE"), nargs="?", help=say("as 2026-05-04; today without it")
    )


def _help(command: Parser) -> None:
    command.add_argument(
        "word", metavar=say("WORD"), nargs="*", help=say("one word of the line; all without it")
    )


def _json(command: Parser) -> None:
    command.add_argument("--json", action="store_true", help=say("as JSON"))


COMMANDS: dict[str, Command] = {
    "house": Command(
        say("the house book: start, check, load, show"), "floor.commands.house", _house
    ),
    "card": Command(say("a bench's recipe card for today"), "floor.commands.card", _card),
    "cards": Command(say("all benches' recipe cards, to print"), "floor.commands.cards", _cards),
    "line": Command(say("a blend in every size: the line sheet"), "floor.commands.line", _line),
    "try": Command(say("a blend with changes, or without a leaf"), "floor.commands.try_", _try),
    "enter": Command(
        say("record entry lines, as typed on the floor"), "floor.commands.enter", _enter
    ),
    "board": Command(say("how every bench is doing"), "floor.commands.board", _json),
    "log": Command(say("what was recorded today, newest first"), "floor.commands.log", _json),
    "rounds": Command(say("whom to weigh next, and why"), "floor.commands.rounds", _json),
    "chart": Command(
        say("a bench's control chart, and its advice"), "floor.commands.chart", _chart
    ),
    "leaf": Command(
        say("leaf on hand by lot, days of cover, shortages"), "floor.commands.leaf", _leaf
    ),
    "panel": Command(
        say("does the line taste alike in every size?"), "floor.commands.panel", _panel
    ),
    "day": Command(say("what was made, and where the leaf went"), "floor.commands.day", _day),
    "days": Command(say("a trend over closed days"), "floor.commands.days", _days),
    "pay": Command(say("piece-rate counts of closed days"), "floor.commands.pay", _pay),
    "month": Command(say("the month's record, as an aid"), "floor.commands.month", _month),
    "close": Command(say("close a day; it takes no more entries"), "floor.commands.close", _date),
    "reopen": Command(say("open a closed day again"), "floor.commands.close", _reopen),
    "pin": Command(say("set, change or remove the house's PIN"), "floor.commands.pin", _pin),
    "verify": Command(say("are the records sound?"), "floor.commands.verify", _json),
    "backup": Command(say("copy all records into one file"), "floor.commands.backup", _backup),
    "restore": Command(say("put a copy of the records back"), "floor.commands.restore", _restore),
    "help": Command(
        say("what can be typed as an entry line, by example"), "floor.commands.help", _help
    ),
    "serve": Command(say("the floor in a browser on this machine"), "floor.commands.serve", _serve),
}
