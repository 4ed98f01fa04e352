"""The entry line: the one widget that takes every key and paste, in the order they came.

A scale types a reading and Enter faster than a screen is drawn. So nothing here waits for
the screen: Enter is one of the keys, and what it does is done before the next key is looked
at. What the line means is worked out when the line is drawn, so at most once a picture.
"""

from __future__ import annotations

import asyncio
import re
from collections.abc import Callable
from typing import NamedTuple

from rich.cells import cell_len
from textual import events
from textual.geometry import Region

from core.desk.faces import Meaning
from floor.looks.spans import Ink, Line, Span, shorten, width_of
from floor.widgets.clerk import AFTER_ESCAPE, MARKER, Clerk
from floor.widgets.messages import Messages, Tongue
from floor.widgets.rows_given import UNDER
from floor.widgets.sheet import Sheet

HIDDEN = "•"
"""Stands for a digit that may be of the PIN."""
HIDDEN_ENDS, HIDDEN_ENDS_ASCII = ("‹", "›"), ("<", ">")
"""At the ends of a line that goes on beyond what is seen of it."""
ROWS = 1 + UNDER
"""What the line takes with the rows under it, for its meaning, what was said last, and what waits;
more while a message needs them.
"""
BARS = 2
"""Rows of the title and the keys."""
TURNS = {"pageup": -1, "pagedown": 1}

LINE_END = re.compile(r"\r\n|\r|\n")

Keys = Callable[[str], bool]
"""What the screen does with a key that the line has no use for; False where nothing."""


class _Preview(NamedTuple):
    line: str
    at: str | None
    meaning: Meaning


class EntryLine(Sheet):
    """The line, and under it what Enter would do, what was said, what waits."""

    DEFAULT_CSS = """
    EntryLine { height: 3; background: $surface; color: $foreground; }
    EntryLine:ansi { background: ansi_default; color: ansi_default; }
    """

    def __init__(self, clerk: Clerk, screen_keys: Keys, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.clerk = clerk
        self._screen_keys = screen_keys
        self._after_enter = False
        self._preview: _Preview | None = None
        self._messages = Messages(clerk, self._meaning)

    # -- keys -------------------------------------------------------------------------------

    async def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        ended, self._after_enter = self._after_enter, False
        if event.key in TURNS and self._turned(TURNS[event.key]):
            return
        self.clerk.offered = ()
        if event.key == "ctrl+j" and ended:
            return
        if event.key in ("enter", "ctrl+j"):
            self._after_enter = event.key == "enter"
            await self._enter()
        elif not self._edited(event):
            self._screen_keys(event.key)
        self.repaint()

    async def on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()
        self._after_enter = False
        self.clerk.offered = ()
        *whole, rest = LINE_END.split(event.text)
        for text in whole:
            self._type(text)
            draft = self.clerk.draft
            if draft.text.strip() and not draft.standing:
                await self._enter()
        self._type(rest)
        self.repaint()

    async def _enter(self) -> None:
        """Do the line; then let the screen have its turn, the next key waits in the queue."""
        self.clerk.enter()
        self._preview = None
        self.floor.changed()
        await asyncio.sleep(0)

    def _type(self, text: str) -> None:
        printable = "".join(c if c.isprintable() else MARKER if c == "\x1b" else " " for c in text)
        if printable:
            self.clerk.type(printable)

    def _edited(self, event: events.Key) -> bool:
        """Whether the key was one for the line itself."""
        clerk = self.clerk
        typed = _signs(event, clerk.draft.text)
        if typed == "?" and not clerk.draft.text:
            return self._screen_keys("?")
        if typed:
            clerk.type(typed)
            return True
        moves = event.key in ("up", "down", "home", "end")
        if moves and not clerk.draft.text and self._screen_keys(event.key):
            return True
        return self._moved(event.key)

    def _moved(self, key: str) -> bool:
        clerk, draft = self.clerk, self.clerk.draft
        acts: dict[str, Callable[[], object]] = {
            "backspace": draft.backspace,
            "delete": draft.delete,
            "left": lambda: draft.move_to(draft.caret - 1),
            "right": lambda: draft.move_to(draft.caret + 1),
            "home": lambda: draft.move_to(0),
            "end": lambda: draft.move_to(len(draft.text)),
            "up": clerk.earlier,
            "down": draft.later,
            "tab": clerk.complete,
            "ctrl+u": clerk.clear,
        }
        if key == "escape":
            return clerk.escape()
        if key not in acts:
            return False
        acts[key]()
        return True

    # -- the picture ------------------------------------------------------------------------

    def forget(self) -> None:
        """Ask anew what the line means: entries made elsewhere may have changed it."""
        self._preview = None
        self.repaint()

    def allow(self, rows: int) -> None:
        """Go by a screen of so many rows."""
        self._messages.allow(rows - 1 - BARS)
        self.repaint()

    def on_resize(self, _event: events.Resize) -> None:
        self.repaint()

    def repaint(self) -> None:
        """Draw the line and what stands under it again, in as many rows as that needs."""
        if not self.is_attached or not self.size.width:
            return
        rows = 1 + self._messages.give(self._tongue())
        self.styles.height = rows
        self.refresh(Region(0, 0, self.size.width, max(rows, self.size.height)))

    def _at(self, y: int) -> Line:
        return self._typed() if y == 0 else self._under(y - 1)

    def _typed(self) -> Line:
        draft, words = self.clerk.draft, self.floor.words
        at, width = self.floor.at, self.size.width
        prompt = f" {words.bench} {at} ▸ " if at is not None else " ▸ "
        waits = self._waits(width // 2)
        room = max(1, width - cell_len(prompt) - width_of(waits) - 1)
        text = (HIDDEN * len(draft.text) if self.clerk.secret else draft.text) + " "
        seen = _in_sight(len(draft.text), draft.caret, room)
        before, after = HIDDEN_ENDS_ASCII if self.floor.terminal.ascii else HIDDEN_ENDS
        wrong = _word_at(draft.text, self._wrong_at())
        parts = [Span(prompt, "title"), *([Span(before, "faint")] if seen.start else [])]
        for place, sign in enumerate(text[seen.start : seen.stop], start=seen.start):
            parts.append(Span(sign, _ink(place, draft.caret, wrong)))
        parts += [Span(after, "faint")] if seen.stop < len(draft.text) else []
        gap = width - width_of(tuple(parts)) - width_of(waits)
        return (*parts, Span(" " * gap), *waits)

    def _wrong_at(self) -> int | None:
        draft = self.clerk.draft
        if draft.standing or not draft.text:
            return draft.wrong_at
        meaning = self._meaning()
        return meaning.at if meaning and not meaning.ok else None

    def _waits(self, width: int) -> Line:
        """At the right of the line: lines not read, and how many are put aside."""
        clerk, words = self.clerk, self.floor.words
        parts: list[Span] = []
        held = words.held.format(n=len(clerk.held)) if clerk.held else ""
        if clerk.unread:
            more = f" +{len(clerk.unread) - 1}" if len(clerk.unread) > 1 else ""
            held = f" [{held}]" if held else ""
            room = width - len(held) - len(more) - len(words.unread) - 4
            last = shorten(clerk.unread[-1], max(8, room))
            parts.append(Span(f"{words.unread} {last}{more} ", "wrong"))
        if held:
            parts.append(Span(f"{held} ", "mixed"))
        return tuple(parts)

    # -- what stands under it ---------------------------------------------------------------

    def _under(self, y: int) -> Line:
        tongue = self._tongue()
        if y == 0 and self._messages.lacks(tongue):
            self.call_later(self.repaint)
        return self._messages.row(y, tongue)

    def _tongue(self) -> Tongue:
        floor = self.floor
        return Tongue(floor.words, floor.near, max(1, self.size.width - 2))

    def _turned(self, pages: int) -> bool:
        """Whether there was more of a long message to come to; else the page is turned."""
        turned = self._messages.turn(pages)
        if turned:
            self.repaint()
        return turned

    def _meaning(self) -> Meaning | None:
        """The line's meaning, asked of the desk once for each line; none for one that stands."""
        draft, at = self.clerk.draft, self.floor.at
        if draft.standing or self.clerk.secret or not draft.text.strip():
            return None
        kept = self._preview
        if kept is None or (kept.line, kept.at) != (draft.text, at):
            if self.message_queue_size > 0:
                self.call_later(self.repaint)
                return None
            self._preview = kept = _Preview(draft.text, at, self.clerk.meaning())
        return kept.meaning


def _signs(event: events.Key, line: str) -> str:
    """What the key puts on the line; an Escape that ran into it shows as the marker.

    A line with letters in it may be a note, where ¡ and º are meant as they are.
    """
    if event.key.startswith("alt+"):
        return MARKER + (event.character or event.key[-1])
    typed = event.character or ""
    if typed in AFTER_ESCAPE and not any(sign.isalpha() for sign in line):
        return MARKER + AFTER_ESCAPE[typed]
    return typed if typed.isprintable() else ""


def _in_sight(length: int, caret: int, room: int) -> range:
    """The columns seen of a line, a cell left for the mark at each end that is hidden."""
    if length + (caret == length) <= room:
        return range(length + (caret == length))
    if caret < room - 1:
        return range(room - 1)
    stop = caret + 1
    cells = max(1, room - 1 - (stop < length))
    return range(stop - cells, stop)


def _word_at(text: str, at: int | None) -> range:
    """The columns of the word that is wrong."""
    if at is None:
        return range(0)
    end = text.find(" ", at)
    return range(at, end if end > at else max(at + 1, len(text)))


def _ink(place: int, caret: int, wrong: range) -> Ink:
    if place == caret:
        return "cursor"
    return "wrong" if place in wrong else "strong"
