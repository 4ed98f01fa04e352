"""Where each page but the Board is: imported and made when it is first wanted."""

from __future__ import annotations

from importlib import import_module

from floor.widgets.page import Page

PAGES = {
    "card": ("card", "CardPage"),
    "why": ("why", "WhyPage"),
    "rounds": ("rounds", "RoundsPage"),
    "chart": ("chart", "ChartPage"),
    "leaf": ("leaf", "LeafPage"),
    "line": ("line", "LinePage"),
    "day": ("day", "DayPage"),
    "days": ("days", "DaysPage"),
    "panel": ("panel", "PanelPage"),
    "log": ("log", "LogPage"),
    "help": ("help", "HelpPage"),
}


def page_of(name: str) -> Page:
    """A new page of that name."""
    room, kind = PAGES[name]
    page: Page = getattr(import_module(f"floor.screens.{room}"), kind)()
    return page
