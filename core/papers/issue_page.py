"""The issue sheet of a shift as a page: to weigh out by, and to sign by hand."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from core.desk.figures import percent
from core.house.model import Language
from core.papers.blocks import (
    Block,
    ByHand,
    Column,
    Facts,
    Group,
    Grouped,
    Heading,
    Para,
    Table,
)
from core.papers.day_leaf import class_of
from core.papers.figures import NONE, known, thousands
from core.papers.page import html_page
from core.papers.words import Words, words_of
from core.stock.issue import FromLot, IssueRow, IssueSheet, IssueTotal


def issue_html(sheet: IssueSheet, moment: dt.datetime, day: dt.date, language: Language) -> str:
    """The sheet of the working day as one page of HTML, at the moistures of that moment."""
    words = words_of(language)
    title = words.issue.format(date=day.isoformat())
    return html_page(title, list(_issue(sheet, moment, words)), language)


def _issue(sheet: IssueSheet, moment: dt.datetime, words: Words) -> Iterator[Block]:
    loss = words.no_loss
    if sheet.loss_allowance:
        loss = words.loss.format(share=percent(sheet.loss_allowance))
    yield Para(f"{words.issue_note.format(time=f'{moment:%Y-%m-%d %H:%M}')} {loss}")
    if not sheet.rows:
        yield Para(words.no_quota, "look")
        return
    quota = thousands(sum(row.quota for row in sheet.rows))
    benches = thousands(len(sheet.rows))
    yield Facts(((words.planned, quota), (words.benches_planned, benches)))
    if sheet.left_out:
        yield Para(words.left_out.format(benches=", ".join(sheet.left_out)), "look")
    yield Heading(words.all_benches)
    yield _totals(sheet.totals, words)
    kept = {total.leaf for total in sheet.totals if total.on_hand_g is not None}
    yield Heading(words.by_bench)
    names = words.columns
    yield Grouped(
        (
            *(Column(names[key]) for key in ("class", "leaf", "lot")),
            Column(words.to_give, "g", right=True),
            Column(words.pieces, right=True),
            *(Column(words.given, "g"), Column(words.signed)),
        ),
        tuple(Group(_name(row, words), tuple(_cells(row, kept, words))) for row in sheet.rows),
    )
    yield ByHand(words.to_sign)


def _totals(totals: Sequence[IssueTotal], words: Words) -> Table:
    names = words.columns
    columns = (
        *(Column(names["class"]), Column(names["leaf"])),
        Column(words.moisture, right=True),
        Column(words.to_give, "g", right=True),
        Column(words.pieces, right=True),
        Column(names["on_hand_g"], "g", right=True),
        Column(words.short, "g", right=True),
    )
    rows = tuple(
        (
            *(class_of(t.leaf_class, words), t.leaf, percent(t.moisture), thousands(t.grams)),
            known(t.pieces, 0),
            known(t.on_hand_g, 0),
            thousands(t.short_g) if t.short_g else NONE,
        )
        for t in totals
    )
    return Table(NONE, columns, rows)


def _name(row: IssueRow, words: Words) -> str:
    who = (f"{words.bench} {row.bench}", row.buncher, row.vitola, row.blend)
    return " · ".join((*filter(None, who), words.cigars.format(n=thousands(row.quota))))


def _cells(row: IssueRow, kept: set[str], words: Words) -> Iterator[tuple[str, ...]]:
    for cell in row.cells:
        lots = _lots(cell.lots, words) if cell.leaf in kept else NONE
        leaf_class = class_of(cell.leaf_class, words)
        yield (
            *(leaf_class, cell.leaf, lots, thousands(cell.grams), known(cell.pieces, 0)),
            *(NONE, NONE),
        )


def _lots(parts: Sequence[FromLot], words: Words) -> str:
    """The lots; the grams of each where there are several."""
    if len(parts) == 1:
        return parts[0].lot or words.not_on_hand
    return " + ".join(f"{p.lot or words.not_on_hand} {thousands(p.grams)} g" for p in parts)
