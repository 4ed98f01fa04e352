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
from core.say import say
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.written import write_new


def run(args: argparse.Namespace) -> int:
    """Print the line sheet of a blend, as of now or as of `--at`."""
    if args.json + args.csv + (args.svg is not None) > 1:
        raise BadInput("give one of --json, --csv and --svg")
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
            write_new(Path(args.svg), line_svg(house, sheet))
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
    strength = "" if sheet.strength is None else f", strength {sheet.strength:.2f}"
    yield f"blend {sheet.blend}{strength}; packing p {law.p:.2f} from {law.source}"
    yield _table(sheet, places)
    yield "classes: standard grams = whole pieces; from ring: smallest, and the leaf that binds"
    yield f"air: one puff's speed through the ember, {sheet.reference} being 1"
    yield from (_influence(each, law.p, places) for each in found)
    yield from _money(sheet)
    for warning in law.warnings:
        yield f"note: {warning}"
    left = sorted({name for row in sheet.vitolas for name in row.cost.left_out})
    if left:
        yield f"note: cost leaves out, for want of figures: {', '.join(left)}"
    for problem in sheet.problems:
        yield f"left out: {problem}"


def _table(sheet: LineSheet, places: int) -> str:
    classes = [row.leaf for row in sheet.vitolas[0].classes]
    head = ("vitola", "ring", "mm", "filler g", "19 in 20", "off law", *classes)
    rows = [
        (*head, *("kg/1000", "lb/1000", "wrapper", "covers", "air", "laid", "holds")),
        *(_row(row, places) for row in sheet.vitolas),
    ]
    ends = [("from ring", "cost"), *(_ends(sheet, row) for row in sheet.vitolas)]
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
        "beyond" if row.gap is None and row.beyond else "" if row.gap is None else percent(row.gap),
        *(f"{fixed(c.standard_g, places + 1)} = {c.pieces}" for c in row.classes),
        fixed(row.filler_kg_per_1000, 2),
        fixed(row.filler_lb_per_1000, 1),
        percent(row.wrapper_share),
        percent(row.cover_share),
        f"{row.air_speed:.2f}",
        "" if row.strength_laid is None else f"{row.strength_laid:.2f}",
        "yes" if row.holds else f"no: {row.worst}",
    )


def _ends(sheet: LineSheet, row: LineRow) -> tuple[str, str]:
    found = sheet.smallest[row.vitola]
    ring = "none" if found.ring is None else str(found.ring)
    return (
        ring if found.bound is None else f"{ring} {found.bound.leaf}",
        _money_of(row.cost.total),
    )


def _influence(found: Influence, p: float, places: int) -> str:
    """What an approved entry adds to the law, in figures a blender weighs."""
    side = "over" if found.off >= 0 else "under"
    said = (
        f"approved {found.vitola}, {found.bunches} bunches: {percent(abs(found.off))} {side} "
        f"the law, pull {found.hat:.2f}"
    )
    if found.p_without is None or found.law_g_without is None:
        return f"{said}; the law is its own"
    grams = f"{fixed(found.law_g, places + 1)} -> {fixed(found.law_g_without, places + 1)} g"
    alone = "; decides the law: approve more sizes like it" if found.decides else ""
    return f"{said}; without it p {p:.2f} -> {found.p_without:.2f}, its filler {grams}{alone}"


def _money(sheet: LineSheet) -> Iterator[str]:
    if sheet.loss is not None:
        whose = "measured" if sheet.loss.source == "measured" else "the house's allowance"
        yield f"cost includes filler lost: leaf yield {percent(sheet.loss.leaf_yield)}, {whose}"
    if any(row.cost.excise is not None for row in sheet.vitolas):
        yield "margin is after excise as the house book gives it: an aid, the law decides"
    if not sheet.earnings:
        return
    hourly = sheet.earnings[0].per_bench_hour is not None
    costs = {row.vitola: row.cost for row in sheet.vitolas}
    time = "bench hour" if hourly else "bench day"
    head = ("earns most", "price/1000", "by filler", "margin/1000", "a day", time)
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
    yield f"by filler: the price if it only followed the filler, from {sheet.reference}"


def _money_of(value: float | None) -> str:
    return "" if value is None else fixed(value, 2)
