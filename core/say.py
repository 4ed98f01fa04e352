"""A sentence in English that remembers how it was made, so that it can be told in another language.

Code that has something to say does not know who listens: it makes a `Said`, which is a plain
English `str` to whoever does not care, and which `told` says in a listener's language at the rim
(a screen, a command's output, a paper). So nothing below has a current language, and a screen
can change its language while it runs.

A sentence is one template, never glued from pieces: word order and endings differ between
languages. What varies is filled in by name; what is itself said (`Said`) is told before it is.
`Said`s survive `+`, `.format(...)` and `joined`; f-strings and `str.join` forget.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from typing import Protocol

    class Tongue(Protocol):
        """A catalogue of one language, as the standard library's `gettext` has it."""

        def gettext(self, message: str, /) -> str: ...
        def pgettext(self, context: str, message: str, /) -> str: ...
        def ngettext(self, one: str, many: str, n: int, /) -> str: ...


class _Made(NamedTuple):
    """How a sentence was made: what the catalogue knows it by, and what is filled in."""

    template: str
    many: str | None = None
    context: str | None = None
    n: int = 0
    glue: bool = False
    args: tuple[object, ...] = ()
    values: Mapping[str, object] = {}

    def text(self, tongue: Tongue | None) -> str:
        template = self._template(tongue)
        if not self.args and not self.values:
            return template
        args = [_told(value, tongue) for value in self.args]
        return template.format(*args, **{k: _told(v, tongue) for k, v in self.values.items()})

    def _template(self, tongue: Tongue | None) -> str:
        if self.many is not None:
            if tongue is None:
                return self.template if self.n == 1 else self.many
            return tongue.ngettext(self.template, self.many, self.n)
        if tongue is None or self.glue or not self.template:
            return self.template
        if self.context is not None:
            return tongue.pgettext(self.context, self.template)
        return tongue.gettext(self.template)


class Said(str):
    """A sentence in English, and how it was made."""

    __slots__ = ("made",)
    made: _Made

    def __new__(cls, made: _Made) -> Said:
        self = super().__new__(cls, made.text(None))
        self.made = made
        return self

    def format(self, *args: object, **values: object) -> Said:
        """The sentence with its blanks filled in."""
        return Said(self.made._replace(args=args, values=values))

    def __add__(self, other: str) -> Said:
        return joined("", (self, other))

    def __radd__(self, other: str) -> Said:
        return joined("", (other, self))

    def __mod__(self, _value: Any) -> str:
        raise TypeError("a sentence is filled in by name: say(template, name=value)")

    def join(self, parts: Iterable[str]) -> Said:
        """The parts with this between them, still said."""
        return joined(self, parts)

    def __reduce__(self) -> tuple[type[Said], tuple[_Made]]:
        return (Said, (self.made,))


def say(template: str, /, **values: object) -> Said:
    """A sentence or word of the catalogue, with what is filled in by name.

    Without values the template is kept as it stands, to be filled in by `.format(...)` later.
    """
    return Said(_Made(template, values=values))


def say_as(context: str, template: str, /, **values: object) -> Said:
    """As `say`, for a word that other languages say in several ways: `context` says which."""
    return Said(_Made(template, context=context, values=values))


def say_many(n: int, one: str, many: str, /, **values: object) -> Said:
    """As `say`, in the singular or plural of `n`, which is filled in as `{n}`."""
    return Said(_Made(one, many=many, n=n, values={"n": n, **values}))


def joined(separator: str, parts: Iterable[str]) -> Said:
    """Parts one after the other, each told on its own: for lists and lines, not for sentences."""
    args: list[object] = []
    for part in parts:
        if separator and args:
            args.append(separator)
        args.append(part)
    return Said(_Made("{}" * len(args), glue=True, args=tuple(args)))


def listed(parts: Iterable[str]) -> Said:
    """`a, b and c`."""
    shown = tuple(parts)
    if len(shown) < 2:
        return joined("", shown)
    return say("{first} and {last}", first=joined(", ", shown[:-1]), last=shown[-1])


def told(text: str, tongue: Tongue | None) -> str:
    """The text in a language; None is English, and so is what was not made by `say`."""
    return text.made.text(tongue) if isinstance(text, Said) else text


def _told(value: object, tongue: Tongue | None) -> object:
    return told(value, tongue) if isinstance(value, str) else value
