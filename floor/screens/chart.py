"""The Chart: is this bench drifting?"""

from __future__ import annotations

from typing import get_args

from core.measure import Measure
from core.problems import BadInput
from floor.looks.missing import no_card, no_house
from floor.looks.spans import Line
from floor.screens.chart_view import chart_lines
from floor.widgets.page import Page


class ChartPage(Page):
    """The control chart of the bench the floor stands at, of the measure asked for."""

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        desk, words, number = floor.desk, floor.words, floor.bench
        if desk.house is None or number is None:
            return no_house(desk, words, width)
        try:
            chart = desk.chart(number, _measure(floor.place.words))
        except BadInput as missing:
            return no_card(missing, words.cannot_roll.format(bench=number), width, words)
        return chart_lines(chart, desk.open_check(number), words, width, height)


def _measure(words: str) -> Measure | None:
    """The measure named, None for the bench's usual one."""
    measures: tuple[Measure, ...] = get_args(Measure)
    return next((measure for measure in measures if measure == words), None)
