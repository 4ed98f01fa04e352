"""The language to speak in, before anything is read: even what cannot be read is told in it."""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING

from core.house.language import LANGUAGES, language_in
from floor.commands.folder import own_folder

if TYPE_CHECKING:
    from core.house.model import Language

MOST_BYTES = 4 << 20
"""Read of the house's journal, from its end: more than the largest version takes."""


def spoken(words: Sequence[str]) -> Language:
    """The language of a command line: its `--lang`, else the house's, else English."""
    given = _value("--lang", words)
    if given not in LANGUAGES and "--demo" not in words:
        given = language_in(_last_lines(_value("--data", words)))
    return "es" if given == "es" else "en"


def _value(option: str, words: Sequence[str]) -> str | None:
    """What stands behind the option the last time that it is given."""
    value = None
    for place, word in enumerate(words):
        if word == "--":
            break
        name, equals, rest = word.partition("=")
        if name == option and (equals or words[place + 1 :]):
            value = rest if equals else words[place + 1]
    return value


def _last_lines(data: str | None) -> bytes:
    """The end of the house's journal; nothing where it cannot be had."""
    folder = data or os.environ.get("BUNCHBOOK_DATA") or own_folder()
    # Not by way of core.records, nor of pathlib: help should not wait for them.
    path = os.path.join(os.path.expanduser(folder), "house.jsonl")  # noqa: PTH111, PTH118
    try:
        with open(path, "rb") as book:  # noqa: PTH123
            book.seek(max(0, os.fstat(book.fileno()).st_size - MOST_BYTES))
            return book.read(MOST_BYTES)
    except (OSError, ValueError):
        return b""
