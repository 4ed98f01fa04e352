"""The end of a day: what to know before it, its summary, and opening it again."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from core.day.room import ALREADY_CLOSED, CLOSED, Stamp
from core.desk.faces import Mistake, NotSaved, Outcome, Question, Recorded
from core.desk.permission import CLOSES, REOPENS
from core.desk.recorder import Recorder
from core.desk.today import NO_HOUSE
from core.problems import BadInput, StoreUnusable
from core.say import joined, say

if TYPE_CHECKING:
    from core.day.entries import Entry


class Ending(Recorder):
    """A terminal that can close the day, and open it again."""

    def closing(self) -> str:
        """What to know before the day is closed: what is late, open, short or beyond."""
        from core.desk.closing import closing_words  # noqa: PLC0415 - a day closes once

        stock = self.stock().leaves
        return closing_words(self.board(), self.report(closing=True), stock, self.now())

    def close_day(self, pin: str | None = None) -> Outcome:
        """Close the day and keep its summary; its book takes no more entries.

        A day that is closed, and whose summary was lost on the way, gets it now.
        """
        outcome = self._permitted("close", pin, lambda may: self._end("close", "", may=may))
        if isinstance(outcome, Recorded):
            return self._summed_up(outcome)
        if isinstance(outcome, Mistake) and self.house is not None and self.closed:
            refused = Mistake(ALREADY_CLOSED) if outcome.says == CLOSED else outcome
            return self._made_up_for(refused)
        return outcome

    def reopen(self, reason: str, pin: str | None = None) -> Outcome:
        """Open a closed day again."""
        line = f"reopen {reason}"
        return self._permitted(line, pin, lambda may: self._end("reopen", reason, may=may))

    def _end(self, kind: str, reason: str, *, may: bool) -> Outcome:
        if self.house is None:
            return Mistake(NO_HOUSE)
        if self._only is not None:
            return Mistake(self._only.says)

        from core.day.compose import end_of_day  # noqa: PLC0415 - a day ends once

        def make(number: int, stamp: Stamp) -> Entry:
            entry = end_of_day(kind, reason, self._room(), stamp, number)
            if kind == "close":
                self._must_have_begun()
            self._must_be_permitted(CLOSES if kind == "close" else REOPENS, may=may)
            if kind == "reopen":
                from core.day.summing import opened  # noqa: PLC0415
                from core.desk import summaries  # noqa: PLC0415

                # First, so that figures which may change are never shown as the last word.
                end = summaries.book_end(self.folder, self.day)
                day = self.day.isoformat()
                summaries.keep(
                    self.folder, self.day, opened(day, reason, stamp.at, self.ledger, end)
                )
            return entry

        line = f"{kind} {reason}".rstrip()
        outcome = self._record(line, make, reopens=kind == "reopen")
        if isinstance(outcome, Question):  # the earlier one may have been undone by its opposite
            return self._record(line, make, reopens=kind == "reopen")
        return outcome

    def _must_have_begun(self) -> None:
        """Refuse a day without entries or to come: closing must not begin a day."""
        today = self.day_of(self.now())
        if self.day > today:
            raise BadInput(say("{day} has not begun; today is {today}", day=self.day, today=today))
        if not self.ledger.entries and not self.damaged:
            raise BadInput(
                say("nothing was recorded on {day}: there is nothing to close", day=self.day)
            )

    def _summed_up(self, closed: Recorded) -> Outcome:
        """Keep the closed day's summary; the day is closed and says so even where it cannot."""
        try:
            self._keep_summary()
        except StoreUnusable as problem:
            lost = say(
                "the day is closed, by entry {entry}; its summary could not be kept",
                entry=closed.entry,
            )
            return NotSaved(
                "close", say("{lost}: {problem}; close it again", lost=lost, problem=problem.said)
            )
        with contextlib.suppress(StoreUnusable):
            self.folder.day(self.day).give_back_room()
        return self._next_told(closed)

    def _next_told(self, closed: Recorded) -> Recorded:
        """With what the next day began with that a late correction has made wrong."""
        from core.desk.next_day import next_day_words  # noqa: PLC0415 - a day closes once

        try:
            says = next_day_words(
                self.folder, self.day, self.ledger, self.shelf, self.house_version
            )
        except StoreUnusable as problem:
            says = say("the next day could not be compared: {problem}", problem=problem.said)
        return closed._replace(says=joined("; ", (closed.says, says))) if says else closed

    def _made_up_for(self, refused: Mistake) -> Outcome:
        """Keep the summary that a closed day lacks, as when a terminal died before it did."""
        from core.desk import summaries  # noqa: PLC0415

        try:
            if summaries.is_kept(self.folder, self.day) or not self._keep_summary():
                return refused
        except StoreUnusable as problem:
            return NotSaved("close", problem.said)
        from core.day.summing import last_close  # noqa: PLC0415

        entry = last_close(self.ledger)["id"]
        says = say(
            "the day was closed already, by entry {entry}; its summary, which was missing or not "
            "up to date, is kept now",
            entry=entry,
        )
        return self._next_told(Recorded(entry, None, says, "close"))

    def _keep_summary(self) -> bool:
        """Sum the closed day up by the house book it was closed under, and keep it."""
        from core.day.summing import last_close, summary  # noqa: PLC0415
        from core.desk import summaries  # noqa: PLC0415

        end = summaries.book_end(self.folder, self.day)
        version = last_close(self.ledger)["house"]
        added = self._added_up(self.shelf[version], version, closed=True)
        summed = summary(added, self.ledger, version=version, book=end)
        kept = summaries.keep(self.folder, self.day, summed)
        with contextlib.suppress(StoreUnusable):  # the days themselves tell all that months do
            summaries.keep_months(self.folder, self.day)
        return kept
