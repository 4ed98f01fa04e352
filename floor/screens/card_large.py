"""The Card to be read from two metres: what goes on the scale, its target, the last verdict."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from core.checks import called
from core.desk.figures import fixed
from floor.looks.letters import big_word
from floor.looks.spans import BLANK, Line, Span, fit, inked, packed
from floor.screens.board_rows import STATE_INKS
from floor.screens.card_figures import CORNER, UNIT, Portion, drawn, largest
from floor.screens.card_view import CardView, batch_lines
from floor.screens.check_view import checks_block, judged, opened, placed


def large_lines(view: CardView, width: int, height: int, steady: int) -> list[Line]:
    """The figures as large as they can be in `steady` rows, the verdict below them.

    `steady` are the rows there are whatever the entry line says, as a rule: so the figures stay
    as they are while `height` changes. What is told in a line parts them from the verdict's
    large letters. Where there is not room for all of them the binder and the bunch are told in
    a line, and where there is none for the classes either, everything is in plain lines.
    """
    classes, others = _classes(view), _others(view)
    every = (*classes, *others)
    batch, verdict = batch_lines(view, width), _verdict(view, width)
    word = _verdict_word(view, width)
    for shown, left in ((every, ()), (classes, others)):
        below = [*_in_words(left, width), *batch]
        for told in (word, []) if word else ([],):
            rest = [*below, *verdict, *told]
            look = largest(shown, width, steady - len(rest))
            if look is not None:
                lines = drawn(shown, look, width)
                gap = [BLANK] if len(lines) + len(rest) < steady else []
                return [*lines, *gap, *rest]
    return _crowded(view, width, height, steady) or [
        *_plain(every, width),
        BLANK,
        *batch,
        *verdict,
    ]


def _crowded(view: CardView, width: int, height: int, steady: int) -> list[Line]:
    """The figures where the verdict's line has only the row that `height` may leave; the binder
    and the bunch beside the last of them where they must. Nothing where not even that fits.
    """
    classes, others = _classes(view), _others(view)
    batch, verdict = batch_lines(view, width), _verdict(view, width)
    for shown, left in (((*classes, *others), ()), (classes, others)):
        corner = [row for each in left for row in inked(_told(each), CORNER, "strong")]
        look = largest(shown, width, steady - len(batch), len(corner))
        if look is not None:
            lines = [*drawn(shown, look, width, corner), *batch]
            return [*lines, *(verdict if len(lines) + len(verdict) <= height else [])]
    return []


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
    return [(Span(f" {row}", "strong"),) for row in packed([*map(_told, portions)], width - 2)]


def _told(portion: Portion) -> str:
    return f"{portion.name} {portion.code} {portion.figure}{UNIT}"


def _plain(portions: Sequence[Portion], width: int) -> list[Line]:
    """A row each, where the terminal is too small for so many large figures."""
    figures = max(len(each.figure) for each in portions)
    names = [f"{each.name} {each.code}" for each in portions]
    cells = min(max(map(cell_len, names)), width - figures - len(UNIT) - 4)
    return [
        (Span(f" {fit(name, cells)}  "), Span(f"{each.figure:>{figures}}{UNIT}", "strong"))
        for name, each in zip(names, portions, strict=True)
    ]


def _verdict(view: CardView, width: int) -> list[Line]:
    """The last check in a line; where there is none, the open one, or how to make one."""
    if view.recent:
        rows = judged(view.recent[-1], view.division_g, width - 2, view.words)
    elif view.open:
        rows = opened(view.open, view.division_g, width - 2, view.words)
    else:
        rows = checks_block(None, (), view.division_g, width - 2, view.words)
    return [(Span(" "), *row) for row in rows]


def _verdict_word(view: CardView, width: int) -> list[Line]:
    """How the last check was, in large letters."""
    last = view.recent[-1] if view.recent else None
    if last is None or last.verdict is None:
        return []
    state = called(last.verdict.mean_place, out=last.verdict.state == "out")
    word = placed(state, last, view.words)
    return [(Span(" "), *row) for row in big_word(word, width - 2, STATE_INKS[state])]
