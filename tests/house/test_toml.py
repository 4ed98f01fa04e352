"""Files that are no TOML, or no text at all."""

from __future__ import annotations

import pytest

from core.house.toml import MOST_MB
from tests.house.books import EXAMPLE, edited, problems

NO_TEXT = "holds a NUL or half a character: this is not a text file"
TOO_LARGE = f"h.toml: is over {MOST_MB} MB, too large for a house book; nothing was read"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("", "h.toml: is empty; a house book begins with [house]"),
        (" \n\t\n", "h.toml: is empty; a house book begins with [house]"),
        (b"", "h.toml: is empty; a house book begins with [house]"),
        (
            "[house]\nname 7",
            "h.toml: line 2, column 6: not TOML: Expected '=' after a key in a key/value pair",
        ),
        ("[house]\nname =", "h.toml: line 2, column 7: not TOML: Invalid value"),
        (
            "[house]\nname = 1\nname = 2\n",
            "h.toml: line 3, column 9: not TOML: Cannot overwrite a value",
        ),
        (
            b'[house]\nname = "\xff"\n',
            "h.toml: line 2: byte 0xff is not UTF-8; save the file as UTF-8 text",
        ),
        ("[house]".encode("utf-16"), "h.toml: is UTF-16; save it as UTF-8"),
        (
            b"[house]\n\0",
            f"h.toml: line 2: {NO_TEXT}",
        ),
        (
            "[house]\nname = '\ud800'",
            f"h.toml: line 2: {NO_TEXT}",
        ),
        (
            "x = " + "[" * 3000,
            "h.toml: is nested too deeply; a house book needs three levels at most",
        ),
        (
            "[house]\n" + "[a" + ".a" * 1900 + "]\n",
            "h.toml: line 2: is nested too deeply; a house book needs three levels at most",
        ),
        (
            "x = 1\ny = " + "9" * 5000,
            "h.toml: line 2: is over 4000 characters long; break it up",
        ),
        (
            b"x" * (MOST_MB * 1024 * 1024 + 1),
            TOO_LARGE,
        ),
        (
            "#\n" * (MOST_MB * 512 * 1024 + 1),
            TOO_LARGE,
        ),
    ],
    ids=range(15),
)
def test_what_cannot_be_read_is_one_line(text: bytes | str, line: str) -> None:
    assert problems(text) == [line]


def test_just_under_the_largest_size_is_read() -> None:
    comments = "# to fill it up\n" * 60_000
    assert len(comments) < MOST_MB * 1024 * 1024
    assert problems(comments + EXAMPLE) == []


def test_a_value_cannot_break_a_line_in_two() -> None:
    text = edited(('vitola = "toro"\nquota', r'vitola = "a\nb\u202e\u001b[31m"' + "\nquota"))
    assert problems(text) == [
        r'h.toml: [[bench]] 1 "7": vitola "a\nb\u202e\x1b[31m": no [[vitola]] has that code'
    ]
