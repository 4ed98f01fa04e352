"""A house book's file as it is read, and what a house book holds in a few words."""

from __future__ import annotations

from pathlib import Path

from core.house.model import HouseBook
from core.house.toml import MOST_MB
from core.problems import BadInput
from core.say import Said, joined, say, say_many


def book_text(file: str) -> bytes:
    """The file's bytes, of one too large for a house book only the beginning; BadInput."""
    try:
        with Path(file).open("rb") as book:
            return book.read(MOST_MB * 1024 * 1024 + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", error)
        raise BadInput(say("{file}: cannot be read: {why}", file=file, why=why)) from error


def contents(house: HouseBook) -> Said:
    """The house's name, and how many of each table it has."""
    counts = (
        say_many(len(house.leaves), "{n} leaf", "{n} leaves"),
        say_many(len(house.blends), "{n} blend", "{n} blends"),
        say_many(len(house.vitolas), "{n} vitola", "{n} vitolas"),
        say_many(len(house.benches), "{n} bench", "{n} benches"),
    )
    return joined(": ", (house.house.name, joined(", ", counts)))
