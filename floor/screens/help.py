"""Help: the keys, what can be typed, and the cautions of the trade."""

from __future__ import annotations

from core.entry.words import GRAMMAR
from floor.looks.spans import BLANK, Line, Span, fit, wrap
from floor.looks.words import Words
from floor.widgets.page import Page

KEY_CELLS = 17
EXAMPLE_CELLS = 26


class HelpPage(Page):
    """One page of everything; the same for every house, in its language."""

    def written(self, width: int, height: int) -> list[Line]:
        return help_lines(width, self.floor.words)


def help_lines(width: int, words: Words) -> list[Line]:
    """Keys first, then the line's grammar, then the cautions."""
    lines: list[Line] = [(Span(f" {words.keys_title}", "title"),)]
    for key, does in words.keys:
        lines += _pair(key, does, KEY_CELLS, width)
    lines += [BLANK, (Span(f" {words.line_title}", "title"),)]
    for typed, does in GRAMMAR:
        lines += _pair(typed, does, EXAMPLE_CELLS, width)
    lines += [BLANK, (Span(f" {words.cautions_title}", "title"),)]
    for caution in words.cautions:
        first, *rest = wrap(caution, width - 5)
        lines.append((Span(" · "), Span(first)))
        lines += [(Span("   "), Span(text)) for text in rest]
    return lines


def _pair(left: str, right: str, cells: int, width: int) -> list[Line]:
    rows: list[Line] = []
    for i, text in enumerate(wrap(right, width - cells - 4)):
        rows.append((Span(f" {fit(left if i == 0 else '', cells)}  ", "strong"), Span(text)))
    return rows
