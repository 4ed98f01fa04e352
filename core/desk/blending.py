"""The blender's lines: what is tried on the line, what is approved, what the panel tastes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from core.desk.ending import Ending
from core.desk.faces import Go, Meaning, Mistake, NotSaved, Outcome, Question, Recorded
from core.desk.permission import CHANGES_HOUSE
from core.entry import requests as ask
from core.problems import BadInput, StoreUnusable, UserError
from core.say import say

if TYPE_CHECKING:
    from core.desk.line import Line
    from core.desk.line_save import Written
    from core.desk.panel import Panel, PanelSheet


class _Asked(NamedTuple):
    """The line that was asked about, and the house book's text that a yes was to make."""

    line: str
    text: str


class Blending(Ending):
    """A terminal that also keeps a line being tried, and the panel."""

    _kept_panel: Panel | None = None
    _kept_line: Line | None = None
    _asked_of_house: _Asked | None = None

    def follow(self) -> frozenset[str] | None:
        news = super().follow()
        asked = self._kept_panel is not None and self._panel.follow()
        return frozenset({"", *(news or ())}) if asked else news

    @property
    def _panel(self) -> Panel:
        if self._kept_panel is None:
            from core.desk.panel import Panel  # noqa: PLC0415 - most desks ask for none

            self._kept_panel = Panel(self.folder)
        return self._kept_panel

    @property
    def line(self) -> Line:
        """The blend looked at, and what is tried on it."""
        if self._kept_line is None:
            from core.desk.line import Line  # noqa: PLC0415 - most desks ask for none

            self._kept_line = Line(self)
        return self._kept_line

    def panel(self) -> PanelSheet | None:
        """The panel's newest session and what it says; None where there is none."""
        at = self._stamp("").at
        return self._panel.sheet(int(at[:4]), at if self._as_of else None)

    def _panel_would(self, request: ask.Panel) -> Meaning:
        asked = self._panel.asked(request.text, request.at)
        if isinstance(asked, ask.Unread):
            return Meaning(asked.says, ok=False, at=asked.at)
        try:
            says = self._panel.would(asked, self.loaded, self.house_version, self._stamp(""))
        except UserError as problem:
            return Meaning(problem.said, ok=False)
        return Meaning(says, ok=True)

    def _on_line(self, request: ask.Show) -> Outcome:
        """Look at a blend; or go on looking at it, as it is today."""
        try:
            if request.screen == "line":
                self.line.look_at(request.words)
            self.line.drop()
            return Go("line", None, self.line.blend)
        except BadInput as problem:
            return Mistake(problem.said)

    def _aside(self, request: ask.Panel | ask.Try | ask.Approve) -> Meaning:
        """What is meant by a line that is no entry of the day."""
        if isinstance(request, ask.Panel):
            return self._panel_would(request)
        if isinstance(request, ask.Approve):
            return self._approve_would(request)
        return self._try_would(request)

    def _try_would(self, request: ask.Try) -> Meaning:
        try:
            return Meaning(self.line.would(request.text), ok=True)
        except BadInput as problem:
            return Meaning(problem.said, ok=False, at=request.at)

    def _of_house(
        self, line: str, request: ask.Try | ask.Approve, *, sure: bool, may: bool
    ) -> Outcome:
        """Try, or do, what makes another house book."""
        if isinstance(request, ask.Approve):
            return self._approve(line, request, sure=sure, may=may)
        return self._try(line, request, sure=sure, may=may)

    def _try(self, line: str, request: ask.Try, *, sure: bool, may: bool) -> Outcome:
        self._begun = None
        try:
            if self.line.is_to_save(request.text):
                return self._save_line(line, sure=sure, may=may)
            self.line.try_out(request.text)
        except BadInput as problem:
            return Mistake(problem.said, request.at)
        return Go("line", None, self.line.blend)

    def _save_line(self, line: str, *, sure: bool, may: bool) -> Outcome:
        """Make what is tried the house book in force, once somebody has said that it is meant."""
        says, new = self.line.saving(), self.line.to_save()
        outcome = self._new_house(line, says, new, sure=sure, may=may)
        if isinstance(outcome, Recorded):
            self.line.drop()
        return outcome

    def _approve(self, line: str, request: ask.Approve, *, sure: bool, may: bool) -> Outcome:
        """Make today's checks of a bench approved bunches, once it is said to be meant."""
        from core.desk.approve import approved  # noqa: PLC0415 - most desks approve none

        try:
            found = approved(self, request.bench)
            return self._new_house(line, found.says, found.written, sure=sure, may=may)
        except BadInput as problem:
            return Mistake(problem.said)

    def _approve_would(self, request: ask.Approve) -> Meaning:
        from core.desk.approve import approved  # noqa: PLC0415

        try:
            return Meaning(approved(self, request.bench).says, ok=True)
        except BadInput as problem:
            return Meaning(problem.said, ok=False)

    def _new_house(self, line: str, says: str, new: Written, *, sure: bool, may: bool) -> Outcome:
        """Put it in force; who says yes to what has changed since it was asked is asked again."""
        from core.desk.line_save import put_in_force  # noqa: PLC0415

        if self._as_of:
            raise BadInput(say("a house book cannot be saved in the past; leave the time out"))
        asked = self._asked_of_house
        if not sure or (asked is not None and asked.line == line and asked.text != new.text):
            self._asked_of_house = _Asked(line, new.text)
            return Question(line, says)
        self._must_be_permitted(CHANGES_HOUSE, may=may)
        try:
            version = put_in_force(self, new)
        except StoreUnusable as problem:
            return NotSaved(line, problem.said)
        self._asked_of_house = None
        return Recorded(
            version, None, say("house book version {version} is in force", version=version), "house"
        )

    def _for_panel(self, line: str, at: str | None, request: ask.Panel) -> Outcome:
        """Keep something of the panel; a line not saved keeps its event's name, as entries do."""
        asked = self._panel.asked(request.text, request.at)
        if isinstance(asked, ask.Unread):
            return Mistake(asked.says, asked.at)
        tried = self._unconfirmed.next_try(line, at)
        try:
            stamp = self._stamp(tried.event)
            added = self._panel.add(asked, self.loaded, self.house_version, stamp)
        except (BadInput, StoreUnusable) as problem:
            return self._not_kept(problem, line, at, tried.event)
        self._unconfirmed.settle(line, at)
        from core.panel.line import Open, Reveal  # noqa: PLC0415 - most desks ask for none

        page = "panel" if isinstance(asked, Open | Reveal) else ""
        return Recorded(added.number, None, added.says, "panel", shown_on=page)
