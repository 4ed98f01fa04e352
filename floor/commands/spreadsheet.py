"""Tables for spreadsheets: CSV whose cells are taken for what they are."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

_RUN = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the beginning of a formula."""


def csv_text(rows: Iterable[Sequence[object]]) -> str:
    """The rows as CSV; None is empty, and text that would run as a formula is quoted by '."""
    written = io.StringIO(newline="")
    table = csv.writer(written, lineterminator="\n")
    table.writerows([_cell(value) for value in row] for row in rows)
    return written.getvalue()


def _cell(value: object) -> object:
    return f"'{value}" if isinstance(value, str) and value.startswith(_RUN) else value
