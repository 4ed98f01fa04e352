"""The Day: what was made, and where the leaf went."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from core.day.report import DayReport
from core.desk.figures import decimals
from floor.looks.language import paper_words
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Line, Span, inked, spread
from floor.looks.words import Words, long_date, plural
from floor.screens.day_benches import out_lines, several_runs, standout_lines
from floor.screens.day_faults import fault_lines
from floor.screens.day_leaf import leaf_lines
from floor.screens.day_output import output_lines, table_lines
from floor.screens.day_split import split_lines
from floor.widgets.page import Page

if TYPE_CHECKING:
    from core.papers.words import Words as Paper


class DayPage(Page):
    """The working day added up, and how to close it."""

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        house = floor.desk.house
        if house is None:
            return no_house(floor.desk, floor.words, width)
        paper = paper_words(floor.words.language, floor.terminal.ascii)
        report = floor.desk.report()
        return day_lines(report, decimals(house.house.scale_division_g), width, floor.words, paper)


def day_lines(report: DayReport, places: int, width: int, words: Words, paper: Paper) -> list[Line]:
    """Output, faults, leaf, benches that stand out, notes; then vitolas and bunchers."""
    if not report.entries and not report.damaged_lines:
        hint = words.first_check.format(bench=report.benches[0].bench if report.benches else 7)
        return [*_state(report, width, words), BLANK, *_indented(hint, width)]
    standing = standout_lines(report, width, words, paper)
    out = out_lines(report, places, width, words)
    nothing = [] if standing or out else _indented(words.none_out, width)
    closed = report.closed
    parts = [
        (words.by_fault, fault_lines(report, width, words, paper)),
        (words.leaf_grams, leaf_lines(report, places, width, words)),
        (words.not_in_good, split_lines(report, width, words, paper)),
        (words.standing_out, standing or nothing),
        (words.benches_out, out),
        (words.notes, _notes(report, width, words)),
        (words.several_runs, several_runs(report, width, words)),
        (words.by_vitola, table_lines(report.by_vitola, closed, width, words)),
        (words.by_buncher, table_lines(report.by_buncher, closed, width, words)),
    ]
    lines = [*_state(report, width, words), *output_lines(report, width, words)]
    if report.damaged_lines:
        damaged = inked(plural(words.damaged, report.damaged_lines), width - 2, "wrong")
        lines += [(Span(" "), *row) for row in damaged]
    for title, body in parts:
        if body:
            lines += [*_titled(title, width), *body]
    return lines


def _state(report: DayReport, width: int, words: Words) -> list[Line]:
    date = long_date(dt.date.fromisoformat(report.date), words)
    state = words.closed if report.closed else words.opened
    hint = "" if report.closed else f"{words.close_hint} "
    left = (Span(f" {date}: "), Span(state, "title"))
    return [spread(left, (Span(hint, "faint"),), width)]


def _titled(title: str, width: int) -> list[Line]:
    return [BLANK, *((Span(" "), *row) for row in inked(title, width - 2, "title"))]


def _indented(text: str, width: int) -> list[Line]:
    return [(Span("  "), *row) for row in inked(text, width - 3)]


def _notes(report: DayReport, width: int, words: Words) -> list[Line]:
    notes = [
        f"{words.bench} {note.bench}: {note.text}" if note.bench is not None else note.text
        for note in report.notes
    ]
    texts = [*notes, *(words.note.format(note=words.tell(warning)) for warning in report.warnings)]
    return [row for text in texts for row in _indented(text, width)]
