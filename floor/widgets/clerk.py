"""What becomes of a line: recorded, asked about, kept because it was not saved, or refused.

The clerk knows the desk and the line, no screen and no keys, and does everything at once:
when a call returns, the entry is on the disk or the line is still here to be seen. What it says
is told in a language by whoever shows it.
"""

from __future__ import annotations

from collections import deque
from typing import Literal, NamedTuple, Protocol

from core.desk.faces import (
    AsksPin,
    DeskFace,
    Go,
    Meaning,
    Mistake,
    NotSaved,
    Outcome,
    Question,
    Recorded,
    Told,
)
from core.entry.words import LEAVE
from core.house.model import Language
from core.house.pin import LEAST_DIGITS, is_pin
from core.problems import UserError
from core.say import Said, say
from floor.looks.spans import Ink
from floor.widgets.draft import Draft

MARKER = "^"
"""Stands where an Escape ran into the next key, so that the line is refused aloud."""

AFTER_ESCAPE = dict(zip("¡™£¢∞§¶•ªº", "1234567890", strict=True))
"""What Textual makes of an Escape and a digit that came as one."""

MARKED = say(
    "an Esc ran into the key after it and left the {sign}: take it out, or Esc and type again"
)
MAY_BE_PIN = say(
    "expected a bench or a word, found digits that may be a PIN, which are not repeated or kept: "
    "type first what asks for it"
)
LEFT_HELD = say(
    "{n} held or unsaved: Enter on an empty line records, Esc drops; quit again leaves without"
)


class Held(NamedTuple):
    """A line put aside: a far-off weight, a closing, one that asks for the house's PIN, or one
    the disk would not take. `closes`: it is done by closing the day, not by entering the line.
    `typed` is the line as it was typed, where `line` is another that does the same.
    """

    line: str
    at: str | None
    says: str
    why: Literal["far off", "unsaved", "close", "pin"]
    sure: bool = False
    closes: bool = False
    typed: str = ""

    @property
    def shown(self) -> str:
        """The line as who typed it knows it."""
        return (self.typed or self.line).strip()


class Notice(NamedTuple):
    """What the clerk said last."""

    text: str
    ink: Ink = "plain"


class Place(Protocol):
    """Where the clerk stands: the bench whose card is shown, what is spoken, the ways out."""

    @property
    def at(self) -> str | None: ...
    @property
    def language(self) -> Language: ...
    def go(self, where: Go) -> None: ...
    def open_selected(self) -> None: ...
    def leave(self) -> None: ...


class Beginner(Protocol):
    """What takes the lines before there is a house; None from it where that is not so."""

    def enter(self, line: str) -> Outcome | None: ...
    def meaning(self, line: str) -> Meaning | None: ...


class Clerk:
    """The line and what it does. `said`, `held`, `unread` and `offered` are there to be shown.

    `offered` are the words that Tab has shown, until the line changes.
    """

    def __init__(self, desk: DeskFace, place: Place, beginner: Beginner | None = None) -> None:
        self.draft = Draft()
        self.said = Notice("")
        self.held: deque[Held] = deque()
        self.unread: list[str] = []
        self.offered: tuple[str, ...] = ()
        self._desk = desk
        self._place = place
        self._beginner = beginner
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
        self._hush()
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
        """Finish the word as far as only one way is open; name the ways where there are more.

        Where the word goes on to nothing, those that may stand in the place of what is wrong.
        """
        line = self.draft.text
        found = self._completed(line)
        common = _common(found) if found else ""
        if len(common) > len(line) or len(found) == 1:
            self.draft.replace(common)
            return
        if not found:
            wrong_at = self.draft.wrong_at if self.draft.standing else self.meaning().at
            found = self._completed(line[:wrong_at]) if wrong_at else ()
        self.offered = tuple(text.split()[-1] for text in found if text.split())

    def _completed(self, line: str) -> tuple[str, ...]:
        return self._desk.complete(line, self._place.at, self._place.language)

    def meaning(self) -> Meaning:
        """What Enter would do with the line as it stands."""
        line = self.draft.text
        found = self._meaning(line)
        if found.ok:
            return found
        return found._replace(says=self._why_not(line, found.says, found.at))

    def _why_not(self, line: str, says: str, at: int | None) -> str:
        """Why the line is refused: what a key did to it before what is wrong with the rest."""
        if self._looks_like_pin(line):
            return MAY_BE_PIN
        word = "" if at is None else line[at:].partition(" ")[0]
        sign = next((sign for sign in word if sign in AFTER_ESCAPE), None)
        return says if sign is None else MARKED.format(sign=sign)

    def _looks_like_pin(self, line: str) -> bool:
        house = self._desk.house
        return house is not None and house.house.pin is not None and is_pin(line.strip())

    def _hush(self) -> None:
        """Leave nothing of a line that is or may be the PIN."""
        line = self.draft.text
        if self.secret or (self._looks_like_pin(line) and not self._meaning(line).ok):
            self.draft.replace("")

    def _meaning(self, line: str) -> Meaning:
        if MARKER in line:
            return Meaning(MARKED.format(sign=MARKER), ok=False, at=line.index(MARKER))
        if line.strip().lower() in LEAVE.values():
            return Meaning(say("leave the floor"), ok=True)
        try:
            begun = self._beginner.meaning(line) if self._beginner else None
            return begun or self._desk.meaning(line, self._place.at)
        except UserError as trouble:
            return Meaning(trouble.said, ok=False)

    @property
    def secret(self) -> bool:
        """Whether what is typed may be the PIN that is asked for: it is not to be read."""
        text, asked = self.draft.text, bool(self.held) and self.held[0].why == "pin"
        return asked and not self.draft.standing and text.isascii() and text.isdecimal()

    def notice(self, text: str) -> None:
        """Put a sentence under the line."""
        self.said = Notice(text)

    def ask(self) -> str:
        """The oldest line put aside, and what Enter and Escape would do with it.

        The newest would be the more natural one to ask about, but a scale could then put
        another question in its place just as somebody answers it.

        From here on it counts as seen: an Enter that a scale sent along with the line itself
        is no answer to a question that nobody can have read.
        """
        self._asked = self.held[0]
        return self.question()

    def question(self) -> str:
        """What `ask` asks, for finding room for it: by this nobody has seen it."""
        held = self.held[0]
        if len(self.held) > 1:
            return say("1 of {n}: {question}", n=len(self.held), question=_question(held))
        return _question(held)

    # -- Enter and Escape -------------------------------------------------------------------

    def enter(self) -> None:
        """Do what the line says; on an empty one, answer what waits for an answer."""
        if self.secret and len(self.draft.text) >= LEAST_DIGITS:
            self._try_pin()
        elif self.draft.text.strip():
            self._commit(self.draft.text)
        else:
            self._blank()

    def _commit(self, line: str) -> None:
        if line.strip().lower() in LEAVE.values():
            self.draft.take()
            self.leave()
            return
        at = self._place.at
        if MARKER in line:
            outcome: Outcome = Mistake(MARKED.format(sign=MARKER), line.index(MARKER))
        else:
            if self._begins(line):
                return
            outcome = self._desk.enter(line, at)
        self._settle(line, at, outcome)

    def _begins(self, line: str) -> bool:
        """Whether the line was for who makes the first house, and was done there."""
        outcome = self._beginner.enter(line) if self._beginner else None
        if outcome is None:
            return False
        if isinstance(outcome, Mistake):
            self.said = Notice(outcome.says, "wrong")
            if line:
                self.draft.stand(outcome.at)
        else:
            self.unread.clear()
            self.draft.take()
            self.said = Notice("" if isinstance(outcome, Go) else outcome.says, "strong")
        return True

    def _settle(self, line: str, at: str | None, outcome: Outcome) -> None:
        self._warned = False
        self._unsaved = None
        if isinstance(outcome, Mistake):
            why = self._why_not(line, outcome.says, outcome.at)
            self.said = _not_recorded(why)
            if why == MAY_BE_PIN:
                self.draft.replace("")
            else:
                self.draft.stand(outcome.at)
            return
        if isinstance(outcome, NotSaved):
            self.said = _not_saved(outcome)
            self._unsaved = Held(outcome.line, at, outcome.says, "unsaved")
            self.draft.stand(None)
            return
        self.draft.take()
        if isinstance(outcome, AsksPin):
            self.held.appendleft(Held(outcome.line, at, outcome.says, "pin", typed=line))
            self.said = Notice("")
        elif isinstance(outcome, Question):
            self._put_aside(Held(outcome.line, at, outcome.says, "far off", typed=line))
        elif isinstance(outcome, Go) and outcome.screen == "close":
            self._put_aside(Held(line, None, self._closing(), "close", closes=True))
        elif isinstance(outcome, Go):
            self._place.go(outcome)
            self.said = Notice("")
        else:
            self._tell(outcome)

    def _put_aside(self, held: Held) -> None:
        """Ask about it, after what is held already."""
        self.said = Notice("")
        if self.held:
            self.said = Notice(say("asked after what is held: {line}", line=held.shown))
        self.held.append(held)

    def _tell(self, outcome: Recorded | Told) -> None:
        """Say what was done, on the page that shows it."""
        if isinstance(outcome, Recorded) and outcome.shown_on:
            self._place.go(Go(outcome.shown_on))
        self.said = _said(outcome)

    def _closing(self) -> str:
        """What to know before the day is closed."""
        try:
            return self._desk.closing()
        except UserError as trouble:
            return trouble.said

    def _blank(self) -> None:
        self.draft.replace("")
        at = self._place.at
        if self.held:
            first = self.held[0]
            if first.why == "unsaved" or (first is self._asked and first.why != "pin"):
                self._answer()
        elif self._begins(""):
            return
        elif at is None:
            self._place.open_selected()
        elif self._desk.open_check(at) is not None:
            self._settle("", at, self._desk.enter("", at))

    def _answer(self) -> None:
        """Record the oldest line put aside; lines that were not saved follow while they save."""
        unsaved = self.held[0].why == "unsaved"
        while self._redo() and unsaved and self.held and self.held[0].why == "unsaved":
            pass

    def _try_pin(self) -> None:
        """Do the line that asks for the PIN with the digits typed, of which nothing is kept."""
        pin = self.draft.text
        self.draft.replace("")
        self._redo(pin)

    def _redo(self, pin: str | None = None) -> bool:
        """Try the oldest line put aside once more; False where it must wait on."""
        held = self.held.popleft()
        if held.closes:
            outcome = self._desk.close_day(pin)
        else:
            sure = held.sure or held.why == "far off"
            outcome = self._desk.enter(held.line, held.at, sure, pin)
        if isinstance(outcome, AsksPin):
            self.held.appendleft(_again(held, outcome))
            self.said = Notice(outcome.wrong, "wrong")
            return False
        if isinstance(outcome, NotSaved | Question):
            self.held.appendleft(_again(held, outcome))
            self.said = _not_saved(outcome)
            return False
        if isinstance(outcome, Mistake):
            self.unread.append(held.shown)
            self.said = _not_recorded(outcome.says)
        elif isinstance(outcome, Go):
            self._place.go(outcome)
        else:
            self._tell(outcome)
        return True

    def escape(self) -> bool:
        """Clear the line, else drop the oldest line put aside, else clear those not read.

        False where there was none of it.
        """
        if self.secret:
            self.draft.replace("")
        if self.draft.text:
            self.clear()
            self.said = Notice("")
        elif self.held:
            self.said = Notice(say("dropped: {line}", line=self.held.popleft().shown))
        elif self.unread:
            self.unread.clear()
            self.said = Notice(say("the lines not read are cleared"))
        else:
            return False
        return True

    def clear(self) -> None:
        """Clear the line, and why it was refused; what is put aside stays."""
        self._hush()
        kept = self._keep_unsaved()
        if self.draft.standing and not kept:
            self.said = Notice("")
        self.draft.take()

    def leave(self) -> None:
        """Leave the floor; with lines put aside, only when asked twice."""
        waiting = len(self.held) + (self._unsaved is not None)
        if waiting and not self._warned:
            self._warned = True
            self.said = Notice(LEFT_HELD.format(n=waiting), "wrong")
        else:
            self._place.leave()


def _question(held: Held) -> Said:
    """What Enter and Escape would do with the line put aside."""
    if held.why == "pin":
        return say("PIN {needed}? Its digits and Enter, Esc drops it", needed=held.says)
    if held.why == "close":
        return say("close the day? Enter yes, Esc no: {why}", why=held.says)
    if held.why == "unsaved":
        return say(
            "not saved yet: Enter tries again, Esc drops it: {line}: {why}",
            line=held.shown,
            why=held.says,
        )
    return say("held: Enter records, Esc drops: {why}", why=held.says)


def _again(held: Held, outcome: NotSaved | Question | AsksPin) -> Held:
    sure, typed = held.sure or held.why == "far off", held.shown
    if isinstance(outcome, AsksPin):
        return Held(held.line, held.at, outcome.says, "pin", sure, held.closes, typed)
    if isinstance(outcome, Question):
        return Held(outcome.line, held.at, outcome.says, "far off", typed=typed)
    why: Literal["unsaved", "close"] = "close" if held.closes else "unsaved"
    return Held(held.line, held.at, outcome.says, why, sure, held.closes, typed)


def _not_recorded(why: str) -> Notice:
    return Notice(say("not recorded: {why}", why=why), "wrong")


def _not_saved(outcome: NotSaved | Question) -> Notice:
    return Notice(say("NOT SAVED, the line is kept: {why}", why=outcome.says), "wrong")


def _said(outcome: Recorded | Told) -> Notice:
    if isinstance(outcome, Told):
        return Notice(outcome.says, "strong")
    verdict = outcome.verdict
    if verdict is None or verdict.state != "out":
        return Notice(outcome.says, "strong")
    return Notice(outcome.says, "mixed" if verdict.mean_place == "within" else verdict.mean_place)


def _common(lines: tuple[str, ...]) -> str:
    """What all the lines begin with."""
    low, high = min(lines), max(lines)
    size = next((i for i, c in enumerate(low) if i >= len(high) or c != high[i]), len(low))
    return low[:size]
