"""A value in a house book's text set where it stands; all else stays as it was typed."""

from __future__ import annotations

import re

_TABLE = re.compile(r"\s*\[\[?\s*([\w-]+)")
_COMMENT = re.compile(r"\s+#[^\"']*$")


def with_value(text: str, table: str, code: str, key: str, value: str) -> str | None:
    """The text with `key = value` in the [[table]] of that code; None where there is none such.

    A key that is not there is written below the code. A key of several lines is not looked for,
    nor are keys within strings told from others: whoever saves the text reads it again first.
    """
    lines = text.splitlines(keepends=True)
    starts = [n for n, row in enumerate(lines) if _TABLE.match(row)]
    for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        head = _TABLE.match(lines[start])
        at = _key(lines, start, end, "code")
        if head is None or head[1] != table or at is None or _bare(lines[at]) != code:
            continue
        place = _key(lines, start, end, key)
        ending = lines[at][len(lines[at].rstrip("\r\n")) :] or "\n"
        if place is None:
            lines.insert(at + 1, f"{key} = {value}{ending}")
        else:
            before, _, after = lines[place].rstrip("\r\n").partition("=")
            comment = _COMMENT.search(after)
            told = comment[0] if comment else ""
            lines[place] = f"{before.rstrip()} = {value}{told}{ending}"
        return "".join(lines)
    return None


def _key(lines: list[str], start: int, end: int, key: str) -> int | None:
    named = re.compile(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=")
    return next((n for n in range(start, end) if named.match(lines[n])), None)


def _bare(line: str) -> str:
    """The string or number a line gives, without its quotes and comment."""
    _, _, value = line.partition("=")
    return _COMMENT.sub("", value).strip().strip("\"'")
