"""The anchors that books keep of each other: a day's opening, and a closed day's summary."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from core.desk.daybook import OPENING
from core.desk.summaries import SUMMARIES
from core.records.anchors import Anchor
from core.records.folder import is_book
from core.records.slices import Change
from core.say import say


def anchors_in(name: str, changes: Iterable[Change]) -> Iterator[Anchor]:
    """What the book of that name says of other books' ends; what is misshapen says nothing."""
    for table, number, document in changes:
        if document is None:
            continue
        if table == OPENING and name.startswith("days/"):
            ends = document.get("ends")
            for book, end in ends.items() if isinstance(ends, Mapping) else ():
                yield from _anchor(say("the opening of {name}", name=name), book, end)
        elif table == SUMMARIES and name.startswith("years/"):
            book = f"days/{document.get('date')}.jsonl"
            end = (document.get("lines"), document.get("end"))
            yield from _anchor(
                say("summary {number} in {name}", number=number, name=name), book, end
            )


def _anchor(kept_in: str, book: str, end: Any) -> Iterator[Anchor]:
    """The anchor of a well-formed `end`: a number of lines and a checksum."""
    match end:
        case (int(lines), str(checksum)) if lines > 0 and is_book(book):
            yield Anchor(kept_in, book, lines, checksum)
