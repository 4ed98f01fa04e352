"""Where a figure comes from: the steps, named, that the computing functions hand back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from core.say import Said, say


class Step(NamedTuple):
    """One step from size to scale; `source` says what the value was worked from.

    Units: mm, mm², g, divisions, bunches, half-leaves, "fraction" for shares, moistures
    and errors, empty for a bare number. `UNITS` says those that are words.
    """

    step: str
    value: float
    unit: str
    source: str


class Worked(NamedTuple):
    """A step before its words are filled in: of most cards nobody asks why."""

    named: Said
    value: float
    unit: str
    origin: Said
    blanks: Mapping[str, object] | None = None
    """What both sentences are filled in with; None where they are whole."""

    def step(self) -> Step:
        """The step in words."""
        if self.blanks is None:
            return Step(self.named, self.value, self.unit, self.origin)
        named, origin = self.named.format(**self.blanks), self.origin.format(**self.blanks)
        return Step(named, self.value, self.unit, origin)


Steps = tuple[Worked, ...]

UNITS: Mapping[str, Said] = {
    "64ths of an inch": say("64ths of an inch"),
    "fraction": say("fraction"),
    "divisions": say("divisions"),
    "half-leaves": say("half-leaves"),
    "bunches": say("bunches"),
}
"""The units that are words; the others are signs, the same in every language."""


def step_json(step: Step) -> dict[str, object]:
    """A step under the keys of `card --why`."""
    return {"step": step.step, "value": step.value, "unit": step.unit, "from": step.source}
