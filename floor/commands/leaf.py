"""`leaf`: what leaf is on hand and out, how long it lasts, and what to issue for the shift."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Iterator
from pathlib import Path

from core.desk.figures import fixed, percent
from core.desk.stock import issue_of, stock_of
from core.desk.today import Today
from core.problems import BadInput
from core.stock.issue import FromLot, IssueRow, IssueSheet
from core.stock.stock import LeafStock, Shortage, Stock, soonest
from core.stock.written import issue_json, issue_table, stock_json, stock_table
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.spreadsheet import csv_text
from floor.commands.written import write_new

MOST_TOLD = 12
"""Shortages listed for people, the most urgent ones."""


def run(args: argparse.Namespace) -> int:
    """Print the stock, or with `--issue` the issue sheet, as of now or as of `--at`."""
    if sum((args.json, args.csv, args.html is not None)) > 1:
        raise BadInput("give one of --json, --csv and --html")
    if args.html is not None and not args.issue:
        raise BadInput("the issue sheet is what can be printed: leaf --issue --html FILE")
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        if args.html is not None:
            _print(today, Path(args.html))
        elif args.issue:
            _issue(issue_of(today), args)
        else:
            _stock(stock_of(today), args, today.now().date(), today.loaded.house.standard_moisture)
    return 0


def _stock(stock: Stock, args: argparse.Namespace, day: dt.date, standard: float) -> None:
    if args.json:
        out.json(stock_json(stock))
    elif args.csv:
        out.result(csv_text(stock_table(stock)).rstrip("\n"))
    else:
        for line in _stock_lines(stock, day, standard):
            out.result(line)


def _stock_lines(stock: Stock, day: dt.date, standard: float) -> Iterator[str]:
    head = ("leaf", "class", "lot", "on hand kg", "out kg", "benches kg", "moisture", "days")
    rows = [head, *(row for leaf in stock.leaves for row in _leaf_rows(leaf))]
    yield f"kilograms at {percent(standard)} moisture; > is the lot to be issued"
    yield out.table(rows, right=frozenset({3, 4, 5, 6, 7}))
    for lot in stock.overdrawn:
        over = _kg(-lot.on_hand_g)
        yield f"lot {lot.lot} of {lot.leaf}: {over} kg more went out than there was; count it"
    told = soonest(stock.shortages)
    for short in told[:MOST_TOLD]:
        yield says(short, day)
    if told[MOST_TOLD:]:
        yield f"and something at {len(told) - MOST_TOLD} more benches, later; --json has it all"
    if not any(leaf.lots for leaf in stock.leaves):
        yield "no leaf received yet; record it as: receive LEAF LOT 36.2kg 13.5%"
    if not stock.quotas:
        yield "note: no bench has a quota, so days of cover cannot be told"
    for bench in stock.unplanned:
        yield f"note: bench {bench} has a quota, but no card; bunchbook card {bench} says why"


def _leaf_rows(leaf: LeafStock) -> Iterator[tuple[str, ...]]:
    """The leaf's own row, then a row a lot."""
    yield (
        leaf.leaf,
        leaf.leaf_class,
        "" if leaf.lots else "no lots",
        "" if leaf.on_hand_g is None else _kg(leaf.on_hand_g),
        _kg(leaf.issued_g - leaf.returned_g),
        _kg(leaf.on_benches_g),
        percent(leaf.moisture),
        "" if leaf.cover_days is None else fixed(leaf.cover_days, 1),
    )
    for lot in leaf.lots:
        mark = ">" if leaf.lot is not None and lot.lot == leaf.lot.lot else " "
        moved_g = lot.issued_g - lot.returned_g
        yield "", "", f"{mark} {lot.lot}", _kg(lot.on_hand_g), _kg(moved_g), "", "", ""


def says(short: Shortage, day: dt.date) -> str:
    """A shortage in words; the day is told where it is not today."""
    where = "in the house" if short.bench is None else f"at bench {short.bench}"
    text = f"{short.leaf_class} {short.leaf} runs out {where}"
    if short.at is not None:
        clock = f"{short.at:%H:%M}" if short.at.date() == day else f"{short.at:%Y-%m-%d %H:%M}"
        text += f" about {clock}"
    return text if short.short_g is None else f"{text}: {_kg(short.short_g)} kg short of today"


def _kg(grams: float) -> str:
    return fixed(grams / 1000, 2)


def _print(today: Today, file: Path) -> None:
    from core.papers.issue_page import issue_html  # noqa: PLC0415

    language = today.loaded.house.language
    write_new(file, issue_html(issue_of(today), today.now(), today.day, language))
    out.result(f"the issue sheet of {today.day} is in {file}")


def _issue(sheet: IssueSheet, args: argparse.Namespace) -> None:
    if args.json:
        out.json(issue_json(sheet))
    elif args.csv:
        out.result(csv_text(issue_table(sheet)).rstrip("\n"))
    else:
        for line in _issue_lines(sheet):
            out.result(line)


def _issue_lines(sheet: IssueSheet) -> Iterator[str]:
    if not sheet.rows:
        yield "no bench has a quota: give it one in the house book, or type: 7 roll VITOLA 300"
        return
    loss = f"{percent(sheet.loss_allowance)} of the filler issued is allowed for loss"
    yield f"grams at today's moisture; {loss if sheet.loss_allowance else 'no loss allowance'}"
    rows: list[tuple[str, ...]] = [
        ("bench", "buncher", "vitola", "cigars", "class", "leaf", "grams", "pieces", "lot")
    ]
    for row in sheet.rows:
        rows += _bench_rows(row)
    yield out.table(rows, right=frozenset({3, 6, 7}))
    yield "\nall benches"
    totals = [("class", "leaf", "moisture", "grams", "pieces", "on hand", "short")]
    totals += (
        (
            t.leaf_class,
            t.leaf,
            percent(t.moisture),
            fixed(t.grams, 0),
            "" if t.pieces is None else str(t.pieces),
            "" if t.on_hand_g is None else fixed(t.on_hand_g, 0),
            fixed(t.short_g, 0) if t.short_g else "",
        )
        for t in sheet.totals
    )
    yield out.table(totals, right=frozenset({2, 3, 4, 5, 6}))
    if sheet.left_out:
        yield f"left out, without a quota or a card: bench {', '.join(sheet.left_out)}"


def _bench_rows(row: IssueRow) -> Iterator[tuple[str, ...]]:
    first = (row.bench, row.buncher, row.vitola, str(row.quota))
    for cell in row.cells:
        pieces = "" if cell.pieces is None else str(cell.pieces)
        lots = _lots(cell.lots)
        yield *first, cell.leaf_class, cell.leaf, fixed(cell.grams, 0), pieces, lots
        first = ("", "", "", "")


def _lots(parts: tuple[FromLot, ...]) -> str:
    """The lots; the grams of each where there are several."""
    if len(parts) == 1:
        return parts[0].lot or ""
    return " + ".join(f"{part.lot or 'no lot'} {fixed(part.grams, 0)}" for part in parts)
