"""The demo house's floor on a pseudo-terminal, in English and Spanish, and its pages by word."""

from __future__ import annotations

import datetime as dt
import shutil
import time
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from typing import NamedTuple

from core.desk.desk import Desk
from demo.house import HOUSE_TOML
from tests.desk.conftest import load
from tests.floor.terminal import Terminal, opened

ROOT = Path(__file__).parents[2]


class Room(NamedTuple):
    """What is typed to come to a page, and what its title bar says there."""

    typed: str
    title: str


ENGLISH = (
    Room("board", "Board"),
    Room("/17", "Card, bench 17"),
    Room("why", "Why, bench 17"),
    Room("chart 17", "Chart, bench 17"),
    Room("rounds", "Rounds"),
    Room("leaf", "Leaf"),
    Room("line", "Line"),
    Room("day", "Day"),
    Room("days", "Days"),
    Room("panel", "Panel"),
    Room("log", "Log"),
    Room("help", "Help"),
)
SPANISH = (
    Room("tablero", "Tablero"),
    Room("/17", "Ficha, mesa 17"),
    Room("porque", "Porqué, mesa 17"),
    Room("grafica 17", "Gráfica, mesa 17"),
    Room("rondas", "Rondas"),
    Room("hoja", "Hoja"),
    Room("linea", "Línea"),
    Room("dia", "Día"),
    Room("dias", "Días"),
    Room("cata", "Cata"),
    Room("registro", "Registro"),
    Room("ayuda", "Ayuda"),
)
ALL = {"en": ENGLISH, "es": SPANISH}


class Rooms:
    """Opens floors, each on a copy of the demo house's records."""

    def __init__(self, folder: Path, moment: dt.datetime) -> None:
        self._folder = folder
        self._moment = moment
        self._copies = count(1)

    def data(self, language: str) -> Path:
        """A copy of the records, of a house that speaks this language."""
        data = self._folder / f"copy-{next(self._copies)}"
        shutil.copytree(self._folder / "demo", data)
        if language != "en":
            text = HOUSE_TOML.read_text(encoding="utf-8")
            spoken = text.replace('language = "en"', f'language = "{language}"')
            assert spoken != text
            load(Desk(data, lambda: self._moment, "T0"), spoken)
        return data

    def argv(self, data: Path) -> list[str]:
        """The floor's command on those records, at the demo's moment."""
        at = f"{self._moment:%Y-%m-%d %H:%M}"
        return ["-m", "floor.main", "--at", at, "--data", str(data), "--terminal", "T1"]

    @contextmanager
    def floor(
        self, language: str = "en", size: tuple[int, int] = (80, 24), **env: str
    ) -> Iterator[Terminal]:
        """A floor of the demo house, seen to be ready."""
        with opened(self.argv(self.data(language)), size, **env) as terminal:
            terminal.wait_for(ALL[language][0].title)
            terminal.wait_for("robusto")
            yield terminal


def go(terminal: Terminal, room: Room, title: str | None = None) -> None:
    """Type the room's word and wait until its page is shown, and all of it."""
    terminal.type(f"{room.typed}\r")
    stands_at(terminal, title or room.title)
    settle(terminal)


def stands_at(terminal: Terminal, title: str) -> None:
    """Wait until the title bar says that this is the page."""
    terminal.wait_for(lambda: terminal.rows[0].startswith(f" {title}  "))


def settle(terminal: Terminal, quiet_s: float = 0.06) -> None:
    """Wait until the program has drawn nothing for a moment."""
    quiet_since, taken = time.monotonic(), len(terminal.sent)
    while time.monotonic() - quiet_since < quiet_s:
        terminal.drain(0.01)
        if len(terminal.sent) != taken:
            quiet_since, taken = time.monotonic(), len(terminal.sent)
