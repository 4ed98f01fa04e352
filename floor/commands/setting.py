"""Where a command works: its data folder, its clock, its terminal, read from the options."""

from __future__ import annotations

import argparse
import datetime as dt
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from core.problems import BadInput, StoreUnusable, damage_told
from core.say import say
from floor.commands import out
from floor.commands.folder import own_folder

if TYPE_CHECKING:
    from core.day.calendar import Clock
    from core.desk.desk import Desk
    from core.desk.today import Today


LONGEST_NAME = 40


class Setting(NamedTuple):
    """What the common options say. `asked` is the time of `--at`, None for now."""

    folder: Path
    clock: Clock
    terminal: str
    who: str | None
    asked: dt.datetime | None
    real: Clock
    """The time it is, whatever `--at` says."""

    def desk(
        self, *, date: dt.date | None = None, question: bool = False, only: str | None = None
    ) -> Desk:
        """A desk on the data folder; a question under `--at` is answered as of then."""
        from core.desk.desk import Desk

        as_of = question and self.asked is not None
        return Desk(
            self.folder,
            self.clock,
            self.terminal,
            self.who,
            date=date,
            as_of=as_of,
            real=self.real,
            only=only,
        )

    def recording(
        self, *, date: dt.date | None = None, question: bool = False, only: str | None = None
    ) -> Desk:
        """A desk to record at; BadInput where `--at` names a working day that has not begun.

        Its book would begin with moistures that are measured anew before it does.
        """
        desk = self.desk(date=date, question=question, only=only)
        today = desk.day_of(self.real())
        if self.asked is not None and desk.day_of(self.asked) > today:
            day = desk.day_of(self.asked)
            raise BadInput(say("--at: {day} has not begun; today is {today}", day=day, today=today))
        return desk

    def today(self) -> Today:
        """Today as of the time asked, for questions that need no desk."""
        from core.desk.today import Today

        return Today(self.folder, self.clock, as_of=self.asked is not None)


@contextmanager
def setting(args: argparse.Namespace) -> Iterator[Setting]:
    """Read the common options; a demo's folder is gone when the command is done."""
    asked = None if args.at is None else moment(args.at)
    terminal = _name("--terminal", args.terminal or os.environ.get("BUNCHBOOK_TERMINAL") or "")
    who = _name("--who", args.who or os.environ.get("BUNCHBOOK_WHO") or "")
    terminal = terminal or _terminal()
    if not args.demo:
        real = _clock(None)
        clock = _clock(asked) if asked else real
        yield Setting(_folder(args.data), clock, terminal, who or None, asked, real)
        return
    if args.data:
        raise BadInput(
            say("--demo works on a throw-away copy: leave out --data, or leave out --demo")
        )
    from tempfile import TemporaryDirectory

    from demo.build import build

    with TemporaryDirectory(prefix="bunchbook-demo-") as place:
        folder = Path(place) / "data"
        began = build(folder)
        real = _running(began)
        clock = _clock(asked) if asked else real
        yield Setting(folder, clock, terminal, who or None, asked, real)


def tell_damage(lines: int) -> None:
    """Say that records are damaged, where they are: nothing built on them passes in silence."""
    if lines:
        out.message(damage_told(lines))


def moment(text: str) -> dt.datetime:
    """The local time that `--at` names; BadInput says how to write it."""
    try:
        found = dt.datetime.fromisoformat(text.strip())
    except ValueError:
        found = None
    whole = found is not None and len(text.strip()) >= len("2026-05-04 09:15")
    if found is None or not whole or not 2000 <= found.year < 2200:
        raise BadInput(
            say('--at expects a time like "2026-05-04 09:15", found "{found}"', found=text)
        )
    return found.astimezone()


def _name(option: str, text: str) -> str:
    """A short printable name, as records and the Log can show it."""
    if len(text) > LONGEST_NAME or not text.isprintable():
        raise BadInput(
            say("{option} expects up to {n} printable characters", option=option, n=LONGEST_NAME)
        )
    return text.strip()


def day(text: str) -> dt.date:
    """A working day; BadInput says how to write it."""
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise BadInput(say('expected a day like 2026-05-04, found "{found}"', found=text)) from None


def _folder(data: str | None) -> Path:
    given = os.environ.get("BUNCHBOOK_DATA") if data is None else data
    if data is not None and not data.strip():
        raise BadInput(say("--data expects a folder, found nothing"))
    if given:
        try:
            return Path(given).expanduser()
        except RuntimeError:
            raise StoreUnusable(
                say("{folder}: there is no such user; name the folder in full", folder=given)
            ) from None
    return Path(own_folder())


def _clock(asked: dt.datetime | None) -> Clock:
    if asked is not None:
        return lambda: asked
    return lambda: dt.datetime.now().astimezone()


def _running(began: dt.datetime) -> Clock:
    """A clock that runs on from the demo's moment."""
    started = dt.datetime.now().astimezone()
    return lambda: began + (dt.datetime.now().astimezone() - started)


def _terminal() -> str:
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        try:
            tty = os.ttyname(stream.fileno()).removeprefix("/dev/")
            # The system gives a closed terminal's name to the next: the session tells them apart.
            return f"{tty}.{os.getsid(0)}"
        except (OSError, ValueError, AttributeError):
            continue
    return f"shell@{os.uname().nodename}"
