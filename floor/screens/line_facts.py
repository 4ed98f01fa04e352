"""What stands below the line sheet: pieces, what the law rests on, what earns most, notes."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from core.desk.figures import fixed, percent
from core.line.earning import Earning
from core.line.sheet import LineRow, LineSheet
from core.recipe.influence import Influence
from floor.looks.spans import BLANK, Line, Span, figures, fit, inked, sizes_of
from floor.looks.words import Words, plural

NAME_CELLS = 11
PIECES_CELLS = 13
LEAST_NAME = 8
GAP = 2
BY_FILLER = 1
"""The column that goes where there is no room for all."""


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
    texts = [text for each in rows for of in each.values() for text in of.values()]
    cell = max(PIECES_CELLS, *(cell_len(text) + GAP for text in ("", *texts)))
    a_row = max(1, (width - NAME_CELLS - 1) // cell)
    for first in range(0, len(leaves), a_row):
        some = leaves[first : first + a_row]
        head = "".join(" " * GAP + fit(leaf, cell - GAP, "right") for leaf in some)
        lines.append((Span(f" {fit(words.vitola, NAME_CELLS)}{head}", "faint"),))
        for vitola, cells in rows[0].items():
            lines.append(_pieces_row(vitola, [cells.get(leaf, "") for leaf in some], cell))
            would = rows[-1].get(vitola, cells)
            differs = [
                "" if would.get(leaf) == cells.get(leaf) else would.get(leaf, "-") for leaf in some
            ]
            if any(differs):
                lines.append(_pieces_row(" ▸", differs, cell))
    return lines


def _pieces(row: LineRow, places: int) -> dict[str, str]:
    return {
        each.leaf: f"{fixed(each.standard_g, places + 1)} = {each.pieces}" for each in row.classes
    }


def _pieces_row(name: str, texts: Sequence[str], cell: int) -> Line:
    cells = figures(texts, [cell - GAP] * len(texts), GAP)
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
    names = list(words.line_earning)
    del names[4 if hourly else 5]
    costs = {row.vitola: row.cost for row in sheet.vitolas}
    rows = [tuple(names)]
    for each in sheet.earnings:
        cost = costs[each.vitola]
        rows.append((*map(_money, (cost.price, cost.price_by_filler)), *_earned(each)))
    codes = [words.vitola, *(each.vitola for each in sheet.earnings)]
    longest = max(map(cell_len, codes))
    by_filler = _name_room(rows, width) >= min(LEAST_NAME, longest)
    if not by_filler:
        rows = [(*row[:BY_FILLER], *row[BY_FILLER + 1 :]) for row in rows]
    sizes = sizes_of(rows)
    name = min(max(NAME_CELLS, longest), max(LEAST_NAME, _name_room(rows, width)))
    head, *body = (figures(row, sizes, GAP) for row in rows)
    lines = title(words.line_earns)
    lines.append((Span(f" {fit(words.vitola, name)}{head}", "faint"),))
    for code, row in zip(codes[1:], body, strict=True):
        lines.append((Span(f" {fit(code, name)}", "strong"), Span(row)))
    if not by_filler:
        return lines
    key = words.line_by_filler.format(reference=sheet.reference)
    return [*lines, *told(key, width, faint=True)]


def _name_room(rows: Sequence[Sequence[str]], width: int) -> int:
    return width - 2 - sum(size + GAP for size in sizes_of(rows))


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
