"""The words of a language, as a terminal can show them."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from core.house.model import Language
from floor.looks.plain import spelled
from floor.looks.words import Words

if TYPE_CHECKING:
    from core.papers.words import Words as Paper


@cache
def words_of(language: Language, ascii_only: bool = False) -> Words:
    """Everything the screens say themselves; with signs written out where ASCII is all."""
    return Words(language, spelled if ascii_only else str)


@cache
def paper_words(language: Language, ascii_only: bool = False) -> Paper:
    """What the papers say, where a screen says the same."""
    from core.papers.words import Words as Paper  # noqa: PLC0415 - not for the first page

    return Paper(language, spelled if ascii_only else str)
