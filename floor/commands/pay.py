"""`pay`: piece-rate counts of closed days; nothing is decided."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from core.day.pay import CAUTION, Pay, PayLine, pay
from core.day.trend import closed_days
from core.desk.figures import fixed
from core.entry.faults import fault_name
from core.problems import BadInput
from core.say import joined, say, say_as, say_many
from floor.commands import out
from floor.commands.setting import setting
from floor.commands.spans import asked, found, shelf, tell_unclosed
from floor.commands.spreadsheet import csv_text
from floor.commands.words import word


def run(args: argparse.Namespace) -> int:
    """Print each pair's accepted cigars by vitola and rate, and what a house may deduct."""
    if args.json and args.csv:
        raise BadInput(say("give --json or --csv, not both"))
    first, last = asked(args.first, args.last)
    with setting(args) as place:
        span = found(place, first, last)
        days = closed_days(span.kept)
        books = shelf(place)
        houses = {version: books[version] for version in {day["version"] for day in days}}
        counted = pay(days, houses)
        currency = houses[days[-1]["version"]].house.currency if days else None
    if args.json:
        out.json(
            {
                "from": first.isoformat(),
                "to": last.isoformat(),
                "days": len(days),
                "currency": currency,
                **counted.json(),
            }
        )
    elif args.csv:
        out.result(csv_text([PayLine._fields, *counted.lines]).rstrip("\n"))
    else:
        for line in _lines(counted, len(days), currency or ""):
            out.result(line)
    if not days:
        out.message(say("no day is closed from {first} to {last}", first=first, last=last))
    tell_unclosed(span.unclosed)
    return 0


_HEAD = (
    *(say("buncher"), say("roller"), say("vitola"), say("per 1000"), say("days")),
    *(say_as("column", "accepted"), say("amount"), say("not mended"), say("seconds")),
)


def _lines(counted: Pay, days: int, currency: str) -> Iterator[str]:
    if counted.lines:
        yield out.table([_HEAD, *map(_row, counted.lines)], right=frozenset(range(3, len(_HEAD))))
        amount = f"{_money(counted.amount)} {currency}".rstrip()
        yield say_many(
            days,
            "1 closed day, accepted cigars at the rates: {amount}",
            "{n} closed days, accepted cigars at the rates: {amount}",
            amount=amount,
        )
    if any(line.rate_per_1000 is None for line in counted.lines):
        yield say("without a rate in the house book there is no amount: piece_rate of the vitola")
    if counted.faults:
        yield say("rejects of the whole room, and what usually happens to them:")
        for line in counted.faults:
            yield joined("", (f"  {line.n} ", fault_name(line.fault), ": ", word(line.fate)))
    yield CAUTION


def _row(line: PayLine) -> tuple[str, ...]:
    return (
        line.buncher,
        line.roller,
        line.vitola,
        "" if line.rate_per_1000 is None else _money(line.rate_per_1000),
        str(line.days),
        str(line.accepted),
        "" if line.amount is None else _money(line.amount),
        str(line.not_mended),
        str(line.second),
    )


def _money(amount: float) -> str:
    return fixed(amount, 2)
