"""The first run on this floor: its lines and keys, as long as no house book is in force."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.desk.faces import Go, Meaning, Mistake, Outcome
from core.entry.words import FORMS
from core.say import say

if TYPE_CHECKING:
    from core.desk.start.first import FirstHouse
    from floor.app import FloorApp

PAGE_ROWS = 10
BACK_FIRST = say("this is the question: Enter again answers it, Esc takes the line back")
STEPS = {"up": -1, "down": 1, "pageup": -PAGE_ROWS, "pagedown": PAGE_ROWS}


def _asks_help(line: str) -> bool:
    """Whether the line is one of Help's words, which is no answer to any question."""
    form = next(form for form in FORMS if form.means == "help")
    return line.strip().casefold() in (*form.en, *form.es)


class Beginning:
    """What the Board shows and the entry line is for, until there is a house.

    `row` is the problem under the cursor, or the first of the answers in sight.
    """

    def __init__(self, floor: FloorApp, *, names_files: bool) -> None:
        self._floor = floor
        self._names_files = names_files
        self._first: FirstHouse | None = None
        self.row = 0

    @property
    def first(self) -> FirstHouse | None:
        """The first run; None where there is a house, or damage may have taken it.

        A terminal for one bench alone waits for others to make the house.
        """
        desk = self._floor.desk
        if desk.house is not None or desk.damaged or desk.only is not None:
            return None
        if self._first is None:
            from core.desk.start.first import FirstHouse  # noqa: PLC0415 - asked for once a house

            self._first = FirstHouse(
                desk.data_folder,
                desk.now,
                self._floor.words.language,
                names_files=self._names_files,
            )
        return self._first

    @property
    def in_sight(self) -> FirstHouse | None:
        """The first run where its page is the one shown."""
        return self.first if self._floor.place.page == "board" else None

    def enter(self, line: str) -> Outcome | None:
        """What came of the line; None where it is not for the first run."""
        first = self.in_sight
        if first is None:
            return self._back_first(line)
        if _asks_help(line):
            return Go("help")
        before, self.row = (first.stage, first.language), 0
        outcome = first.enter(line)
        self._followed(first, before)
        return outcome

    def _back_first(self, line: str) -> Outcome | None:
        """An answer typed at another page waits: nobody can have read the question there."""
        if self.first is None or _asks_help(line):
            return None
        self._floor.go(Go("board"))
        return Mistake(BACK_FIRST)

    def meaning(self, line: str) -> Meaning | None:
        """What Enter would do; None where the line is not for the first run."""
        first = self.in_sight
        if first is None:
            return None if self.first is None else Meaning(say("back to the question"), ok=True)
        return Meaning(say("show help"), ok=True) if _asks_help(line) else first.would(line)

    def back(self) -> bool:
        """Go back one question; False where there is none to go back to."""
        first = self.in_sight
        if first is None:
            return False
        before, self.row = (first.stage, first.language), 0
        if not first.back():
            return False
        self._followed(first, before)
        self._floor.changed()
        return True

    def key(self, key: str) -> bool:
        """Move in the list of problems or answers; False for any other key."""
        first = self.first
        if first is None or key not in (*STEPS, "home", "end"):
            return False
        last = max(0, len(first.problems if first.stage == "mend" else first.answers) - 1)
        row = {"home": 0, "end": last}.get(key, self.row + STEPS.get(key, 0))
        self.row = min(last, max(0, row))
        return True

    def _followed(self, first: FirstHouse, before: tuple[str, str]) -> None:
        """Speak the language that was answered; show the Board of the house that was made."""
        if first.language != before[1]:
            self._floor.speak(first.language)
        if first.stage == "done" and before[0] != "done":
            self._floor.go(Go("board"))
