"""`help`: what can be typed on the floor and given to `enter`, by example."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from core.entry.words import FORM_WORDS, GRAMMAR, Example
from core.problems import BadInput
from core.say import say
from floor.commands import out


def run(args: argparse.Namespace) -> int:
    """Print each example of a line, and what it does; with a word those of that word alone."""
    out.result(out.table(_of(args.word) if args.word else GRAMMAR))
    return 0


def _of(words: Sequence[str]) -> tuple[Example, ...]:
    """The examples of a word in either language; BadInput where no line has it."""
    found = FORM_WORDS.find(words)
    if found is None:
        raise BadInput(
            say(
                '"{word}" is no word of the entry line; all of them, by example: bunchbook help; '
                "of a command: bunchbook COMMAND --help",
                word=" ".join(words),
            )
        )
    form, _count = found
    return form.examples
