"""The catalogues of the languages the house can be spoken to in; English needs none."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from core.say import Tongue

DOMAIN = "bunchbook"
CATALOGUES = Path(__file__).with_name("tongues")


@cache
def tongue_of(language: str) -> Tongue | None:
    """The catalogue of a language; None for English, in which everything is written."""
    if language == "en":
        return None
    from gettext import translation  # noqa: PLC0415 - most houses' cards never ask for it

    return translation(DOMAIN, CATALOGUES, [language])
