"""The bar at the top: the house, the screen, the day, the clock."""

from __future__ import annotations

from rich.cells import cell_len

from floor.looks.spans import Line, Span, joined, shorten, width_of
from floor.looks.words import long_date
from floor.widgets.sheet import Sheet

CLOCK = 6
"""Cells of the clock, at the right end: a stretch of its own, so that it is drawn alone."""

LEAST_HOUSE = 8
"""Of a long name of the house at least so much is told."""

WHO_CELLS = 8
"""At most for whose initials entries carry."""


class TitleBar(Sheet):
    """One row, of which the minute changes the clock's cells only."""

    DEFAULT_CSS = """
    TitleBar { height: 1; background: $surface; color: $foreground; }
    TitleBar:ansi { background: ansi_default; color: ansi_default; }
    """

    def on_mount(self) -> None:
        self.update()

    def on_resize(self) -> None:
        self.update()

    def update(self) -> None:
        """Draw what changed since the last time."""
        self.put([self._written()])

    def _written(self) -> Line:
        floor, words = self.floor, self.floor.words
        desk = floor.desk
        width = self.size.width
        house = desk.house.house.name if desk.house else "bunchbook"
        state = words.closed if desk.closed else ""
        clock = f"{desk.now():%H:%M} "
        who = f"{shorten(desk.who, WHO_CELLS)}  " if desk.who else ""
        page = Span(f" {floor.page_name()}", "title")
        pressing = [part for part in (floor.in_sight(), state) if part]
        room = width - width_of((page,)) - cell_len(who) - CLOCK - 4
        beside = cell_len(joined(pressing, room))
        place = (page, Span(f"  {shorten(house, max(LEAST_HOUSE, room - 2 - beside))}"))
        room -= width_of(place[1:])
        right = joined([*pressing, long_date(desk.day, words)], room)
        gap = max(1, width - width_of(place) - len(right) - cell_len(who) - CLOCK - 2)
        end = (Span(f"{right}  ", "faint"), Span(who), Span(clock, "strong"))
        return (*place, Span(" " * gap), *end)
