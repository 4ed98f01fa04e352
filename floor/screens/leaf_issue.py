"""The issue sheet on the Leaf page: the house's totals, then bench by bench."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from core.desk.figures import percent, thousands
from core.stock.issue import IssueCell, IssueSheet, IssueTotal
from floor.looks.spans import BLANK, Line, Span, figures, fit, inked, packed, sizes_of
from floor.looks.words import Words

LEAST_CODE = 7
"""Cells of a code that is shortened, at least."""


def issue_lines(sheet: IssueSheet, width: int, words: Words) -> list[Line]:
    """Nothing where no bench has a quota."""
    if not sheet.rows:
        return []
    loss = words.no_loss
    if sheet.loss_allowance:
        loss = words.allowed_loss.format(share=percent(sheet.loss_allowance))
    lines: list[Line] = [BLANK, (Span(f" {words.issue_title}", "title"),)]
    lines += [(Span(" "), *row) for row in inked(loss, width - 2, "faint")]
    lines += _totals(sheet.totals, width, words)
    lines.append(BLANK)
    for row in sheet.rows:
        who = " ".join(p for p in (row.buncher, row.vitola, thousands(row.quota)) if p)
        label = f"{words.bench} {row.bench} {who}"
        cells = packed([_cell(cell, words) for cell in row.cells], width - 4)
        lines += [(Span(" "), *part) for part in inked(label, width - 2, "strong")]
        lines += [(Span("   "), *part) for text in cells for part in inked(text, width - 4)]
    if sheet.left_out:
        text = words.no_plan.format(benches=", ".join(sheet.left_out))
        lines += [BLANK, *((Span(" "), *row) for row in inked(text, width - 2, "faint"))]
    return lines


def _totals(totals: Sequence[IssueTotal], width: int, words: Words) -> list[Line]:
    """A row a leaf. Its class is whole and its code as far as there is room: where that is less
    than tells it from another, it stands above its figures.
    """
    rows = [words.issue_columns, *map(_figures, totals)]
    sizes = sizes_of(rows)
    head, *body = (figures(row, sizes) for row in rows)
    classes = [words.class_of(total.leaf_class) for total in totals]
    longest = max(map(cell_len, classes))
    code = max(map(cell_len, (words.leaf, *(total.leaf for total in totals))))
    room = width - 3 - longest - cell_len(head)
    above = room < min(code, LEAST_CODE)
    name = code if above else min(code, room)
    margin = " " * (width - 1 - cell_len(head) if above else name + longest + 2)
    head_label = f" {fit(words.leaf, len(margin) - 1)}"
    lines: list[Line] = [(Span(f"{head_label}{head}", "faint"),)]
    for total, of, row in zip(totals, classes, body, strict=True):
        label = Span(f" {fit(total.leaf, name)} {fit(of, longest)}", "strong")
        told = Span(row, "wrong" if total.short_g else "plain")
        lines += [(label,), (Span(margin), told)] if above else [(label, told)]
    return lines


def _figures(total: IssueTotal) -> tuple[str, ...]:
    return (
        thousands(total.grams),
        "" if total.pieces is None else thousands(total.pieces),
        "" if total.on_hand_g is None else thousands(total.on_hand_g),
        thousands(total.short_g) if total.short_g else "",
    )


def _cell(cell: IssueCell, words: Words) -> str:
    """One leaf for a bench: grams, pieces of a cover, the lots it comes from."""
    text = f"{cell.leaf} {thousands(cell.grams)} g"
    if cell.pieces is not None:
        text += f" = {words.pieces_short.format(n=thousands(cell.pieces))}"
    named = [part for part in cell.lots if part.lot is not None]
    if len(named) == 1 == len(cell.lots):
        return f"{text} ({named[0].lot})"
    lots = [f"{part.lot} {thousands(part.grams)}" for part in named]
    return f"{text} ({' + '.join(lots)})" if lots else text
