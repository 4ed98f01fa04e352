"""Why: where each figure of a card comes from, step by step."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from rich.cells import cell_len

from core.problems import BadInput
from core.recipe.why import Step
from floor.looks.spans import BLANK, Line, Span, figure, fit, wrap
from floor.looks.words import Words
from floor.screens.missing import no_card, no_house
from floor.widgets.page import Page

SIGNIFICANT = 5
STEP_CELLS = 34
VALUE_CELLS = 6
"""Cells on each side of the decimal point, at least."""


class WhyPage(Page):
    """The steps of the card of the bench the floor stands at."""

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        if floor.desk.house is None or floor.bench is None:
            return no_house(floor.words.no_house)
        try:
            steps = floor.desk.card(floor.bench).why
        except BadInput as missing:
            return no_card(missing, floor.words.cannot_roll.format(bench=floor.bench), width)
        return why_lines(steps, width, floor.words)


def why_lines(steps: Sequence[Step], width: int, words: Words) -> list[Line]:
    """The steps as a table; values align on the point, sources wrap in their own column."""
    values = [shown(step) for step in steps]
    whole = max([VALUE_CELLS, *(len(v.partition(".")[0]) for v, _ in values)])
    after = max(len(v) - len(v.partition(".")[0]) for v, _ in values)
    unit = max(cell_len(u) for _, u in [*values, ("", words.unit)])
    name = min(STEP_CELLS, max(cell_len(step.step) for step in steps))
    value = whole + after
    source = width - name - value - unit - 5
    lines: list[Line] = [
        (
            Span(f" {fit(words.step, name)} {figure(words.value, whole)}", "faint"),
            Span(" " * after + f" {fit(words.unit, unit)}  {words.source}", "faint"),
        )
    ]
    for step, (number, its_unit) in zip(steps, values, strict=True):
        head, point, tail = number.partition(".")
        aligned = figure(head, whole) + (point + tail).ljust(after)
        names, sources = wrap(step.step, name), wrap(step.source, source)
        for y in range(max(len(names), len(sources))):
            first = y == 0
            lines.append(
                (
                    Span(f" {fit(names[y] if y < len(names) else '', name)} "),
                    Span(aligned if first else " " * value, "strong"),
                    Span(f" {fit(its_unit if first else '', unit)}  "),
                    Span(sources[y] if y < len(sources) else "", "faint"),
                )
            )
    return [*lines, BLANK]


def shown(step: Step) -> tuple[str, str]:
    """The value in plain notation and its unit; fractions as percentages."""
    if step.unit == "fraction":
        return _plain(step.value * 100), "%"
    return _plain(step.value), step.unit


def _plain(value: float) -> str:
    """Five significant digits, never in scientific form, no trailing zeros."""
    text = format(Decimal(f"{value:.{SIGNIFICANT}g}"), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
