"""What commands print: results to standard output, messages to standard error.

This is the one place that tells: what is printed as text is told in the language spoken.
A reader that goes away, or a full disk behind a pipe, never stops a command from doing what
it was told: the rest is done unheard.
"""

from __future__ import annotations

import codecs
import os
import sys
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, TextIO

from core.problems import Problem
from core.say import told
from floor.looks.terminal import takes_utf8

if TYPE_CHECKING:
    from core.house.model import Language

PLAIN = "bunchbook-plain"
"""The streams' way with signs that they cannot take."""
WRITTEN_IN_C = ("utf-8", "ascii", "us-ascii", "ansi_x3.4-1968")
"""What Python writes in a C locale; a locale of another character set keeps its own."""

_gone: set[str] = set()


class _Listener:
    """Who reads what is printed: in which language, and whether ASCII is all they can show."""

    language: Language = "en"
    ascii: bool = False


_listener = _Listener()


def prepare() -> None:
    """Make the standard streams fit to be written to, however this process was started.

    Where the locale has ASCII alone, nothing else is sent: Python would write UTF-8 there too.
    """
    codecs.register_error(PLAIN, _in_ascii)
    encoding = getattr(sys.stdout, "encoding", None) or ""
    how = {"errors": PLAIN}
    if encoding.lower() in WRITTEN_IN_C and not takes_utf8(os.environ, encoding):
        _listener.ascii = True
        how["encoding"] = "ascii"
    for name in ("stdin", "stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, open(os.devnull, "r+", encoding="utf-8"))  # noqa: PTH123, SIM115
        elif name != "stdin" and hasattr(stream, "reconfigure"):
            stream.reconfigure(**how)


def _in_ascii(error: UnicodeError) -> tuple[str, int]:
    """The nearest ASCII of signs that the stream cannot take, one cell for each."""
    from floor.looks.plain import ascii_cell  # noqa: PLC0415 - seldom needed

    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(map(ascii_cell, error.object[error.start : error.end])), error.end


def finish() -> None:
    """Leave nothing for the interpreter to fail on when it ends."""
    for name, stream in (("stdout", sys.stdout), ("stderr", sys.stderr)):
        try:
            stream.flush()
        except (OSError, ValueError):
            _lost(name, stream)


def _write(name: str, stream: TextIO, text: str) -> None:
    if name in _gone:
        return
    try:
        stream.write(text)
        stream.flush()
    except (OSError, ValueError):
        _lost(name, stream)


def _lost(name: str, stream: TextIO) -> None:
    """Whoever read this has gone: what is left in the buffer must not be tried again at exit."""
    _gone.add(name)
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    except (OSError, ValueError):
        return


def speak(language: Language) -> None:
    """From now on, print in this language."""
    _listener.language = language


def language() -> Language:
    """The language that is spoken."""
    return _listener.language


def tell(text: str) -> str:
    """The text in the language spoken; where ASCII is all, with its signs written out."""
    if _listener.ascii:
        from floor.looks.plain import spelled  # noqa: PLC0415 - seldom needed

        return spelled(_told(text))
    return _told(text)


def _told(text: str) -> str:
    if _listener.language == "en":
        return told(text, None)
    from core.tongue import tongue_of  # noqa: PLC0415 - English needs no catalogue

    return told(text, tongue_of(_listener.language))


def result(text: str) -> None:
    """A line of the result."""
    _write("stdout", sys.stdout, tell(text) + "\n")


def json(value: object) -> None:
    """One JSON value on a line of its own; it is not told, so that programs can read it."""
    import orjson  # noqa: PLC0415 - help should not wait for it

    text = orjson.dumps(value).decode()
    if _listener.ascii and not text.isascii():
        import json as standard  # noqa: PLC0415 - it writes other signs by their numbers

        text = standard.dumps(standard.loads(text))
    _write("stdout", sys.stdout, text + "\n")


def message(text: str) -> None:
    """A line for the person, apart from the result."""
    _write("stderr", sys.stderr, tell(text) + "\n")


def problems(found: Iterable[Problem | str]) -> None:
    """Problems, one a line."""
    for problem in found:
        message(problem.said if isinstance(problem, Problem) else problem)


def table(rows: Iterable[Sequence[str]], right: frozenset[int] = frozenset()) -> str:
    """Rows as columns two blanks apart, told; those named in `right` line up on the right."""
    cells = [[tell(cell) for cell in row] for row in rows]
    widths = [max(map(_width, column)) for column in zip(*cells, strict=True)]
    return "\n".join(
        "  ".join(
            _padded(cell, width, right=n in right)
            for n, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in cells
    )


def _padded(cell: str, width: int, *, right: bool) -> str:
    blanks = " " * (width - _width(cell))
    return blanks + cell if right else cell + blanks


def _width(text: str) -> int:
    """The cells of a terminal that a text takes: wide signs two, combining ones none."""
    if text.isascii():
        return len(text)
    from unicodedata import combining, east_asian_width  # noqa: PLC0415 - seldom needed

    return sum(
        0 if combining(sign) else 2 if east_asian_width(sign) in "WF" else 1 for sign in text
    )
