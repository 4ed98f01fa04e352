"""The Line: does this blend hold in every size, and what does each cost?"""

from __future__ import annotations

from functools import partial

from core.desk.line import Found, Trial
from floor.looks.missing import no_house
from floor.looks.spans import Line
from floor.screens.line_view import line_lines
from floor.widgets.page import Page


class LinePage(Page):
    """The blend the desk looks at; a search for new parts runs in a thread of its own."""

    def __init__(self) -> None:
        super().__init__(id="line")
        self._sought: Trial | None = None

    def written(self, width: int, height: int) -> list[Line]:
        desk, words = self.floor.desk, self.floor.words
        if desk.house is None:
            return no_house(desk, words, width)
        shown = desk.line.shown()
        trial = shown.trial
        if trial is not None and trial.without and shown.found is None:
            self._begin(trial)
        return line_lines(shown, desk.house, words, width)

    def back(self) -> bool:
        """Drop what is tried."""
        dropped = self.floor.desk.house is not None and self.floor.desk.line.drop()
        if dropped:
            self.update()
        return dropped

    def _begin(self, trial: Trial) -> None:
        """Once for each trial: SciPy takes its time the first time it is asked."""
        if trial is not self._sought:
            self._sought = trial
            self.run_worker(partial(self._seek, trial), thread=True)

    def _seek(self, trial: Trial) -> None:
        found = trial.seek()
        self.app.call_from_thread(self._settle, trial, found)

    def _settle(self, trial: Trial, found: Found) -> None:
        self.floor.desk.line.settle(trial, found)
        self.update()
