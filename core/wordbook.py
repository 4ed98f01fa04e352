"""A table of words and sentences, told in one language: what a screen or a paper says itself."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from core.house.model import Language
from core.say import Said, told
from core.tongue import tongue_of


class Wordbook:
    """Public attributes of a class of this kind are what is said; an instance's are told.

    They are texts, tuples of them and dictionaries of code to text. `spelled` has the last word on
    every text, for a terminal that cannot show every sign.
    """

    def __init__(self, language: Language, spelled: Callable[[str], str] = str) -> None:
        self._tongue = tongue_of(language)
        self._spelled = spelled
        vars(self).update(
            (name, self._every(said))
            for kind in reversed(type(self).__mro__)
            for name, said in vars(kind).items()
            if not name.startswith("_") and isinstance(said, str | tuple | dict)
        )
        self.language = language

    def tell(self, text: str) -> str:
        """A text that came from elsewhere, in this language; what was not made by `say` stays."""
        return self._spelled(told(text, self._tongue))

    def _every(self, said: Any) -> Any:
        if isinstance(said, str):
            return self.tell(said)
        if isinstance(said, dict):
            return {code: self._every(text) for code, text in said.items()}
        return tuple(map(self._every, said))


def forms(said: Said) -> tuple[str, str]:
    """The templates for one and for many of a sentence made by `say_many`, not filled in."""
    one, many = (Said(said.made._replace(n=n, values={})) for n in (1, 2))
    return one, many
