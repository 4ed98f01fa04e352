"""The catalogue as the sources ask for it, by Babel; as it stands in its file; and compiled."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from pathlib import Path

from babel.messages import Catalog, Message
from babel.messages.extract import extract_from_file
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from core.house.language import LANGUAGES
from core.tongue import CATALOGUES, DOMAIN

ROOT = CATALOGUES.parent.parent
ROOMS = ("core", "floor")
TRANSLATED = tuple(language for language in LANGUAGES if language != "en")
KEYWORDS = {"say": (1,), "say_many": (2, 3), "say_as": ((1, "c"), 2)}
HEAD = (
    ("Language", "es"),
    ("MIME-Version", "1.0"),
    ("Content-Type", "text/plain; charset=utf-8"),
    ("Content-Transfer-Encoding", "8bit"),
    ("Plural-Forms", "nplurals=2; plural=(n != 1);"),
)
TITLE = "# Spanish of a rolling room, for every sentence that core/say.py makes.\n"


class Dateless(Catalog):
    """A catalogue whose head changes with nothing: neither the day nor the library's version."""

    @property
    def mime_headers(self) -> list[tuple[str, str]]:
        return list(HEAD)

    @mime_headers.setter
    def mime_headers(self, headers: Iterable[tuple[str | bytes, str | bytes]]) -> None:
        """The head stays, whatever a file says."""


def sources() -> list[Path]:
    """Every file that may say something."""
    return sorted(path for room in ROOMS for path in (ROOT / room).rglob("*.py"))


def asked() -> Catalog:
    """What the sources say, without translations."""
    catalog = Catalog()
    for path in sources():
        found = extract_from_file("python", str(path), keywords=KEYWORDS)
        for _line, message, comments, context in found:
            place = (path.relative_to(ROOT).as_posix(), 0)
            catalog.add(message, locations=[place], auto_comments=comments, context=context)
    return catalog


def blank(language: str) -> Catalog:
    """A catalogue without messages, whose plurals are ours: the library's change with CLDR."""
    catalog = Catalog(locale=language)
    catalog.mime_headers = list(HEAD)
    return catalog


def po_of(language: str) -> Path:
    return CATALOGUES / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def kept(language: str) -> Catalog:
    """What stands in the catalogue's file."""
    path = po_of(language)
    if not path.exists():
        return blank(language)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def updated(language: str) -> Catalog:
    """What the sources say, with the translations there are; what is said no more is gone."""
    old, new = kept(language), asked()
    fresh = blank(language)
    for message in messages(new):
        known = old.get(message.id, message.context)
        same = known is not None and not known.fuzzy and known.pluralizable == message.pluralizable
        string = known.string if known is not None and same else None
        fresh.add(
            message.id,
            string,
            locations=sorted(message.locations),
            flags=message.flags,
            context=message.context,
        )
    return fresh


def messages(catalog: Catalog) -> Iterator[Message]:
    """Its messages, without the header."""
    return (message for message in catalog if message.id)


def as_po(catalog: Catalog) -> str:
    """The file's text: no dates, no line numbers, so that it changes only with what is said."""
    written = io.BytesIO()
    write_po(written, catalog, width=100, omit_header=True, sort_by_file=True, include_lineno=False)
    head = "".join(f'"{name}: {value}\\n"\n' for name, value in HEAD)
    return f'{TITLE}msgid ""\nmsgstr ""\n{head}\n{written.getvalue().decode()}'


def as_mo(catalog: Catalog) -> bytes:
    """The compiled catalogue, which the program reads."""
    dateless = Dateless(locale=catalog.locale)
    for message in messages(catalog):
        dateless[message.id] = message
    written = io.BytesIO()
    write_mo(written, dateless)
    return written.getvalue()


def untranslated(catalog: Catalog) -> list[Message]:
    """What has no translation yet, or lacks a plural."""
    return [message for message in messages(catalog) if not _whole(message)]


def _whole(message: Message) -> bool:
    strings = message.string if isinstance(message.string, (list, tuple)) else (message.string,)
    return all(strings)
