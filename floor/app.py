"""The floor: one screen of a title, a page, the entry line and the keys.

There is one entry line, and it never goes away: pages change above it. The app hands it every
key and paste in the order they came, function keys too, so that what is typed before a key
that changes the page is done before the page changes.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from time import monotonic
from typing import ClassVar, NamedTuple

from rich.style import Style
from textual import events
from textual.app import App, ComposeResult
from textual.binding import BindingType
from textual.driver import Driver
from textual.filter import LineFilter, NoColor

from core.desk.faces import DeskFace, Go
from core.house.model import Language
from core.problems import UserError
from core.say import say
from floor.ahead import load_ahead
from floor.looks.ascii import AsciiOnly
from floor.looks.ink import LEAF, inks
from floor.looks.language import words_of
from floor.looks.spans import Ink
from floor.looks.terminal import Terminal, terminal_of
from floor.looks.words import Words
from floor.screens.board import Board
from floor.screens.pages import page_of
from floor.widgets.beginning import Beginning
from floor.widgets.clerk import Clerk
from floor.widgets.departure import Departure
from floor.widgets.driver import FloorDriver
from floor.widgets.entry import ROWS, EntryLine
from floor.widgets.keys_bar import OF_A_BENCH, KeysBar
from floor.widgets.page import Page
from floor.widgets.patient import PatientDriver
from floor.widgets.roster import Roster
from floor.widgets.title import TitleBar
from floor.widgets.too_small import TooSmall

POLL_S = 0.5
"""How often the desk looks for what other terminals recorded."""

REDRAW_S = 1 / 30
"""A page is made anew at most this often, however fast entries come."""

KEYS = {
    "f1": "board",
    "f2": "rounds",
    "f3": "leaf",
    "f4": "line",
    "f5": "day",
    "f6": "panel",
    "f7": "log",
    "f8": "why",
    "f9": "chart",
    "f10": "help",
    "?": "help",
}
LISTS = ("board", "rounds")


class At(NamedTuple):
    """The page shown, the bench it is about where it is about one, and what of it is shown."""

    page: str
    bench: str | None = None
    words: str = ""


class FloorApp(App[int], inherit_bindings=False):
    """The floor on a desk. `environ` and `encoding` tell what the terminal can show.

    `language` is the one to speak, whatever the house's. `served`: who is at it sits at a
    browser, and is not to name files of this machine.
    """

    CSS = """
    Screen { layout: vertical; overflow: hidden; background: $background; color: $foreground; }
    Screen:ansi { background: ansi_default; color: ansi_default; }
    """
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = []

    def __init__(
        self,
        desk: DeskFace,
        environ: Mapping[str, str] = os.environ,
        encoding: str | None = None,
        language: Language | None = None,
        *,
        served: bool = False,
    ) -> None:
        self.terminal: Terminal = terminal_of(environ, encoding or sys.stdout.encoding)
        full = self.terminal.colour == "full"
        super().__init__(ansi_color=None if full else True)
        self.register_theme(LEAF)
        self.theme = LEAF.name if full else "ansi-dark"
        self.animation_level = "none"
        self.inks: dict[Ink, Style] = inks(self.terminal.colour)
        self.desk = desk
        self.place = At("board") if desk.only is None else At("card", desk.only)
        self.beginning = Beginning(self, names_files=not served)
        self.clerk = Clerk(desk, self, self.beginning)
        self._language = language
        self.entry = EntryLine(self.clerk, self.page_key, id="entry")
        self.title_bar = TitleBar(id="title")
        self.keys_bar = KeysBar(id="keys")
        self.too_small = TooSmall()
        self.board = Board()
        self._pages: dict[str, Page] = {"board": self.board}
        self._list = "board"
        self._minute = ""
        self._stale = False
        self._redrawn_s = 0.0
        self._small = False
        self._rows = 0
        self._departure = Departure(self)

    # -- what the parts ask -------------------------------------------------------------------

    @property
    def words(self) -> Words:
        """In the language that was chosen, else the house's."""
        house = self.desk.house
        language = self._language or (house.house.language if house else "en")
        return words_of(language, self.terminal.ascii)

    @property
    def language(self) -> Language:
        """What is spoken here."""
        return self.words.language

    @property
    def at(self) -> str | None:
        """The bench whose card, steps or chart are shown, or the only one: bare numbers are its."""
        if self.desk.only is not None:
            return self.desk.only
        return self.place.bench if self.place.page in OF_A_BENCH else None

    @property
    def bench(self) -> str | None:
        """The bench the page is about."""
        return self.place.bench

    @property
    def page(self) -> Page | None:
        """The page shown, None while it is being made."""
        return self._pages.get(self.place.page)

    def near(self, text: str) -> str:
        """The text with the records' files named from the data folder on: a long path would
        take the room of what to do about them.
        """
        return text.replace(f"{self.desk.data_folder}{os.sep}", "")

    def page_name(self) -> str:
        """What the title bar calls the page."""
        words = self.words
        names = {
            "board": words.board,
            "card": words.card,
            "why": words.why,
            "rounds": words.rounds,
            "chart": words.chart,
            "leaf": words.leaf_page,
            "line": words.line_page,
            "day": words.day,
            "days": words.days,
            "panel": words.panel,
            "log": words.log,
            "help": words.help,
        }
        name = names[self.place.page]
        if self.beginning.in_sight is not None:
            return words.start
        return name if self.at is None else f"{name}, {words.bench} {self.at}"

    def in_sight(self) -> str:
        """Which lines of a long page are in sight."""
        return self.page.in_sight() if self.page else ""

    def get_line_filters(self) -> list[LineFilter]:
        """Colours are dropped and signs mapped for terminals that have none."""
        filters = list(super().get_line_filters())
        if self.terminal.colour == "none" and not self.no_color:
            filters.append(NoColor())
        if self.terminal.ascii:
            filters.append(AsciiOnly())
        return filters

    def get_driver_class(self) -> type[Driver]:
        """The terminal's driver, the floor's own where it is the usual one."""
        usual = super().get_driver_class()
        return FloorDriver if usual is PatientDriver.__base__ else usual

    # -- life ---------------------------------------------------------------------------------

    def compose(self) -> ComposeResult:
        yield self.title_bar
        yield self.too_small
        yield self._made(self.place.page)
        yield self.entry
        yield self.keys_bar

    def on_mount(self) -> None:
        self._departure.watch()
        self.set_interval(POLL_S, self._poll)
        self.call_after_refresh(load_ahead)

    def on_unmount(self) -> None:
        self._departure.forget()

    def on_resize(self, event: events.Resize) -> None:
        self._small = TooSmall.is_for(event.size)
        self._rows = event.size.height  # `size` itself is still the one before
        self._lay_out()
        self.entry.allow(self._rows)

    async def on_event(self, event: events.Event) -> None:
        """Every key and paste goes to the entry line, whatever else is going on."""
        if isinstance(event, events.Key | events.Paste):
            self.entry.post_message(event)
        else:
            await super().on_event(event)

    def leave(self) -> None:
        """Close the floor."""
        self.exit(0)

    def speak(self, language: Language) -> None:
        """Say everything in that language from here on, what is on the screen too."""
        self._language = language
        self.keys_bar.update()
        self.too_small.update()
        self._redraw()
        self.entry.repaint()

    # -- pages --------------------------------------------------------------------------------

    def page_key(self, key: str) -> bool:
        """A key the entry line has no use for: open a page, move in it, leave."""
        page = self.page
        if key in KEYS:
            self.go(Go(KEYS[key]))
        elif key == "escape":
            self._back()
        elif key == "ctrl+q":
            self.clerk.leave()
        elif key == "ctrl+l":
            self.speak("en" if self.words.language == "es" else "es")
        elif key in ("ctrl+c", "ctrl+z"):  # neither break off nor put aside what others wait for
            self.clerk.notice(say("to leave the floor: Ctrl+Q, or type quit and Enter"))
        elif page is not None and page.key(key):
            return True
        elif key.startswith("f") and key[1:].isdecimal():
            self.clerk.notice(
                say("{key} does nothing here; F10 or ? shows the keys", key=key.upper())
            )
        else:
            return False
        return True

    def _back(self) -> None:
        """From a bench's chart to its card, from there to the list it was opened from.

        Where a page has something of its own to go back from, that is all.
        """
        if self.page and self.page.back():
            return
        if self.beginning.back():
            return
        page = self.place.page
        if self.desk.only is not None:
            self.go(Go("card", self.desk.only))
            return
        if page == "board":
            self.board.list_all()
        if page == "chart":
            self.go(Go("card", self.place.bench))
        else:
            self.go(Go(self._list if page in OF_A_BENCH else "board"))

    def go(self, where: Go) -> None:
        """Show a page. Where the line's numbers go changes at once, the picture follows."""
        refused = self.desk.refuses(where)
        if refused:
            self.clerk.notice(refused)
            return
        name = "board" if where.screen in ("only", "sort") else where.screen
        if name in OF_A_BENCH:
            bench = where.bench or self.place.bench or self._cursor()
            if bench is None:
                return
            toggled = name != "card" and where.bench is None and self.place.page == name
            self.place = At("card" if toggled else name, bench, where.words)
            self.board.cursor = bench
        else:
            self.place = At(name)
        if name in LISTS:
            self._list = name
            page = self._made(name)
            if isinstance(page, Roster):
                page.opened()
        if where.screen == "only":
            self.board.list_only(where.words)
        elif where.screen == "sort":
            self.board.sort_by(where.words)
        self.call_later(self._show)

    def open_selected(self) -> None:
        """Open the card of the bench under the list's cursor."""
        if self.place.page in LISTS and (bench := self._cursor()) is not None:
            self.go(Go("card", bench))

    def _cursor(self) -> str | None:
        """The bench under the cursor of the list shown, of the Board where none is."""
        page = self.page
        return page.cursor if isinstance(page, Roster) else self.board.cursor

    async def _show(self) -> None:
        """Bring the page of the place into sight."""
        name = self.place.page
        page = self._made(name)
        if not page.is_attached:
            page.display = False  # or both pages would be seen at once while it is mounted
            await self.screen.mount(page, before=self.entry)
        self._lay_out()
        page.put(page.lines, 0)
        self.keys_bar.update()
        self._redraw()
        self.entry.forget()

    def _made(self, name: str) -> Page:
        """The page of that name, made on first use."""
        page = self._pages.get(name)
        if page is None:
            page = self._pages[name] = page_of(name)
        return page

    def _lay_out(self) -> None:
        """One page in sight, or the sentence that there is no room for one."""
        for page in self._pages.values():
            page.display = page is self.page and not self._small
        self.too_small.display = self._small and self._rows > ROWS
        for bar in (self.title_bar, self.keys_bar):
            bar.display = self._rows >= TooSmall.WITH_BARS

    # -- what is new --------------------------------------------------------------------------

    def changed(self) -> None:
        """Something was entered: the page is made anew soon, once for a burst of entries."""
        if self._stale:
            return
        self._stale = True
        wait_s = self._redrawn_s + REDRAW_S - monotonic()
        if wait_s > 0:
            self.set_timer(wait_s, self._redraw)
        else:
            self.call_later(self._redraw)

    def _redraw(self) -> None:
        self._stale = False
        self._redrawn_s = monotonic()
        self._follow()
        page = self.page
        if page is not None and page.is_attached:
            page.update()
        self.title_bar.update()

    def _follow(self) -> frozenset[str] | None:
        """What is new at the desk; a desk that cannot look says so under the line."""
        try:
            return self.desk.follow()
        except UserError as trouble:
            if not self.clerk.draft.standing:  # what became of a line is not to be talked over
                self.clerk.notice(trouble.said)
            self.entry.repaint()
            return None

    def _poll(self) -> None:
        """Another terminal's entries, and the minute."""
        self._departure.look()
        if isinstance(self._driver, PatientDriver) and self._driver.caught_up():
            self.screen.refresh()
        minute = f"{self.desk.now():%H:%M}"
        news = self._follow()
        if news is None and minute == self._minute:
            return
        self._minute = minute
        self.keys_bar.update()
        self._redraw()
        if news is not None:
            self.entry.forget()
