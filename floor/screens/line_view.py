"""The Line as lines: the sheet, what is tried, the picture, and what they rest on."""

from __future__ import annotations

from core.desk.figures import decimals, fixed
from core.desk.line import LineShown
from core.house.model import HouseBook
from core.line.new_parts import NewParts, NoParts
from core.line.plan import Plan
from core.line.sheet import LineSheet
from core.line.whatif import WhatIf
from core.problems import BadInput
from core.say import joined, say
from core.sketch.filler import FillerPicture
from floor.looks.spans import BLANK, Line, Span, beside, inked, packed
from floor.looks.words import Words, plural
from floor.screens.line_facts import (
    earning_lines,
    influence_lines,
    note_lines,
    pieces_lines,
    told,
)
from floor.screens.line_plot import filler_plot
from floor.screens.line_table import key_lines, table_lines

WIDE = 132
"""Cells from which the picture stands beside the sheet."""
PICTURE = (50, 14)
"""Cells of the picture beside the sheet, across and down."""
ROWS = 14
MOST_ACROSS = 100
GAP = 2


def line_lines(shown: LineShown, house: HouseBook, words: Words, width: int) -> list[Line]:
    """The page of a blend; `house` is the house book in force."""
    sheet, places = shown.sheet, decimals(house.house.scale_division_g)
    lines = [*_head(sheet, words, width), *_tried(shown, words, width)]
    wide = width >= WIDE
    left = width - PICTURE[0] - 2 * GAP if wide else width
    table = table_lines(sheet, shown.tried, places, left, words)
    table += key_lines(sheet.reference, left, words)
    if wide:
        drawn = _picture(shown, PICTURE, words)
        lines += beside([table, drawn], [left, PICTURE[0]], GAP)
    else:
        across = min(width - 1, MOST_ACROSS)
        lines += [*table, BLANK, *_picture(shown, (across, ROWS), words)]
    changed = None if shown.tried is None else shown.tried.changed
    lines += pieces_lines(sheet, changed, places, width, words)
    lines += influence_lines(shown.influence, sheet.law.p, places, width, words)
    lines += earning_lines(sheet, width, words)
    lines += note_lines(sheet, width, words)
    return [*lines, *_how(sheet, words, width)]


def _head(sheet: LineSheet, words: Words, width: int) -> list[Line]:
    p = fixed(sheet.law.p, 2)
    parts = [words.blend.format(blend=sheet.blend)]
    if sheet.strength is not None:
        parts.append(words.line_strength.format(strength=fixed(sheet.strength, 2)))
    if sheet.law.entries:
        entries = plural(words.line_entries, sheet.law.entries)
        parts.append(words.line_packing.format(p=p, entries=entries))
    else:
        parts.append(words.line_assumed.format(p=p))
    return [(Span(f" {row}", "strong"),) for row in packed(parts, width - 2)]


def _picture(shown: LineShown, size: tuple[int, int], words: Words) -> list[Line]:
    picture, length_mm = shown.drawn
    band = words.line_band if picture.has_band else ""
    name = words.line_picture.format(length=fixed(length_mm, 1))
    tried = map(words.tell, _marks_tried(picture))
    return [
        *told(name, size[0]),
        *filler_plot(picture, size),
        *told(words.line_marks.format(band=band), size[0], faint=True),
        *(row for text in tried for row in told(text, size[0], faint=True)),
    ]


def _marks_tried(picture: FillerPicture) -> list[str]:
    """What the marks of what is tried mean, and which sizes they stand for."""
    texts: list[str] = []
    if picture.tried_spots:
        names = joined(", ", (spot.name for spot in picture.tried_spots))
        texts.append(say("▲ as tried: {sizes}", sizes=names))
    if picture.tried:
        texts.append(say("─ the law for the length tried"))
    return texts


# -- what is tried ----------------------------------------------------------------------------


def _tried(shown: LineShown, words: Words, width: int) -> list[Line]:
    trial = shown.trial
    texts: list[str] = []
    if trial is None:
        texts = _of_stock(shown, words)
        rows = (row for text in packed(texts, width - 2) for row in inked(text, width - 2, "plain"))
        return [(Span(" "), *row) for row in rows]
    leaf = ", ".join(trial.without)
    if trial.without and shown.found is None:
        texts.append(words.line_seeking.format(leaf=leaf))
    elif shown.found is not None:
        texts += _found(shown.found, leaf, words)
    if trial.changes:
        changes = ", ".join(words.tell(change.said) for change in trial.changes)
        texts.append(words.line_tried.format(changes=changes))
    if shown.tried is not None:
        texts += [*_of_sheet(shown.tried, words), words.line_would]
    if trial.code is not None:
        texts.append(words.tell(say("to be saved as {code}", code=trial.code)))
    texts += [*_of_stock(shown, words), words.line_back]
    rows = (row for text in packed(texts, width - 2) for row in inked(text, width - 2, "mixed"))
    return [(Span(" "), *row) for row in rows]


def _of_stock(shown: LineShown, words: Words) -> list[str]:
    """Of what leaf there is too little for the plan; the plan too, where it was told."""
    trial = shown.trial
    asked = trial is not None and (bool(trial.without) or trial.stock.plan != Plan())
    if shown.plan is None or not (shown.short or asked):
        return []
    return [words.tell(text) for text in (shown.plan, *shown.short)]


def _found(found: NewParts | NoParts | BadInput, leaf: str, words: Words) -> list[str]:
    if isinstance(found, BadInput):
        return [words.tell(found.said)]
    if isinstance(found, NoParts):
        why = (*(bound.says for bound in found.binds), *found.notes)
        return [words.line_no_parts.format(leaf=leaf), *map(words.tell, why)]
    parts = ", ".join(
        f"{part.leaf} "
        + words.line_becomes.format(before=f"{part.before:g}", after=fixed(part.parts, 2))
        for part in found.parts
        if part.parts != part.before
    )
    texts = [words.line_parts.format(leaf=leaf, parts=parts)]
    if found.at_limit:
        limits = ", ".join(map(words.tell, found.at_limit))
        texts.append(words.line_limits.format(limits=limits))
    return [*texts, *map(words.tell, found.notes)]


def _of_sheet(tried: WhatIf, words: Words) -> list[str]:
    """What becomes of the blend's strength, and of sizes that have no bunches of their own."""
    texts: list[str] = []
    before, after = tried.today.strength, tried.changed.strength
    if before is not None and after is not None and fixed(before, 2) != fixed(after, 2):
        texts.append(words.line_moved.format(before=fixed(before, 2), after=fixed(after, 2)))
    resized = [code for code in tried.today.law.approved if code not in tried.changed.law.approved]
    if resized:
        texts.append(words.line_resized.format(vitolas=", ".join(resized)))
    new = [problem for problem in tried.changed.problems if problem not in tried.today.problems]
    left_out = (words.line_left_out.format(why=words.tell(problem.said)) for problem in new)
    return [*texts, *left_out]


def _how(sheet: LineSheet, words: Words, width: int) -> list[Line]:
    """What can be typed, with codes of this house."""
    row = sheet.vitolas[0]
    lines: list[Line] = [BLANK]
    for text in words.line_how:
        filled = text.format(blend=sheet.blend, leaf=row.classes[-1].leaf, vitola=row.vitola)
        lines += told(filled, width, faint=True)
    plan = say("plan=3 or plan=80kg behind it: so much is planned, and must be on hand")
    new = say("as NEW behind a changed size: it is saved as a size of its own, under that code")
    for text in (plan, new):
        lines += told(words.tell(text), width, faint=True)
    return lines
