"""What the page itself says, around the floor."""

from __future__ import annotations

from typing import NamedTuple

from core.say import say


class PageWords(NamedTuple):
    """The page's own words."""

    title: str = say("bunchbook: the floor")
    opening: str = say("Opening the floor …")
    no_script: str = say("This page needs JavaScript; please allow it for this address.")
    ended: str = say(
        "The floor was left, or the connection was lost. What was acknowledged is recorded;"
        " a line without its Enter is not."
    )
    again: str = say("Open the floor again")
