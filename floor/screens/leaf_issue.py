"""The issue sheet on the Leaf page: the house's totals, then bench by bench."""

from __future__ import annotations

from core.desk.figures import percent, thousands
from core.stock.issue import IssueCell, IssueSheet, IssueTotal
from floor.looks.spans import BLANK, Line, Span, figure, fit, inked, packed
from floor.looks.words import Words

NAME = 8
CLASS_CELLS = 11
CELLS = (10, 8, 11, 9)
"""Cells of grams, pieces, on hand, short."""


def issue_lines(sheet: IssueSheet, width: int, words: Words) -> list[Line]:
    """Nothing where no bench has a quota."""
    if not sheet.rows:
        return []
    loss = words.no_loss
    if sheet.loss_allowance:
        loss = words.allowed_loss.format(share=percent(sheet.loss_allowance))
    lines: list[Line] = [BLANK, (Span(f" {words.issue_title}", "title"),)]
    lines += [(Span(" "), *row) for row in inked(loss, width - 2, "faint")]
    heads = zip(words.issue_columns, CELLS, strict=True)
    head = "".join(figure(text, n) for text, n in heads)
    lines.append((Span(f" {fit(words.leaf, NAME)} {' ' * CLASS_CELLS}{head}", "faint"),))
    lines += [_total(total, words) for total in sheet.totals]
    lines.append(BLANK)
    for row in sheet.rows:
        who = " ".join(p for p in (row.buncher, row.vitola, thousands(row.quota)) if p)
        label = f" {words.bench} {row.bench} {who}  "
        cells = packed([_cell(cell, words) for cell in row.cells], width - 4)
        lines.append((Span(label, "strong"),))
        lines += [(Span("   "), Span(text)) for text in cells]
    if sheet.left_out:
        text = words.no_plan.format(benches=", ".join(sheet.left_out))
        lines += [BLANK, *((Span(" "), *row) for row in inked(text, width - 2, "faint"))]
    return lines


def _total(total: IssueTotal, words: Words) -> Line:
    figures = (
        thousands(total.grams),
        "" if total.pieces is None else thousands(total.pieces),
        "" if total.on_hand_g is None else thousands(total.on_hand_g),
        thousands(total.short_g) if total.short_g else "",
    )
    cells = "".join(figure(text, n) for text, n in zip(figures, CELLS, strict=True))
    label = f" {fit(total.leaf, NAME)} {fit(words.class_of(total.leaf_class), CLASS_CELLS)}"
    return (Span(label, "strong"), Span(cells, "wrong" if total.short_g else "plain"))


def _cell(cell: IssueCell, words: Words) -> str:
    """One leaf for a bench: grams, pieces of a cover, the lots it comes from."""
    text = f"{cell.leaf} {thousands(cell.grams)} g"
    if cell.pieces is not None:
        text += f" = {words.pieces_short.format(n=cell.pieces)}"
    named = [part for part in cell.lots if part.lot is not None]
    if len(named) == 1 == len(cell.lots):
        return f"{text} ({named[0].lot})"
    lots = [f"{part.lot} {thousands(part.grams)}" for part in named]
    return f"{text} ({' + '.join(lots)})" if lots else text
