"""What becomes of a line: recorded, asked about, kept because it was not saved, or refused.

The clerk knows the desk and the line, no screen and no keys, and does everything at once:
when a call returns, the entry is on the disk or the line is still here to be seen.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from typing import Literal, NamedTuple, Protocol

from core.desk.faces import (
    DeskFace,
    Go,
    Meaning,
    Mistake,
    NotSaved,
    Outcome,
    Question,
    Recorded,
)
from core.entry.complete import complete
from core.problems import UserError
from floor.looks.spans import Ink
from floor.looks.words import Words
from floor.widgets.draft import Draft

MARKER = "^"
"""Stands where an Escape ran into the next key, so that the line is refused aloud."""

LEAVE = frozenset({"quit", "salir"})


class Held(NamedTuple):
    """A line put aside: a far-off weight, a closing, or one the disk would not take."""

    line: str
    at: str | None
    says: str
    why: Literal["far off", "unsaved", "close"]
    sure: bool = False


class Said(NamedTuple):
    """What the clerk said last."""

    text: str
    ink: Ink = "plain"


class Place(Protocol):
    """Where the clerk stands: the bench whose card is shown, and the ways out of it."""

    @property
    def at(self) -> str | None: ...
    def go(self, where: Go) -> None: ...
    def open_selected(self) -> None: ...
    def leave(self) -> None: ...


class Clerk:
    """The line and what it does. `said`, `held` and `unread` are there to be shown."""

    def __init__(self, desk: DeskFace, place: Place, words: Callable[[], Words]) -> None:
        self.draft = Draft()
        self.said = Said("")
        self.held: deque[Held] = deque()
        self.unread: list[str] = []
        self._desk = desk
        self._place = place
        self._words = words
        self._unsaved: Held | None = None
        self._asked: Held | None = None
        self._warned = False

    # -- typing -----------------------------------------------------------------------------

    def type(self, text: str) -> None:
        """Put printable text at the caret; a line that stands refused makes room for it."""
        if self.draft.standing:
            self._set_aside()
        self.draft.insert(text)

    def earlier(self) -> None:
        """Bring back an earlier line, which is also where the refused ones are."""
        if self.draft.standing:
            self._keep_unsaved()
            self.draft.take()
        self.unread.clear()
        self.draft.earlier()

    def _set_aside(self) -> None:
        kept = self._keep_unsaved()
        line = self.draft.take()
        if not kept:
            self.unread.append(line.strip())

    def _keep_unsaved(self) -> bool:
        """Put a line the disk would not take among those held, so that nothing typed loses it."""
        if self._unsaved is None:
            return False
        self.held.append(self._unsaved)
        self._unsaved = None
        return True

    def complete(self) -> None:
        """Finish the word as far as only one way is open; name the ways where there are more."""
        house = self._desk.house
        if house is None:
            return
        line = self.draft.text
        found = complete(line, house, self._place.at)
        if not found:
            return
        common = _common(found)
        if len(common) > len(line) or len(found) == 1:
            self.draft.replace(common)
        else:
            self.said = Said("  ".join(text.split()[-1] for text in found if text.split()))

    def meaning(self) -> Meaning:
        """What Enter would do with the line as it stands."""
        words, line = self._words(), self.draft.text
        if MARKER in line:
            return Meaning(words.marked, ok=False, at=line.index(MARKER))
        if line.strip().lower() in LEAVE:
            return Meaning(words.would_leave, ok=True)
        try:
            return self._desk.meaning(line, self._place.at)
        except UserError as trouble:
            return Meaning(str(trouble), ok=False)

    def say(self, text: str) -> None:
        """Put a sentence under the line."""
        self.said = Said(text)

    def ask(self) -> str:
        """The oldest line put aside, and what Enter and Escape would do with it.

        From here on it counts as seen: an Enter that a scale sent along with the line itself
        is no answer to a question that nobody can have read.
        """
        held, words = self.held[0], self._words()
        self._asked = held
        if held.why == "close":
            return words.ask_close.format(why=held.says)
        question = words.ask_unsaved if held.why == "unsaved" else words.ask_far_off
        return question.format(line=held.line.strip(), why=held.says)

    # -- Enter and Escape -------------------------------------------------------------------

    def enter(self) -> None:
        """Do what the line says; on an empty one, answer what waits for an answer."""
        if self.draft.text.strip():
            self._commit(self.draft.text)
        else:
            self._blank()

    def _commit(self, line: str) -> None:
        if line.strip().lower() in LEAVE:
            self.draft.take()
            self.leave()
            return
        at = self._place.at
        if MARKER in line:
            outcome: Outcome = Mistake(self._words().marked, line.index(MARKER))
        else:
            outcome = self._desk.enter(line, at)
        self._settle(line, at, outcome)

    def _settle(self, line: str, at: str | None, outcome: Outcome) -> None:
        words = self._words()
        self._warned = False
        self._unsaved = None
        if isinstance(outcome, Mistake):
            self.said = Said(words.not_recorded.format(why=outcome.says), "wrong")
            self.draft.stand(outcome.at)
            return
        if isinstance(outcome, NotSaved):
            self.said = Said(words.not_saved.format(why=outcome.says), "wrong")
            self._unsaved = Held(outcome.line, at, outcome.says, "unsaved")
            self.draft.stand(None)
            return
        self.draft.take()
        if isinstance(outcome, Question):
            self.held.append(Held(outcome.line, at, outcome.says, "far off"))
            self.said = Said("")
        elif isinstance(outcome, Go):
            self._go(outcome)
        else:
            self.said = _said(outcome)

    def _go(self, outcome: Go) -> None:
        if outcome.screen == "close":
            self.held.append(Held("close", None, self._closing(), "close"))
        else:
            self._place.go(outcome)
        self.said = Said("")

    def _closing(self) -> str:
        """What to know before the day is closed."""
        try:
            return self._desk.closing()
        except UserError as trouble:
            return str(trouble)

    def _blank(self) -> None:
        self.draft.replace("")
        at = self._place.at
        if self.held:
            if self.held[0].why == "unsaved" or self.held[0] is self._asked:
                self._answer()
        elif at is None:
            self._place.open_selected()
        elif self._desk.open_check(at) is not None:
            self._settle("", at, self._desk.enter("", at))

    def _answer(self) -> None:
        """Record the oldest line put aside; lines that were not saved follow while they save."""
        unsaved = self.held[0].why == "unsaved"
        while self._redo() and unsaved and self.held and self.held[0].why == "unsaved":
            pass

    def _redo(self) -> bool:
        """Try the oldest line put aside once more; False where it must wait on."""
        held = self.held.popleft()
        if held.why == "close":
            outcome = self._desk.close_day()
        else:
            outcome = self._desk.enter(held.line, held.at, held.sure or held.why == "far off")
        if isinstance(outcome, NotSaved | Question):
            self.held.appendleft(_again(held, outcome))
            self.said = Said(self._words().not_saved.format(why=outcome.says), "wrong")
            return False
        if isinstance(outcome, Mistake):
            self.unread.append(held.line.strip())
            self.said = Said(self._words().not_recorded.format(why=outcome.says), "wrong")
        elif isinstance(outcome, Go):
            self._place.go(outcome)
        else:
            self.said = _said(outcome)
        return True

    def escape(self) -> bool:
        """Clear the line, or drop the oldest line put aside; False where there was neither."""
        words = self._words()
        self.unread.clear()
        if self.draft.text:
            self.clear()
            self.said = Said("")
        elif self.held:
            self.said = Said(words.dropped.format(line=self.held.popleft().line.strip()))
        else:
            return False
        return True

    def clear(self) -> None:
        """Clear the line alone: what is put aside stays."""
        self._keep_unsaved()
        self.draft.take()

    def leave(self) -> None:
        """Leave the floor; with lines put aside, only when asked twice."""
        waiting = len(self.held) + (self._unsaved is not None)
        if waiting and not self._warned:
            self._warned = True
            self.said = Said(self._words().leave_held.format(n=waiting), "wrong")
        else:
            self._place.leave()


def _again(held: Held, outcome: NotSaved | Question) -> Held:
    if isinstance(outcome, Question):
        return Held(outcome.line, held.at, outcome.says, "far off")
    why: Literal["unsaved", "close"] = "close" if held.why == "close" else "unsaved"
    sure = held.sure or held.why == "far off"
    return Held(held.line, held.at, outcome.says, why, sure)


def _said(outcome: Recorded) -> Said:
    verdict = outcome.verdict
    if verdict is None or verdict.state != "out":
        return Said(outcome.says, "strong")
    return Said(outcome.says, "mixed" if verdict.mean_place == "within" else verdict.mean_place)


def _common(lines: tuple[str, ...]) -> str:
    """What all the lines begin with."""
    low, high = min(lines), max(lines)
    size = next((i for i, c in enumerate(low) if i >= len(high) or c != high[i]), len(low))
    return low[:size]
