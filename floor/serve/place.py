"""What a session's process is told of the place it works at, as one word of its command line."""

from __future__ import annotations

import datetime as dt
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from core.day.calendar import Clock
from floor.commands import out
from floor.commands.setting import Setting

if TYPE_CHECKING:
    from core.house.model import Language

PROGRAM = "floor.serve.session"


class Place(NamedTuple):
    """The data folder, the terminal, and the time: `at` stands still, `ahead_s` runs on.

    `language` is the floor's, None for the house's; `spoken` is that of what goes wrong before.
    """

    folder: str
    terminal: str
    who: str | None
    at: str | None
    ahead_s: float
    language: Language | None
    spoken: Language

    def setting(self) -> Setting:
        """The same as the common options would say."""
        asked = None if self.at is None else dt.datetime.fromisoformat(self.at)
        real = _ahead(dt.timedelta(seconds=self.ahead_s))
        clock = real if asked is None else (lambda: asked)
        return Setting(Path(self.folder), clock, self.terminal, self.who, asked, real)

    def command(self) -> list[str]:
        """The command line of the session's process."""
        # -P: a folder called `floor` or `core` where `serve` was started is none of ours.
        return [sys.executable, "-P", "-m", PROGRAM, json.dumps(self)]


def place_of(setting: Setting, terminal: str, language: Language | None) -> Place:
    """A setting for another process, at a terminal of its own."""
    ahead = setting.real() - dt.datetime.now().astimezone()
    at = None if setting.asked is None else setting.asked.isoformat()
    folder = str(setting.folder.absolute())
    ahead_s = round(ahead.total_seconds(), 3)
    return Place(folder, terminal, setting.who, at, ahead_s, language, out.language())


def read(word: str) -> Place:
    """What `command` wrote."""
    return Place(*json.loads(word))


def _ahead(by: dt.timedelta) -> Clock:
    return lambda: dt.datetime.now().astimezone() + by
