"""Days that a command was asked about, and their summaries."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from core.day.calendar import stamp
from core.desk.summaries import Span, span
from core.problems import BadInput
from core.records.folder import Folder
from core.say import say
from floor.commands import out
from floor.commands.setting import Setting, tell_damage

if TYPE_CHECKING:
    from core.desk.shelf import Shelf

NAMED = 8
"""Days named before only their number is told."""


def found(place: Setting, first: dt.date, last: dt.date) -> Span:
    """The summaries of the days, as of the time asked; damage is told."""
    until = None if place.asked is None else stamp(place.asked)[0]
    latest = last if place.asked is None else min(last, place.asked.date())
    folder = Folder(place.folder)
    days = span(folder, first, latest, until)
    folder.close()
    tell_damage(days.damaged)
    return days


def shelf(place: Setting) -> Shelf:
    """The house books of every version."""
    from core.desk.shelf import Shelf  # noqa: PLC0415

    return Shelf(Folder(place.folder))


def asked(first: str, last: str | None) -> tuple[dt.date, dt.date]:
    """The days from the first of what is named first to the last of what is named last."""
    begins, ends = stretch(first)
    if last is not None:
        _, ends = stretch(last)
    if begins > ends:
        raise BadInput(
            say(
                "expected the earlier day first, found {first} after {last}", first=first, last=last
            )
        )
    return begins, ends


def stretch(text: str) -> tuple[dt.date, dt.date]:
    """The first and the last day of a day, month or year; BadInput says how to write it."""
    try:
        if len(text) == len("2026"):
            begins = dt.date.fromisoformat(f"{text}-01-01")
            return begins, begins.replace(month=12, day=31)
        if len(text) == len("2026-05"):
            begins = dt.date.fromisoformat(f"{text}-01")
            return begins, (begins + dt.timedelta(31)).replace(day=1) - dt.timedelta(1)
        begins = dt.date.fromisoformat(text)
    except (ValueError, OverflowError):
        raise BadInput(
            say(
                "expected a day, a month or a year like 2026-05-04, 2026-05 or 2026, found "
                '"{found}"',
                found=text,
            )
        ) from None
    return begins, begins


def tell_unclosed(days: Sequence[str]) -> None:
    """Name days that have a book and no figures, and how they come by them."""
    if days:
        named, more = ", ".join(days[:NAMED]), len(days) - NAMED
        told = named if more <= 0 else say("{days} and {n} more", days=named, n=more)
        out.message(
            say(
                "not closed, or closed without a summary: {days}; to have their figures: "
                "bunchbook close DATE",
                days=told,
            )
        )
