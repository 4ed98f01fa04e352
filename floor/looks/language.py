"""The words of a house's language."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from core.house.model import Language
from floor.looks.ascii import spelled
from floor.looks.english import ENGLISH
from floor.looks.spanish import SPANISH
from floor.looks.words import Words

if TYPE_CHECKING:
    from core.papers.words import Words as Paper

_WORDS: dict[Language, Words] = {"en": ENGLISH, "es": SPANISH}


@cache
def words_of(language: Language, ascii_only: bool = False) -> Words:
    """Everything the screens say themselves; with signs written out where ASCII is all."""
    words = _WORDS[language]
    return Words(*map(_spelled, words)) if ascii_only else words


@cache
def paper_words(language: Language, ascii_only: bool = False) -> Paper:
    """What the papers say, where a screen says the same."""
    from core.papers.words import words_of as of_papers  # noqa: PLC0415 - not for the first page

    words = of_papers(language)
    return type(words)(*map(_spelled, words)) if ascii_only else words


def _spelled(value: Any) -> Any:
    """The text, or every text within, with its signs written out."""
    if isinstance(value, str):
        return spelled(value)
    if isinstance(value, dict):
        return {key: _spelled(text) for key, text in value.items()}
    return tuple(_spelled(text) for text in value)
