"""The text of a house book as the tables it holds, or why it holds none."""

from __future__ import annotations

import re
import tomllib

from core.house.toml_words import syntax_said
from core.problems import Problem
from core.say import Said, say

MOST_MB = 1
TOO_DEEP = say("is nested too deeply; a house book needs three levels at most")
LONGEST_LINE = 4000
"""No line of a house book comes near it; the parser's time grows faster than a line's length."""

DEEPEST_KEY = 8
"""The parser's time grows with the square of a dotted key's depth, or worse: `_DEEP_KEY`."""

_AT = re.compile(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)
_STRING_OR_COMMENT = re.compile(r'"[^"]*"|\'[^\']*\'|#.*')
_DEEP_KEY = re.compile(r"(?:[^\s.=,{}\[\]]+\s*\.\s*){8}")
_NO_TEXT = re.compile("[\\0\\ud800-\\udfff]")


def toml_tables(text: bytes | str, file: str) -> dict[str, object] | Problem:
    """The top-level tables of `text`; a Problem at `file` and its line where it is not TOML."""
    if len(text) > MOST_MB * 1024 * 1024:
        return Problem(
            file,
            say("is over {most} MB, too large for a house book; nothing was read", most=MOST_MB),
        )
    plain = _decoded(text, file)
    if isinstance(plain, Problem):
        return plain
    unfit = _unfit(plain, file)
    if unfit is not None:
        return unfit
    try:
        return tomllib.loads(plain)
    except RecursionError:
        return Problem(file, TOO_DEEP)
    except ValueError as error:  # TOMLDecodeError, and what Python says of overlong integers
        return _syntax(str(error), plain, file)


def _decoded(text: bytes | str, file: str) -> str | Problem:
    """Text without its byte order mark, which some editors write."""
    if isinstance(text, str):
        return text.removeprefix("\ufeff")
    if text.startswith((b"\xff\xfe", b"\xfe\xff")):
        return Problem(file, say("is UTF-16; save it as UTF-8"))
    try:
        return text.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = text.count(b"\n", 0, error.start) + 1
        says = say(
            "byte 0x{byte:02x} is not UTF-8; save the file as UTF-8 text", byte=text[error.start]
        )
        return Problem(say("{file}: line {line}", file=file, line=line), says)


def _unfit(text: str, file: str) -> Problem | None:
    """Why `text` is not even handed to the parser."""
    if not text.strip():
        return Problem(file, say("is empty; a house book begins with [house]"))
    for number, line in enumerate(text.split("\n"), start=1):
        fault = _fault(line)
        if fault is not None:
            return Problem(say("{file}: line {line}", file=file, line=number), fault)
    return None


def _fault(line: str) -> Said | None:
    if _NO_TEXT.search(line):
        return say("holds a NUL or half a character: this is not a text file")
    if len(line) > LONGEST_LINE:
        return say("is over {longest} characters long; break it up", longest=LONGEST_LINE)
    if line.count(".") >= DEEPEST_KEY and _DEEP_KEY.search(_STRING_OR_COMMENT.sub("s", line)):
        return TOO_DEEP
    return None


def _syntax(message: str, text: str, file: str) -> Problem:
    found = _AT.fullmatch(message)
    if found is None:
        return Problem(file, say("is not TOML: {why}", why=syntax_said(message)))
    lines = text.split("\n")
    line = found[2] or str(len(lines))
    column = found[3] or str(len(lines[-1]) + 1)
    place = say("{file}: line {line}, column {column}", file=file, line=line, column=column)
    return Problem(place, say("not TOML: {why}", why=syntax_said(found[1])))
