"""What argparse says itself, in the language spoken.

It asks the default domain of the standard library's gettext, in the language of the
environment: both are set while it reads a command line.
"""

from __future__ import annotations

import gettext
import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from core.say import say, say_many

if TYPE_CHECKING:
    from core.house.model import Language

ARGPARSE = (
    say("usage: "),
    say("options"),
    say("positional arguments"),
    say("show this help message and exit"),
    say("%(prog)s: error: %(message)s\n"),
    say("argument %(argument_name)s: %(message)s"),
    say("ambiguous option: %(option)s could match %(matches)s"),
    say("expected one argument"),
    say("expected at most one argument"),
    say("expected at least one argument"),
    say_many(2, "expected %s argument", "expected %s arguments"),
    say("ignored explicit argument %r"),
    say("invalid %(type)s value: %(value)r"),
    say("invalid choice: %(value)r (choose from %(choices)s)"),
    say("not allowed with argument %s"),
    say("one of the arguments %s is required"),
    say("the following arguments are required: %s"),
    say("unknown parser %(parser_name)r (choices: %(choices)s)"),
    say("unrecognized arguments: %s"),
)
"""Its messages that a command line can cause, here for the catalogue to keep them."""


@contextmanager
def usage_in(language: Language) -> Iterator[None]:
    """Have argparse speak the language meanwhile; English is its own."""
    if language == "en":
        yield
        return
    from core.tongue import CATALOGUES, DOMAIN  # noqa: PLC0415 - English needs no catalogue

    domain, before = gettext.textdomain(), os.environ.get("LANGUAGE")
    gettext.bindtextdomain(DOMAIN, str(CATALOGUES))
    gettext.textdomain(DOMAIN)
    os.environ["LANGUAGE"] = language
    try:
        yield
    finally:
        gettext.textdomain(domain)
        if before is None:
            del os.environ["LANGUAGE"]
        else:
            os.environ["LANGUAGE"] = before
