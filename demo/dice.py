"""Chance that falls alike on every run."""

from __future__ import annotations

import random


def dice(*of: object) -> random.Random:
    """Dice of their own for each bench, day or errand: none shifts what another throws."""
    return random.Random(" ".join(map(str, of)))  # noqa: S311 - a simulation, not a secret
