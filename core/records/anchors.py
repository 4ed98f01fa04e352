"""Where a book ended, kept in another book: it shows lines cut off a journal's end."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from core.problems import Problem
from core.records.disk import unusable
from core.records.folder import head_of
from core.records.lines import Chain
from core.say import say

_CUT = say("lines were cut off its end, or it was put back from an older copy")
_OTHER = say("lines before it were edited, or another book was put in its place")
_RESTORE = say("put a newer copy back: bunchbook restore FILE")


class Anchor(NamedTuple):
    """`book` had `lines` lines, and then its last sound line's checksum was `end`.

    `kept_in` says where that is written.
    """

    kept_in: str
    book: str
    lines: int
    end: str


def unmet(book: str, path: Path, anchors: Sequence[Anchor]) -> tuple[Problem, ...]:
    """What the book at `path` lacks of what its anchors say, each lack told once."""
    try:
        lines = path.read_bytes().split(b"\n")
    except FileNotFoundError:
        return (_gone(book, max(anchors, key=_lines)),)
    except OSError as error:
        raise unusable(error, path, say("read it")) from error
    if not lines[-1]:
        lines.pop()
    short = [each for each in anchors if each.lines > len(lines)]
    wrong = [each for each in anchors if each.lines <= len(lines) and not _holds(lines, each)]
    problems: list[Problem] = []
    if short:
        problems.append(_short(book, len(lines), max(short, key=_lines)))
    if wrong:
        problems.append(_wrong(book, min(wrong, key=_lines)))
    return tuple(problems)


def _lines(anchor: Anchor) -> int:
    return anchor.lines


def _holds(lines: Sequence[bytes], anchor: Anchor) -> bool:
    """Whether the line carries the sum, or a chain read up to it ends there.

    They differ where the anchor's line itself was torn: then an earlier one was the last
    sound one.
    """
    end = anchor.end.encode()
    if lines[anchor.lines - 1][8:40] == end:
        return True
    chain = Chain(head_of(Path(anchor.book).name), anchor.book)
    chain.read(list(lines[: anchor.lines]))
    return chain.last == end


def _gone(book: str, anchor: Anchor) -> Problem:
    return Problem(
        book,
        say(
            "expected {lines} lines or more, as {kept_in} says, found no such book: it was "
            "removed; {restore}",
            lines=anchor.lines,
            kept_in=anchor.kept_in,
            restore=_RESTORE,
        ),
    )


def _short(book: str, found: int, anchor: Anchor) -> Problem:
    return Problem(
        book,
        say(
            "expected {lines} lines or more, as {kept_in} says, found {found}: {cut}; {restore}",
            lines=anchor.lines,
            kept_in=anchor.kept_in,
            found=found,
            cut=_CUT,
            restore=_RESTORE,
        ),
    )


def _wrong(book: str, anchor: Anchor) -> Problem:
    return Problem(
        say("{book}: line {lines}", book=book, lines=anchor.lines),
        say(
            "expected the checksum {end}, as {kept_in} says, found another: {other}; {restore}",
            end=anchor.end,
            kept_in=anchor.kept_in,
            other=_OTHER,
            restore=_RESTORE,
        ),
    )
