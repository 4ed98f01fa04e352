"""The Card to be read from two metres: what goes on the scale, its target, the last verdict."""

from __future__ import annotations

from collections.abc import Sequence

from core.desk.figures import fixed
from floor.looks.figures import ROWS
from floor.looks.letters import big_word
from floor.looks.spans import BLANK, Line, Span, fit, packed
from floor.screens.board_rows import STATE_INKS
from floor.screens.card_figures import UNIT, Portion, drawn, largest
from floor.screens.card_view import CardView, batch_lines
from floor.screens.check_view import checks_block, judged, placed

WORD_ROWS = ROWS + 1
"""Of the verdict in large letters, with a blank row above it."""


def large_lines(view: CardView, width: int, height: int) -> list[Line]:
    """The figures as large as they can be in `height` rows, the verdict below them.

    Where there is not room for all of them the binder and the bunch are told in a line, and
    where there is none for the classes either, everything is in plain lines.
    """
    classes, others = _classes(view), _others(view)
    told = [*batch_lines(view, width), *_verdict(view, width)]
    word = _verdict_word(view, width)
    for shown, left in (((*classes, *others), ()), (classes, others)):
        below = [*_in_words(left, width), *told]
        for large in [word, []] if word else [[]]:
            rows = len(below) + (WORD_ROWS if large else 0)
            look = largest(shown, width, height - rows)
            if look is not None:
                lines = [*drawn(shown, look, width), *([BLANK, *large] if large else [])]
                gap = [BLANK] if len(lines) + len(below) < height else []
                return [*lines, *gap, *below]
    return [*_plain((*classes, *others), width), BLANK, *told]


def _classes(view: CardView) -> tuple[Portion, ...]:
    """Each class of the filler, in laying order."""
    return tuple(
        Portion(row.leaf_class, row.leaf, fixed(row.g, view.places)) for row in view.card.classes
    )


def _others(view: CardView) -> tuple[Portion, ...]:
    """The binder, and the target of the bunch that it makes with the filler."""
    binder, bunch, words = view.card.binder, view.card.targets["bunch"], view.words
    return (
        Portion(words.binder, binder.leaf, fixed(binder.today_g, view.places)),
        Portion(words.bunch, words.target, fixed(bunch.target_g, view.places)),
    )


def _in_words(portions: Sequence[Portion], width: int) -> list[Line]:
    """The figures in a line, or in as many as they need."""
    told = [f"{each.name} {each.code} {each.figure}{UNIT}" for each in portions]
    return [(Span(f" {row}", "strong"),) for row in packed(told, width - 2)]


def _plain(portions: Sequence[Portion], width: int) -> list[Line]:
    """A row each, where the terminal is too small for so many large figures."""
    figures = max(len(each.figure) for each in portions)
    names = [f"{each.name} {each.code}" for each in portions]
    cells = min(max(map(len, names)), width - figures - len(UNIT) - 4)
    return [
        (Span(f" {fit(name, cells)}  "), Span(f"{each.figure:>{figures}}{UNIT}", "strong"))
        for name, each in zip(names, portions, strict=True)
    ]


def _verdict(view: CardView, width: int) -> list[Line]:
    """The last check in a line; where there is none, the open one, or how to make one."""
    if view.recent:
        return [(Span(" "), *judged(view.recent[-1], view.division_g, view.words))]
    rows = checks_block(view.open, (), view.division_g, width - 2, view.words)
    return [(Span(" "), *row) for row in (rows[:1] if view.open else rows)]


def _verdict_word(view: CardView, width: int) -> list[Line]:
    """How the last check was, in large letters."""
    last = view.recent[-1] if view.recent else None
    if last is None or last.verdict is None:
        return []
    state: str = last.verdict.mean_place
    if state == "within" and last.verdict.state == "out":
        state = "mixed"
    word = placed(state, last, view.words)
    return [(Span(" "), *row) for row in big_word(word, width - 2, STATE_INKS[state])]
