"""`line`: a blend in every size."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
from pathlib import Path

from core.desk.figures import decimals, fixed, percent
from core.desk.leaf_yield import measured_yield
from core.desk.line_stock import plan_says, short, stocked
from core.desk.today import spelt
from core.line.drawn import line_svg
from core.line.plan import Plan
from core.line.sheet import LineRow, LineSheet, line_sheet
from core.line.written import line_csv, line_json
from core.problems import BadInput
from core.recipe.influence import Influence, influences
from core.say import joined, say, say_as
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.words import word
from floor.commands.written import write_new


def run(args: argparse.Namespace) -> int:
    """Print the line sheet of a blend, as of now or as of `--at`."""
    if args.json + args.csv + (args.svg is not None) > 1:
        raise BadInput(say("give one of --json, --csv and --svg"))
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        house, blend = today.loaded, spelt(args.blend, today.loaded.blend)
        sheet = line_sheet(
            house,
            blend,
            today.moistures(),
            reference=None if args.against is None else spelt(args.against, house.vitola),
            law=today.law(blend),
            leaf_yield=measured_yield(today),
        )
        if args.svg is not None:
            write_new(Path(args.svg), line_svg(house, sheet, tell=out.tell))
            says = say(
                "the filler of blend {blend} by size is in {file}", blend=blend, file=args.svg
            )
            out.result(says)
        elif args.csv:
            out.result(line_csv(sheet).rstrip("\n"))
        elif args.json:
            out.json(line_json(sheet, influences(house, blend, sheet.law)))
        else:
            found = influences(house, blend, sheet.law)
            for line in _lines(sheet, found, decimals(today.division_g)):
                out.result(line)
            stock = stocked(today, blend, Plan())
            lacking = short(stock, house.blend[blend].shares)
            if lacking and (plan := plan_says(stock)) is not None:
                for says in (plan, *lacking):
                    out.result(says)
    return 0


def _lines(sheet: LineSheet, found: Iterable[Influence], places: int) -> Iterator[str]:
    law = sheet.law
    known = {"blend": sheet.blend, "p": law.p, "source": law.source}
    if sheet.strength is None:
        yield say("blend {blend}; packing p {p:.2f} from {source}", **known)
    else:
        yield say(
            "blend {blend}, strength {strength:.2f}; packing p {p:.2f} from {source}",
            strength=sheet.strength,
            **known,
        )
    yield _table(sheet, places)
    yield say(
        "classes: standard grams = whole pieces; from ring: smallest, and the leaf that binds"
    )
    yield say("air: one puff's speed through the ember, {vitola} being 1", vitola=sheet.reference)
    yield from (_influence(each, law.p, places) for each in found)
    yield from _money(sheet)
    for warning in law.warnings:
        yield say("note: {note}", note=warning)
    left = sorted({name for row in sheet.vitolas for name in row.cost.left_out})
    if left:
        names = joined(", ", map(word, left))
        yield say("note: cost leaves out, for want of figures: {names}", names=names)
    for problem in sheet.problems:
        yield say("left out: {problem}", problem=problem.said)


def _table(sheet: LineSheet, places: int) -> str:
    classes = [row.leaf for row in sheet.vitolas[0].classes]
    head = (
        *(say("vitola"), say("ring"), "mm", say("filler g"), say("19 in 20"), say("off law")),
        *(*classes, "kg/1000", "lb/1000", say("wrapper"), say_as("line sheet", "covers")),
        *(say("air"), say_as("line sheet", "laid"), say_as("line sheet", "holds")),
    )
    rows = [head, *(_row(row, places) for row in sheet.vitolas)]
    ends = [(say("from ring"), say("cost")), *(_ends(sheet, row) for row in sheet.vitolas)]
    whole = [(*row, *end) for row, end in zip(rows, ends, strict=True)]
    return out.table(whole, right=frozenset(range(1, len(whole[0]))))


def _row(row: LineRow, places: int) -> tuple[str, ...]:
    interval = ""
    if row.low_g is not None and row.high_g is not None:
        interval = f"{fixed(row.low_g, places)}-{fixed(row.high_g, places)}"
    return (
        row.vitola,
        f"{row.ring:g}",
        f"{row.length_mm:.1f}",
        fixed(row.filler_standard_g, places + 1),
        interval,
        (say_as("line sheet", "beyond") if row.beyond else "")
        if row.gap is None
        else percent(row.gap),
        *(f"{fixed(c.standard_g, places + 1)} = {c.pieces}" for c in row.classes),
        fixed(row.filler_kg_per_1000, 2),
        fixed(row.filler_lb_per_1000, 1),
        percent(row.wrapper_share),
        percent(row.cover_share),
        f"{row.air_speed:.2f}",
        "" if row.strength_laid is None else f"{row.strength_laid:.2f}",
        say("yes") if row.holds else say("no: {leaf}", leaf=row.worst),
    )


def _ends(sheet: LineSheet, row: LineRow) -> tuple[str, str]:
    found = sheet.smallest[row.vitola]
    ring = say_as("ring", "none") if found.ring is None else str(found.ring)
    return (
        ring if found.bound is None else joined(" ", (ring, found.bound.leaf)),
        _money_of(row.cost.total),
    )


def _influence(found: Influence, p: float, places: int) -> str:
    """What an approved entry adds to the law, in figures a blender weighs."""
    over = say("approved {vitola}, {n} bunches: {off} over the law, pull {pull:.2f}")
    under = say("approved {vitola}, {n} bunches: {off} under the law, pull {pull:.2f}")
    said = (over if found.off >= 0 else under).format(
        vitola=found.vitola, n=found.bunches, off=percent(abs(found.off)), pull=found.hat
    )
    if found.p_without is None or found.law_g_without is None:
        return say("{approved}; the law is its own", approved=said)
    told = say(
        "{approved}; without it p {p:.2f} -> {without:.2f}, its filler {grams} -> {other} g",
        approved=said,
        p=p,
        without=found.p_without,
        grams=fixed(found.law_g, places + 1),
        other=fixed(found.law_g_without, places + 1),
    )
    return told + say("; decides the law: approve more sizes like it") if found.decides else told


def _money(sheet: LineSheet) -> Iterator[str]:
    if sheet.loss is not None:
        measured = sheet.loss.source == "measured"
        told = (
            say("cost includes filler lost: leaf yield {share}, measured")
            if measured
            else say("cost includes filler lost: leaf yield {share}, the house's allowance")
        )
        yield told.format(share=percent(sheet.loss.leaf_yield))
    if any(row.cost.excise is not None for row in sheet.vitolas):
        yield say("margin is after excise as the house book gives it: an aid, the law decides")
    if not sheet.earnings:
        return
    hourly = sheet.earnings[0].per_bench_hour is not None
    costs = {row.vitola: row.cost for row in sheet.vitolas}
    head = (
        *(say("earns most"), say("price/1000"), say("by filler"), say("margin/1000")),
        *(say("a day"), say("bench hour") if hourly else say("bench day")),
    )
    rows = [
        (
            each.vitola,
            _money_of(costs[each.vitola].price),
            _money_of(costs[each.vitola].price_by_filler),
            fixed(each.per_1000, 2),
            fixed(each.pieces_a_day, 0),
            fixed(each.per_bench_day if each.per_bench_hour is None else each.per_bench_hour, 2),
        )
        for each in sheet.earnings
    ]
    yield out.table([head, *rows], right=frozenset(range(1, 6)))
    yield say(
        "by filler: the price if it only followed the filler, from {vitola}",
        vitola=sheet.reference,
    )


def _money_of(value: float | None) -> str:
    return "" if value is None else fixed(value, 2)
