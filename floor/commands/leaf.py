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
from core.say import joined, say, say_as, say_many
from core.stock.issue import FromLot, IssueRow, IssueSheet
from core.stock.stock import LeafStock, Shortage, Stock, soonest
from core.stock.written import issue_json, issue_table, stock_json, stock_table
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.spreadsheet import csv_text
from floor.commands.words import word
from floor.commands.written import write_new

MOST_TOLD = 12
"""Shortages listed for people, the most urgent ones."""


def run(args: argparse.Namespace) -> int:
    """Print the stock, or with `--issue` the issue sheet, as of now or as of `--at`."""
    if sum((args.json, args.csv, args.html is not None)) > 1:
        raise BadInput(say("give one of --json, --csv and --html"))
    if args.html is not None and not args.issue:
        raise BadInput(say("the issue sheet is what can be printed: leaf --issue --html FILE"))
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
    head = (
        *(say("leaf"), say("class"), say("lot"), say("on hand kg"), say_as("column", "out kg")),
        *(say("benches kg"), say("moisture"), say("days")),
    )
    rows = [head, *(row for leaf in stock.leaves for row in _leaf_rows(leaf))]
    yield say(
        "kilograms at {moisture} moisture; > is the lot to be issued", moisture=percent(standard)
    )
    yield out.table(rows, right=frozenset({3, 4, 5, 6, 7}))
    for lot in stock.overdrawn:
        yield say(
            "lot {lot} of {leaf}: {kg} kg more went out than there was; count it",
            lot=lot.lot,
            leaf=lot.leaf,
            kg=_kg(-lot.on_hand_g),
        )
    told = soonest(stock.shortages)
    for short in told[:MOST_TOLD]:
        yield says(short, day)
    if told[MOST_TOLD:]:
        yield say_many(
            len(told) - MOST_TOLD,
            "and something at 1 more bench, later; --json has it all",
            "and something at {n} more benches, later; --json has it all",
        )
    if not any(leaf.lots for leaf in stock.leaves):
        yield say("no leaf received yet; record it as: receive LEAF LOT 36.2kg 13.5%")
    if not stock.quotas:
        yield say("note: no bench has a quota, so days of cover cannot be told")
    for bench in stock.unplanned:
        yield say(
            "note: bench {bench} has a quota, but no card; bunchbook card {bench} says why",
            bench=bench,
        )


def _leaf_rows(leaf: LeafStock) -> Iterator[tuple[str, ...]]:
    """The leaf's own row, then a row a lot."""
    yield (
        leaf.leaf,
        word(leaf.leaf_class),
        "" if leaf.lots else say("no lots"),
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
    known = {"leaf_class": word(short.leaf_class), "leaf": short.leaf, "bench": short.bench}
    if short.at is None:
        text = _RUNS_OUT if short.bench is None else _RUNS_OUT_AT
        told = text.format(**known)
    else:
        clock = f"{short.at:%H:%M}" if short.at.date() == day else f"{short.at:%Y-%m-%d %H:%M}"
        text = _RUNS_OUT_ABOUT if short.bench is None else _RUNS_OUT_AT_ABOUT
        told = text.format(**known, time=clock)
    if short.short_g is None:
        return told
    return say("{runs_out}: {kg} kg short of today", runs_out=told, kg=_kg(short.short_g))


_RUNS_OUT = say("{leaf_class} {leaf} runs out in the house")
_RUNS_OUT_AT = say("{leaf_class} {leaf} runs out at bench {bench}")
_RUNS_OUT_ABOUT = say("{leaf_class} {leaf} runs out in the house about {time}")
_RUNS_OUT_AT_ABOUT = say("{leaf_class} {leaf} runs out at bench {bench} about {time}")


def _kg(grams: float) -> str:
    return fixed(grams / 1000, 2)


def _print(today: Today, file: Path) -> None:
    from core.papers.issue_page import issue_html  # noqa: PLC0415

    write_new(file, issue_html(issue_of(today), today.now(), today.day, out.language()))
    out.result(say("the issue sheet of {date} is in {file}", date=today.day, file=file))


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
        yield say("no bench has a quota: give it one in the house book, or type: 7 roll VITOLA 300")
        return
    if sheet.loss_allowance:
        yield say(
            "grams at today's moisture; {share} of the filler issued is allowed for loss",
            share=percent(sheet.loss_allowance),
        )
    else:
        yield say("grams at today's moisture; no loss allowance")
    head = (
        *(say("bench"), say("buncher"), say("vitola"), say("cigars"), say("class"), say("leaf")),
        *(say("grams"), say("pieces"), say("lot")),
    )
    rows: list[tuple[str, ...]] = [head]
    for row in sheet.rows:
        rows += _bench_rows(row)
    yield out.table(rows, right=frozenset({3, 6, 7}))
    yield ""
    yield say("all benches")
    totals: list[tuple[str, ...]] = [
        (
            *(say("class"), say("leaf"), say("moisture"), say("grams"), say("pieces")),
            *(say("on hand"), say_as("issue sheet", "short")),
        )
    ]
    totals += (
        (
            word(t.leaf_class),
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
        benches = ", ".join(sheet.left_out)
        yield say("left out, without a quota or a card: bench {benches}", benches=benches)


def _bench_rows(row: IssueRow) -> Iterator[tuple[str, ...]]:
    first = (row.bench, row.buncher, row.vitola, str(row.quota))
    for cell in row.cells:
        pieces = "" if cell.pieces is None else str(cell.pieces)
        lots = _lots(cell.lots)
        yield *first, word(cell.leaf_class), cell.leaf, fixed(cell.grams, 0), pieces, lots
        first = ("", "", "", "")


def _lots(parts: tuple[FromLot, ...]) -> str:
    """The lots; the grams of each where there are several."""
    if len(parts) == 1:
        return parts[0].lot or ""
    told = (joined(" ", (part.lot or say("no lot"), fixed(part.grams, 0))) for part in parts)
    return joined(" + ", told)
