"""What Python's own TOML parser says of a wrong text, so that it can be told in any language."""

from __future__ import annotations

import re

from core.say import say

WHOLE = (
    say("Invalid statement"),
    say("Invalid value"),
    say("Invalid date or datetime"),
    say("Invalid hex value"),
    say("Invalid initial character for a key part"),
    say("Cannot overwrite a value"),
    say("Expected '=' after a key in a key/value pair"),
    say("Expected newline or end of document after a statement"),
    say("Expected ']' at the end of a table declaration"),
    say("Expected ']]' at the end of an array declaration"),
    say("Unclosed array"),
    say("Unclosed inline table"),
    say("Unterminated string"),
    say("Unescaped '\\' in a string"),
    say("Escaped character is not a Unicode scalar value"),
)
ABOUT = (
    say("Expected {what}"),
    say("Found invalid character {what}"),
    say("Illegal character {what}"),
    say("Cannot declare {what} twice"),
    say("Cannot mutate immutable namespace {what}"),
    say("Cannot redefine namespace {what}"),
    say("Duplicate inline table key {what}"),
)
_WHOLE = {str(each): each for each in WHOLE}


def syntax_said(message: str) -> str:
    """The parser's message to be told in any language; one that is not known as it stands."""
    if message in _WHOLE:
        return _WHOLE[message]
    for template in ABOUT:
        before, _, after = template.partition("{what}")
        found = re.fullmatch(f"{re.escape(before)}(.+){re.escape(after)}", message, re.DOTALL)
        if found is not None:
            return template.format(what=_shown(found[1]))
    return message


def _shown(what: str) -> str:
    """`('house', 'name')` as `house.name`: keys as a house book writes them."""
    keys = re.findall(r"'([^']*)'", what)
    return ".".join(keys) if what.startswith("(") and keys else what
