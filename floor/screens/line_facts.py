"""What stands below the line sheet: pieces, what the law rests on, what earns most, notes."""

from __future__ import annotations

from collections.abc import Sequence

from core.desk.figures import fixed, percent
from core.line.earning import Earning
from core.line.sheet import LineRow, LineSheet
from core.recipe.influence import Influence
from floor.looks.spans import BLANK, Line, Span, figure, fit, inked
from floor.looks.words import Words, plural

NAME_CELLS = 11
PIECES_CELLS = 13
EARNING_CELLS = (9, 11, 9, 7, 11, 12)


def told(text: str, width: int, *, faint: bool = False) -> list[Line]:
    """A sentence on as many lines as it needs."""
    return [(Span(" "), *row) for row in inked(text, width - 2, "faint" if faint else "plain")]


def title(text: str) -> list[Line]:
    """A part's heading, apart from what is above."""
    return [BLANK, (Span(f" {text}", "title"),)]


def pieces_lines(
    sheet: LineSheet, changed: LineSheet | None, places: int, width: int, words: Words
) -> list[Line]:
    """Each class in each vitola, in laying order, and below what `changed` has otherwise."""
    lines = title(words.line_pieces)
    sheets = [sheet] if changed is None else [sheet, changed]
    rows = [{row.vitola: _pieces(row, places) for row in each.vitolas} for each in sheets]
    leaves = list(dict.fromkeys(leaf for each in rows for of in each.values() for leaf in of))
    a_row = max(1, (width - NAME_CELLS - 1) // PIECES_CELLS)
    for first in range(0, len(leaves), a_row):
        some = leaves[first : first + a_row]
        head = "".join(fit(leaf, PIECES_CELLS, "right") for leaf in some)
        lines.append((Span(f" {fit(words.vitola, NAME_CELLS)}{head}", "faint"),))
        for vitola, cells in rows[0].items():
            lines.append(_pieces_row(vitola, [cells.get(leaf, "") for leaf in some]))
            would = rows[-1].get(vitola, cells)
            differs = [
                "" if would.get(leaf) == cells.get(leaf) else would.get(leaf, "-") for leaf in some
            ]
            if any(differs):
                lines.append(_pieces_row(" ▸", differs))
    return lines


def _pieces(row: LineRow, places: int) -> dict[str, str]:
    return {
        each.leaf: f"{fixed(each.standard_g, places + 1)} = {each.pieces}" for each in row.classes
    }


def _pieces_row(name: str, texts: Sequence[str]) -> Line:
    cells = "".join(figure(text, PIECES_CELLS) for text in texts)
    return (Span(f" {fit(name, NAME_CELLS)}", "strong"), Span(cells))


def influence_lines(
    found: Sequence[Influence], p: float, places: int, width: int, words: Words
) -> list[Line]:
    """What each approved entry adds to the law, in words."""
    if not found:
        return []
    lines = title(words.line_rests)
    for each in found:
        lines += told(_influence(each, p, places, words), width)
    return lines


def _influence(found: Influence, p: float, places: int, words: Words) -> str:
    over, under = words.line_off
    said = words.line_approved.format(
        vitola=found.vitola,
        bunches=plural(words.line_bunches, found.bunches),
        off=(over if found.off >= 0 else under).format(off=percent(abs(found.off))),
        pull=fixed(found.hat, 2),
    )
    if found.p_without is None or found.law_g_without is None:
        return f"{said}; {words.line_own}"
    law, without = fixed(found.law_g, places + 1), fixed(found.law_g_without, places + 1)
    there = words.line_becomes.format(before=fixed(p, 2), after=fixed(found.p_without, 2))
    said += "; " + words.line_without.format(p=there, law=law, without=without)
    return f"{said}; {words.line_decides}" if found.decides else said


def earning_lines(sheet: LineSheet, width: int, words: Words) -> list[Line]:
    """The vitolas by what they leave for a bench's time, the most first."""
    if not sheet.earnings:
        return []
    hourly = sheet.earnings[0].per_bench_hour is not None
    cells = list(EARNING_CELLS)
    names = list(words.line_earning)
    left_out = 4 if hourly else 5
    del cells[left_out], names[left_out]
    head = "".join(fit(name, cell, "right") for name, cell in zip(names, cells, strict=True))
    lines = title(words.line_earns)
    lines.append((Span(f" {fit(words.vitola, NAME_CELLS)}{head}", "faint"),))
    costs = {row.vitola: row.cost for row in sheet.vitolas}
    for each in sheet.earnings:
        cost = costs[each.vitola]
        texts = (*map(_money, (cost.price, cost.price_by_filler)), *_earned(each))
        row = "".join(figure(text, cell) for text, cell in zip(texts, cells, strict=True))
        lines.append((Span(f" {fit(each.vitola, NAME_CELLS)}", "strong"), Span(row)))
    key = words.line_by_filler.format(reference=sheet.reference)
    return [*lines, *told(key, width, faint=True)]


def _earned(each: Earning) -> tuple[str, str, str]:
    time = each.per_bench_day if each.per_bench_hour is None else each.per_bench_hour
    return _money(each.per_1000), fixed(each.pieces_a_day, 0), _money(time)


def _money(value: float | None) -> str:
    return "" if value is None else fixed(value, 2)


def note_lines(sheet: LineSheet, width: int, words: Words) -> list[Line]:
    """What the cost counts and leaves out, and what cannot be rolled."""
    texts: list[str] = []
    if sheet.loss is not None:
        share = percent(sheet.loss.leaf_yield)
        texts.append(words.line_loss[sheet.loss.source].format(share=share))
    if any(row.cost.excise is not None for row in sheet.vitolas):
        texts.append(words.line_excise)
    left = {name for row in sheet.vitolas for name in row.cost.left_out}
    if left:
        names = ", ".join(words.line_cost_names[name] for name in sorted(left))
        texts.append(words.line_costless.format(names=names))
    texts += [words.line_left_out.format(why=words.tell(it.said)) for it in sheet.problems]
    texts += map(words.tell, sheet.law.warnings)
    return [BLANK, *(row for text in texts for row in told(text, width))] if texts else []
