"""Why: where each figure of a card comes from, step by step."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from core.problems import BadInput
from core.recipe.why import UNITS, Step
from floor.looks.missing import no_card, no_house
from floor.looks.spans import Line, Span, figure, fit, inked, wrap
from floor.looks.words import Words
from floor.widgets.page import Page

SIGNIFICANT = 5
STEP_CELLS = 29
VALUE_CELLS = 6
"""Cells before the decimal point."""
AFTER_CELLS = 5
UNIT_CELLS = 11
LEAST_SOURCE = 16
BELOW = "     "


class WhyPage(Page):
    """The steps of the card of the bench the floor stands at."""

    def written(self, width: int, height: int) -> list[Line]:
        floor, words = self.floor, self.floor.words
        if floor.desk.house is None or floor.bench is None:
            return no_house(floor.desk, words, width)
        try:
            steps = floor.desk.card(floor.bench).why
        except BadInput as missing:
            title = words.cannot_roll.format(bench=floor.bench)
            return no_card(missing, title, width, words)
        return why_lines(steps, width, words)


def why_lines(steps: Sequence[Step], width: int, words: Words) -> list[Line]:
    """The steps as a table; values align on the point, sources wrap in their own column.

    Where that would break words, sources stand below their steps.
    """
    name = STEP_CELLS + max(0, min(12, width - 100))
    value = VALUE_CELLS + AFTER_CELLS
    source = width - name - value - UNIT_CELLS - 5
    head = f" {fit(words.step, name)}{figure(words.value, VALUE_CELLS + 1)}"
    titles = fit(head, name + value + 3) + fit(words.unit, UNIT_CELLS + 1)
    if source < LEAST_SOURCE:
        lines: list[Line] = [(Span(titles, "faint"),), (Span(f"{BELOW}{words.source}", "faint"),)]
        for step in steps:
            lines += _rows(step, name, [], words)
            lines += [
                (Span(BELOW), *row) for row in inked(words.tell(step.source), width - 6, "faint")
            ]
        return lines
    lines = [(Span(titles + words.source, "faint"),)]
    for step in steps:
        lines += _rows(step, name, wrap(words.tell(step.source), source), words)
    return lines


def _rows(step: Step, name: int, sources: Sequence[str], words: Words) -> list[Line]:
    """One step: its name, value, unit and source, each wrapped in its column."""
    number, its_unit = shown(step)
    units_told = wrap(words.tell(UNITS.get(its_unit, its_unit)), UNIT_CELLS)
    cells = (wrap(words.tell(step.step), name), [_aligned(number)], units_told)
    lines: list[Line] = []
    for y in range(max(len(sources), *(len(cell) for cell in cells))):
        names, numbers, units = (cell[y] if y < len(cell) else "" for cell in cells)
        lines.append(
            (
                Span(f" {fit(names, name)} "),
                Span(f"{numbers:<{VALUE_CELLS + AFTER_CELLS}} ", "strong"),
                Span(f"{fit(units, UNIT_CELLS)} "),
                Span(sources[y] if y < len(sources) else "", "faint"),
            )
        )
    return lines


def _aligned(number: str) -> str:
    """The number with its point in the column's; one with too long a tail just ends there."""
    whole, point, after = number.partition(".")
    if len(after) >= AFTER_CELLS:
        return figure(number, VALUE_CELLS + AFTER_CELLS)
    return figure(whole, VALUE_CELLS) + point + after


def shown(step: Step) -> tuple[str, str]:
    """The value in plain notation and its unit; fractions as percentages."""
    if step.unit == "fraction":
        return _plain(step.value * 100), "%"
    return _plain(step.value), step.unit


def _plain(value: float) -> str:
    """Five significant digits, never in scientific form, no trailing zeros."""
    text = format(Decimal(f"{value:.{SIGNIFICANT}g}"), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
