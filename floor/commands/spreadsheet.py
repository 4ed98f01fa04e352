"""Tables for spreadsheets: CSV whose cells are taken for what they are."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

_RUN = re.compile(r"[\t\r\n]|[\s\u200b\ufeff]*[=+\-@＝＋－＠]")
"""What a spreadsheet takes for the beginning of a formula, wide signs as well."""
_SPLIT = re.compile(r"([;\t\r\n]\s*[\"']?)(?=[=+\-@＝＋－＠])")
"""The same after what parts cells where the comma is for decimals."""
BOM = "\ufeff"


def csv_text(rows: Iterable[Sequence[object]], ends: str = "\n") -> str:
    """The rows as CSV; None is empty, and text that would run as a formula is quoted by '."""
    written = io.StringIO(newline="")
    table = csv.writer(written, lineterminator=ends)
    table.writerows([_cell(value) for value in row] for row in rows)
    return written.getvalue()


def csv_file(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table as a file that a spreadsheet opens right: marked as UTF-8, lines as in RFC 4180."""
    return BOM + csv_text((head, *rows), ends="\r\n")


def _cell(value: object) -> object:
    if not isinstance(value, str):
        return value
    text = _SPLIT.sub(r"\1'", value)
    return f"'{text}" if _RUN.match(text) else text
