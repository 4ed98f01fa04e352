"""`help`: what can be typed on the floor and given to `enter`, by example."""

from __future__ import annotations

import argparse

from core.entry.words import GRAMMAR
from floor.commands import out


def run(_args: argparse.Namespace) -> int:
    """Print each example of a line, and what it does."""
    out.result(out.table(GRAMMAR))
    return 0
