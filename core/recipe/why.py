"""Where a figure comes from: the steps, named, that the computing functions hand back."""

from __future__ import annotations

from typing import NamedTuple


class Step(NamedTuple):
    """One step from size to scale; `source` says what the value was worked from.

    Units: mm, mm², g, divisions, bunches, half-leaves, "fraction" for shares, moistures
    and errors, empty for a bare number.
    """

    step: str
    value: float
    unit: str
    source: str


Steps = tuple[Step, ...]


def step_json(step: Step) -> dict[str, object]:
    """A step under the keys of `card --why`."""
    return {"step": step.step, "value": step.value, "unit": step.unit, "from": step.source}
