"""The words of a house's language."""

from __future__ import annotations

from core.house.model import Language
from floor.looks.english import ENGLISH
from floor.looks.spanish import SPANISH
from floor.looks.words import Words

_WORDS: dict[Language, Words] = {"en": ENGLISH, "es": SPANISH}


def words_of(language: Language) -> Words:
    """Everything the screens say themselves."""
    return _WORDS[language]
