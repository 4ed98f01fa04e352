"""The Panel: does the line still taste alike in every size?"""

from __future__ import annotations

import datetime as dt

from rich.cells import cell_len

from core.desk.dates import short_date
from core.desk.figures import fixed
from core.desk.panel import PanelSheet
from core.house.model import HouseBook
from core.panel.judge import Judged, Size, too_few
from core.panel.session import missing
from core.say import joined, say
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Ink, Line, Span, figure, fit, inked, line, wrap
from floor.looks.words import Words, plural
from floor.widgets.page import Page

NAME_CELLS = 12
MEAN_CELLS, DIFFERENCE_CELLS = 6, 7
MINUS = "−"


class PanelPage(Page):
    """The newest session; what can be added to it is typed on the entry line."""

    def __init__(self) -> None:
        super().__init__(id="panel")

    def written(self, width: int, height: int) -> list[Line]:
        desk, words = self.floor.desk, self.floor.words
        if desk.house is None:
            return no_house(desk, words, width)
        sheet = desk.panel()
        if sheet is None:
            return _taught(desk.house, words, width)
        return panel_lines(sheet, desk.day, width, words)


def _taught(house: HouseBook, words: Words, width: int) -> list[Line]:
    """How to begin, with codes of this house."""
    if len(house.vitola) < 2:
        lacks = say("the house book has one vitola; the panel compares two or more")
        return [BLANK, *_said(words.panel_none, width), BLANK, *_said(words.tell(lacks), width)]
    blend = next(iter(house.blend), "B4")
    codes = [*house.vitola]
    lines: list[Line] = [BLANK, *_said(words.panel_none, width), BLANK]
    for typed, does in zip(words.panel_typed, words.panel_does, strict=True):
        lines += _command(typed, blend, codes, width)
        lines += [(Span("    "), *row) for row in inked(does, width - 5)]
    book = say("book 2, or book 2026-04-20, behind open: the house book the cigars are of")
    lines += [BLANK, *_said(words.tell(book), width, faint=True)]
    return [*lines, *_said(words.panel_fewest, width, faint=True)]


def _command(typed: str, blend: str, codes: list[str], width: int) -> list[Line]:
    """A line to type, whole: with the shortest codes where it is long, then on more rows."""
    told = typed.format(blend=blend, sizes=",".join(codes[:2]))
    if cell_len(told) > width - 3:
        told = typed.format(blend=blend, sizes=",".join(sorted(codes, key=len)[:2]))
    return [
        line((" " * (6 if y else 2) + row, "strong")) for y, row in enumerate(wrap(told, width - 7))
    ]


def panel_lines(sheet: PanelSheet, today: dt.date, width: int, words: Words) -> list[Line]:
    """The verdict on the line, the means by size and trait, then each trait in words."""
    session = sheet.session
    date = words.tell(short_date(session.at, today))
    head = words.panel_of.format(blend=session.blend, date=date, house=session.house)
    tasters = plural(words.panel_tasters, len(session.tasters))
    lines = _said(f"{head} · {tasters}", width, faint=True)
    if session.hidden:
        lines += _said(words.panel_hidden, width)
    elif session.blind:
        codes = ", ".join(f"{code} {vitola}" for code, vitola in session.codes.items())
        lines += _said(words.panel_codes.format(codes=codes), width, faint=True)
    if not session.hidden:
        lines += [(Span(" "), *row) for row in inked(_whole(sheet, words), width - 2, "strong")]
    lines += [BLANK, *_table(sheet.traits, width, words)]
    if session.hidden and (lacking := missing(session)):
        says = say("not scored yet: {scores}", scores=joined("; ", lacking))
        lines += _said(words.tell(says), width, faint=True)
    if not session.hidden:
        marks = words.panel_marks.format(chosen=session.chosen)
        lines += [*_said(marks, width, faint=True), BLANK]
        for trait in sheet.traits:
            lines += _judged(trait, session.chosen, width, words)
    for note in session.notes:
        lines += _said(words.note.format(note=note.text), width)
    return lines


def _whole(sheet: PanelSheet, words: Words) -> str:
    """All traits in one sentence."""
    unlike = [t.trait for t in sheet.traits if t.verdict in ("apart", "differ")]
    if unlike:
        named = ", ".join(words.panel_traits.get(trait, trait) for trait in unlike)
        return words.panel_unlike.format(traits=named)
    told = any(trait.verdict == "no difference" for trait in sheet.traits)
    return words.panel_alike if told else words.panel_unjudged


def _table(traits: tuple[Judged, ...], width: int, words: Words) -> list[Line]:
    """A row a size, a column a trait; where it is narrow the differences are left out."""
    least = MEAN_CELLS + DIFFERENCE_CELLS + 1
    wide = NAME_CELLS + 2 + least * len(traits) <= width
    cells = least if wide else max(MEAN_CELLS + 2, (width - NAME_CELLS - 2) // len(traits))
    names = (words.panel_traits.get(t.trait, t.trait) for t in traits)
    head = " " * (NAME_CELLS + 1) + "".join(fit(f" {name}", cells, "right") for name in names)
    lines: list[Line] = [(Span(head, "faint"),)]
    for row in zip(*(t.sizes for t in traits), strict=True):
        texts = []
        for trait, size in zip(traits, row, strict=True):
            mark = "*" if size.vitola in trait.apart else " "
            texts.append(figure(_cell(size, wide=wide), cells - 1) + mark)
        name = Span(f" {fit(row[0].vitola, NAME_CELLS)}", "strong")
        lines.append((name, Span("".join(texts))))
    return lines


def _cell(size: Size, *, wide: bool) -> str:
    mean = "" if size.mean is None else fixed(size.mean, 1)
    if not wide:
        return mean
    told = "" if size.difference is None else _signed(size.difference.mean)
    return figure(mean, MEAN_CELLS) + figure(told, DIFFERENCE_CELLS)


def _signed(value: float) -> str:
    """With its sign, a true minus; a rounded nothing has none."""
    text = fixed(value, 1)
    return f"{MINUS}{text[1:]}" if text.startswith("-") else text if text == "0.0" else f"+{text}"


def _judged(trait: Judged, chosen: str, width: int, words: Words) -> list[Line]:
    """The trait's verdict, then what it rests on."""
    name = words.panel_traits.get(trait.trait, trait.trait)
    ink: Ink = "wrong" if trait.verdict in ("apart", "differ") else "plain"
    says = _verdict(trait, chosen, words)
    label = Span(f" {fit(name, NAME_CELLS)}", "strong")
    margin = Span(" " * (NAME_CELLS + 1))
    texts = inked(says, width - NAME_CELLS - 2, ink)
    if trait.test is not None:
        texts += inked(_rests(trait, words), width - NAME_CELLS - 2, "faint")
    if trait.left_out:
        left = words.panel_left_out.format(tasters=", ".join(trait.left_out))
        texts += inked(left, width - NAME_CELLS - 2, "faint")
    return [(margin if i else label, *text) for i, text in enumerate(texts)]


def _verdict(trait: Judged, chosen: str, words: Words) -> str:
    if trait.verdict == "no difference":
        return words.panel_no_difference
    if trait.verdict == "differ":
        return words.panel_differ.format(chosen=chosen)
    if trait.verdict != "apart":
        return words.tell(too_few(len(trait.tasters), len(trait.sizes)))
    form = words.panel_apart[0 if len(trait.apart) == 1 else 1]
    told = [
        _by(size, words, named=len(trait.apart) > 1)
        for size in trait.sizes
        if size.vitola in trait.apart
    ]
    return f"{form.format(sizes=', '.join(trait.apart), chosen=chosen)}: {'; '.join(told)}"


def _by(size: Size, words: Words, *, named: bool) -> str:
    """How far a size stands apart, with the interval of it."""
    found = size.difference
    if found is None or found.low is None or found.high is None:
        return size.vitola
    return words.panel_by.format(
        size=f"{size.vitola} " if named else "",
        mean=_signed(found.mean),
        low=_signed(found.low),
        high=_signed(found.high),
    )


def _rests(trait: Judged, words: Words) -> str:
    test = trait.test
    if test is None:
        return ""
    return words.panel_test.format(
        tasters=plural(words.panel_tasters, len(trait.tasters)),
        chi2=fixed(test.chi2, 2),
        p=fixed(test.p, 3),
        by=words.panel_exact if test.exact else words.panel_chi2,
        w=fixed(test.w, 2),
    )


def _said(text: str, width: int, *, faint: bool = False) -> list[Line]:
    return [(Span(" "), *row) for row in inked(text, width - 2, "faint" if faint else "plain")]
