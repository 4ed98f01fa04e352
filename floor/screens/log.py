"""The Log: what was recorded today, by whom, newest first."""

from __future__ import annotations

from core.desk.faces import LogLine
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Ink, Line, Span, fit, wrap
from floor.looks.words import Words
from floor.widgets.page import Page

WHO_CELLS = 12
STAMP_CELLS = 13
"""The entry's number and its time."""


AT_FIRST = 200
"""Entries looked up when the Log is opened; more when it is paged to their end."""


class LogPage(Page):
    """The day's last entries."""

    def __init__(self) -> None:
        super().__init__()
        self._limit = AT_FIRST
        self._full = False
        self._owners: list[int] = []
        self._owners_before: list[int] = []

    def key(self, key: str) -> bool:
        """Turn the page; at the end of what was looked up, look up more."""
        turned = super().key(key)
        while turned and self._full and self._at_end():
            self._limit *= 2
            self.update()
            if key == "end":
                super().key(key)
        return turned

    def _at_end(self) -> bool:
        return self.top >= len(self.lines) - self.size.height

    def _looked_up(self) -> tuple[LogLine, ...]:
        """The last entries, as far back as before where somebody reads among them."""
        entries = self.floor.desk.log(self._limit)
        if self.top and entries and self._owners and entries[-1].id > self._owners[-1]:
            self._limit += entries[-1].id - self._owners[-1]
            entries = self.floor.desk.log(self._limit)
        return entries

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        if floor.desk.house is None:
            return no_house(floor.desk, floor.words, width)
        entries = [
            entry._replace(
                says=floor.words.tell(entry.says), void_reason=floor.words.tell(entry.void_reason)
            )
            for entry in self._looked_up()
        ]
        self._full = len(entries) == self._limit
        self._owners_before, self._owners = self._owners, []
        if not entries:
            return [BLANK, (Span(f"  {floor.words.no_entries}", "strong"),)]
        lines: list[Line] = []
        for entry in entries:
            rows = entry_lines(entry, width, floor.words)
            self._owners += [entry.id] * len(rows)
            lines += rows
        return lines

    def reading_from(self) -> int:
        """The entry at the top stays there: newer ones go in above it."""
        before, owners = self._owners_before, self._owners
        if not 0 < self.top < len(before) or before[self.top] not in owners:
            return self.top
        entry = before[self.top]
        return owners.index(entry) + self.top - before.index(entry)


def entry_lines(entry: LogLine, width: int, words: Words) -> list[Line]:
    """One line or more; a void entry is struck and says what voided it, and why.

    One made after the first close says so before its own words.
    """
    ink: Ink = "plain" if entry.voided_by is None else "struck"
    who = " ".join(part for part in (entry.terminal, entry.who) if part)
    room = width - STAMP_CELLS - WHO_CELLS - 2
    late = f"{words.after_close}: " if entry.late else ""
    texts = wrap(late + entry.says, room)
    stamp = f" {entry.id:>5}  {entry.at:%H:%M} "
    rows: list[Line] = [
        (Span(stamp), Span(fit(texts[0], room), ink), Span(" " + fit(who, WHO_CELLS), "faint"))
    ]
    margin = Span(" " * STAMP_CELLS)
    rows += [(margin, Span(text, ink)) for text in texts[1:]]
    if entry.voided_by is not None:
        void = words.void_by.format(by=entry.voided_by)
        reason = f": {entry.void_reason}" if entry.void_reason else ""
        rows += [(margin, Span(text, "strong")) for text in wrap(void + reason, room)]
    return rows
