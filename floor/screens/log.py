"""The Log: what was recorded today, by whom, newest first."""

from __future__ import annotations

from collections.abc import Sequence

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

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        if floor.desk.house is None:
            return no_house(floor.desk.data_folder, floor.words, width)
        entries = [
            entry._replace(says=floor.spell(entry.says), void_reason=floor.spell(entry.void_reason))
            for entry in floor.desk.log(self._limit)
        ]
        self._full = len(entries) == self._limit
        return log_lines(entries, width, floor.words)


def log_lines(entries: Sequence[LogLine], width: int, words: Words) -> list[Line]:
    """One entry or more lines each; a void one is struck and says what voided it, and why."""
    if not entries:
        return [BLANK, (Span(f"  {words.no_entries}", "strong"),)]
    lines: list[Line] = []
    for entry in entries:
        lines += _entry(entry, width, words)
    return lines


def _entry(entry: LogLine, width: int, words: Words) -> list[Line]:
    ink: Ink = "plain" if entry.voided_by is None else "struck"
    who = " ".join(part for part in (entry.terminal, entry.who) if part)
    room = width - STAMP_CELLS - WHO_CELLS - 2
    texts = wrap(entry.says, room)
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
