"""Help: the keys, what can be typed, and the cautions of the trade."""

from __future__ import annotations

from core.entry.words import BENCH_GRAMMAR, GRAMMAR
from floor.looks.spans import BLANK, Line, Span, fit, wrap
from floor.looks.words import Words
from floor.widgets.page import Page

KEY_CELLS = 17
EXAMPLE_CELLS = 26


class HelpPage(Page):
    """One page of everything; the same for every house, in its language."""

    def written(self, width: int, height: int) -> list[Line]:
        return help_lines(width, self.floor.words, one_bench=self.floor.desk.only is not None)


def help_lines(width: int, words: Words, *, one_bench: bool = False) -> list[Line]:
    """Keys first, then the line's grammar, then the cautions.

    A terminal for one bench alone has few of both.
    """
    lines: list[Line] = [(Span(f" {words.keys_title}", "title"),)]
    for key, does in words.bench_keys if one_bench else words.keys:
        lines += _pair(key, does, KEY_CELLS, width)
    lines += [BLANK, (Span(f" {words.line_title}", "title"),)]
    for typed, does in BENCH_GRAMMAR if one_bench else GRAMMAR:
        lines += _pair(words.tell(typed), words.tell(does), EXAMPLE_CELLS, width)
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
