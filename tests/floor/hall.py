"""The floor without a terminal: bytes in as a terminal would send them, text out."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from textual._xterm_parser import XTermParser

from core.desk.faces import DeskFace
from core.desk.load import examine
from core.house.model import HouseBook
from floor.app import FloorApp
from tests.desk.conftest import HOUSE_TOML

PATIENCE_S = 5.0
F1, F2, F5, F7 = "\x1b[11~", "\x1b[12~", "\x1b[15~", "\x1b[18~"
F3 = "\x1b[13~"
F8, F9, F10 = "\x1b[19~", "\x1b[20~", "\x1b[21~"
UP, DOWN, PAGE_DOWN, PAGE_UP, END = "\x1b[A", "\x1b[B", "\x1b[6~", "\x1b[5~", "\x1b[F"
ESC = "\x1b"
XTERM = {"TERM": "xterm-256color", "COLORTERM": "truecolor"}


def small_house(text: str = HOUSE_TOML) -> HouseBook:
    """The small house of the desk's tests, or another."""
    read = examine(text, "house.toml")
    assert read.house is not None, read.problems
    return read.house


class Hall:
    """A running floor."""

    def __init__(self, app: FloorApp) -> None:
        self.app = app

    def type(self, data: str) -> None:
        """Post everything the data means in one burst; nothing is drawn in between."""
        parser = XTermParser()
        for event in parser.feed(data):
            self.app.post_message(event)
        if data.endswith(ESC):
            for event in parser.feed(""):
                self.app.post_message(event)

    @property
    def rows(self) -> list[str]:
        return [strip.text for strip in self.app.screen._compositor.render_strips()]

    @property
    def text(self) -> str:
        return "\n".join(self.rows)

    def is_at(self, title: str) -> bool:
        """Whether the title bar begins with this page's name."""
        return self.rows[0].startswith(f" {title}")

    async def shows(self, wanted: str) -> None:
        """Wait until the text is on the screen."""
        await self.until(lambda: wanted in self.text, wanted)

    async def until(self, holds: object, what: str = "it") -> None:
        """Wait until the condition holds."""
        assert callable(holds)
        try:
            async with asyncio.timeout(PATIENCE_S):
                while not holds():
                    await asyncio.sleep(0.005)
        except TimeoutError:
            raise AssertionError(f"waited for {what}; the screen is\n{self.text}") from None

    async def settled(self) -> None:
        """Wait until everything posted has been dealt with and drawn."""
        done = asyncio.Event()
        self.app.entry.call_later(lambda: self.app.call_later(done.set))
        await asyncio.wait_for(done.wait(), PATIENCE_S)
        await self.until(lambda: not self.app._stale, "the page to be drawn")
        await asyncio.sleep(0.04)


@asynccontextmanager
async def floor(
    desk: DeskFace,
    size: tuple[int, int] = (80, 24),
    environ: dict[str, str] | None = None,
    encoding: str = "utf-8",
) -> AsyncIterator[Hall]:
    """A floor on a desk, shown and ready."""
    app = FloorApp(desk, XTERM if environ is None else environ, encoding)
    async with app.run_test(size=size):
        hall = Hall(app)
        await hall.shows("▸" if encoding == "utf-8" else ">")
        await hall.settled()
        yield hall
