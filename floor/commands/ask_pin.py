"""The house's PIN asked for: at the terminal without echo, else of the environment."""

from __future__ import annotations

import os
import sys
import warnings

from core.problems import BadInput
from core.say import say
from floor.commands import out

VARIABLE = "BUNCHBOOK_PIN"


def pin_for(needed: str) -> str:
    """The PIN that something needs; BadInput where nobody can be asked and none is given."""
    if sys.stdin.isatty():
        return typed(say("PIN {needed}: ", needed=needed))
    pin = os.environ.get(VARIABLE)
    if not pin:
        raise BadInput(
            say(
                "a PIN is needed {needed}; type it at a terminal, or give it in {variable}",
                needed=needed,
                variable=VARIABLE,
            )
        )
    return pin


def typed(prompt: str) -> str:
    """What is typed at the terminal, which does not show it; BadInput where it would."""
    from getpass import GetPassWarning, getpass  # noqa: PLC0415 - few commands ask

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", GetPassWarning)
            return getpass(out.tell(prompt)).strip()
    except (EOFError, GetPassWarning):
        raise BadInput(say("no PIN was typed; nothing was done")) from None
