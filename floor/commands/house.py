"""`house check`, `house load`, `house show`."""

from __future__ import annotations

import argparse
from pathlib import Path

from core.day.ledger import Seat
from core.desk.load import examine
from core.desk.today import Today
from core.house.model import HouseBook
from core.house.toml import MOST_MB
from core.problems import BadInput
from floor.commands import out
from floor.commands.setting import setting, tell_damage


def run(args: argparse.Namespace) -> int:
    """Check, load or show the house book."""
    if args.verb == "show":
        return _show(args)
    text = _text(args.file)
    read = examine(text, args.file)
    out.problems(read.odd)
    if read.house is None:
        out.problems(read.problems)
        out.message(f"{args.file}: {_many(len(read.problems), 'problem')}; nothing loaded")
        return BadInput.exit_code
    if args.verb == "check":
        out.result(f"{args.file}: sound: {_contents(read.house)}")
        return 0
    with setting(args) as place:
        today = place.today()
        before = _seats(today)
        loaded = today.shelf.load(read.house, text.decode("utf-8-sig"), args.file, place.clock())
        state = "loaded as version" if loaded.new else "unchanged, already version"
        out.result(f"{args.file}: {state} {loaded.version}: {_contents(read.house)}")
        today.follow()
        for bench, seat in _seats(today).items():
            if bench in before and before[bench][:2] != seat[:2]:
                out.message(f"bench {bench} rolls {seat.vitola} of {seat.blend} from now on")
    return 0


def _show(args: argparse.Namespace) -> int:
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        house = today.house
        if house is None:
            raise BadInput("no house book is loaded yet; load one: bunchbook house load FILE")
        source = today.shelf.source(today.house_version)
        if args.json:
            out.json(
                {
                    "version": today.house_version,
                    "versions": len(today.shelf),
                    "loaded": source["at"],
                    "file": source["file"],
                    **house.model_dump(mode="json"),
                }
            )
        else:
            out.message(f"version {today.house_version}, loaded {source['at']}: {_contents(house)}")
            out.result(source["toml"].rstrip("\n"))
    return 0


def _text(file: str) -> bytes:
    try:
        with Path(file).open("rb") as book:
            return book.read(MOST_MB * 1024 * 1024 + 1)
    except (OSError, ValueError) as error:
        raise BadInput(f"{file}: cannot be read: {getattr(error, 'strerror', error)}") from error


def _seats(today: Today) -> dict[str, Seat]:
    """What each bench rolls now: a roll does not outlast a change of its bench's own line."""
    house, version = today.house, today.house_version
    return {bench: today.ledger.seat(bench, version) for bench in house.bench} if house else {}


def _many(n: int, what: str, plural: str = "") -> str:
    return f"{n} {what if n == 1 else plural or what + 's'}"


def _contents(house: HouseBook) -> str:
    contents = (
        _many(len(house.leaves), "leaf", "leaves"),
        _many(len(house.blends), "blend"),
        _many(len(house.vitolas), "vitola"),
        _many(len(house.benches), "bench", "benches"),
    )
    return f"{house.house.name}: {', '.join(contents)}"
