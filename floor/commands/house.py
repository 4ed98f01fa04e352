"""`house check`, `house load`, `house show`, and the way to `house start`."""

from __future__ import annotations

import argparse
from typing import Any

from core.day.ledger import Seat
from core.desk.book_file import book_text, contents
from core.desk.load import examine, take_in
from core.desk.permission import PinNeeded
from core.desk.shelf import Loaded
from core.desk.today import Today
from core.house.model import HouseBook
from core.house.stored import plain
from core.problems import BadInput
from core.say import say, say_many
from floor.commands import out
from floor.commands.ask_pin import pin_for
from floor.commands.setting import Setting, setting, tell_damage


def run(args: argparse.Namespace) -> int:
    """Check, load, show or begin the house book."""
    if args.verb == "show":
        return _show(args)
    if args.verb == "start":
        from floor.commands.house_start import start  # noqa: PLC0415 - once in a house's life

        return start(args)
    text = book_text(args.file)
    read = examine(text, args.file)
    if args.lang is None and read.house is not None:  # the first book has none before it
        out.speak(read.house.house.language)
    out.problems(read.odd)
    if read.house is None:
        out.problems(read.problems)
        out.message(
            say_many(
                len(read.problems),
                "{file}: 1 problem; nothing loaded",
                "{file}: {n} problems; nothing loaded",
                file=args.file,
            )
        )
        return BadInput.exit_code
    if args.verb == "check":
        out.result(say("{file}: sound: {contents}", file=args.file, contents=contents(read.house)))
        return 0
    with setting(args) as place:
        today = place.today()
        before = _seats(today)
        loaded = _loaded(place, today, read.house, text.decode("utf-8-sig"), args.file)
        state = (
            say("{file}: loaded as version {version}: {contents}")
            if loaded.new
            else say("{file}: unchanged, already version {version}: {contents}")
        )
        held = contents(read.house)
        out.result(state.format(file=args.file, version=loaded.version, contents=held))
        today.follow()
        for bench, seat in _seats(today).items():
            if bench in before and before[bench][:2] != seat[:2]:
                out.message(
                    say(
                        "bench {bench} rolls {vitola} of {blend} from now on",
                        bench=bench,
                        vitola=seat.vitola,
                        blend=seat.blend,
                    )
                )
    return 0


def _loaded(place: Setting, today: Today, house: HouseBook, text: str, file: str) -> Loaded:
    """Take the house book in; where that asks for the PIN, ask whoever typed the command."""
    had = today.house.house.pin if today.house else None
    try:
        loaded = take_in(today, house, text, file, real=place.real, pin=None)
    except PinNeeded as needed:
        loaded = take_in(today, house, text, file, real=place.real, pin=pin_for(needed.said))
    if had is not None and house.house.pin is None:
        out.message(
            say("this house book has no PIN: nothing asks for one now; set it with: bunchbook pin")
        )
    return loaded


def _show(args: argparse.Namespace) -> int:
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        house = today.house
        if house is None:
            raise BadInput(say("no house book is loaded yet; load one: bunchbook house load FILE"))
        source = today.shelf.source(today.house_version)
        if args.json:
            out.json(
                {
                    "version": today.house_version,
                    "versions": len(today.shelf),
                    "loaded": source["at"],
                    "file": source["file"],
                    **_without_pin(house),
                }
            )
        else:
            out.message(
                say(
                    "version {version}, loaded {at}: {contents}",
                    version=today.house_version,
                    at=source["at"],
                    contents=contents(house),
                )
            )
            out.result(source["toml"].rstrip("\n"))
    return 0


def _without_pin(house: HouseBook) -> dict[str, Any]:
    """The house book for programs: whether it has a PIN, not what that is hashed to."""
    dumped: dict[str, Any] = plain(house)
    dumped["house"]["pin"] = house.house.pin is not None
    return dumped


def _seats(today: Today) -> dict[str, Seat]:
    """What each bench rolls now: a roll does not outlast a change of its bench's own line."""
    house, version = today.house, today.house_version
    return {bench: today.ledger.seat(bench, version) for bench in house.bench} if house else {}
