"""`line`: a blend in every size."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from core.desk.figures import decimals, fixed, percent
from core.desk.today import spelt
from core.line.sheet import LineSheet, line_sheet
from core.line.written import line_csv, line_json
from core.problems import BadInput
from floor.commands import out
from floor.commands.setting import setting, tell_damage


def run(args: argparse.Namespace) -> int:
    """Print the line sheet of a blend, as of now or as of `--at`."""
    if args.json and args.csv:
        raise BadInput("give --json or --csv, not both")
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        blend = spelt(args.blend, today.loaded.blend)
        sheet = line_sheet(today.loaded, blend, today.moistures(), law=today.law(blend))
        if args.json:
            out.json(line_json(sheet))
        elif args.csv:
            out.result(line_csv(sheet).rstrip("\n"))
        else:
            for line in _lines(sheet, decimals(today.division_g)):
                out.result(line)
    return 0


def _lines(sheet: LineSheet, places: int) -> Iterator[str]:
    law = sheet.law
    strength = "" if sheet.strength is None else f", strength {sheet.strength:.2f}"
    yield f"blend {sheet.blend}{strength}; packing p {law.p:.2f} from {law.source}"
    classes = [row.leaf for row in sheet.vitolas[0].classes]
    head = ("vitola", "ring", "mm", "filler g", "off law", *classes, "kg/1000", "lb/1000")
    rows = [(*head, "wrapper", "air", "holds", "from ring", "cost")]
    for row in sheet.vitolas:
        ring = sheet.smallest_ring.get(row.vitola)
        rows.append(
            (
                row.vitola,
                f"{row.ring:g}",
                f"{row.length_mm:.1f}",
                fixed(row.filler_standard_g, places + 1),
                "" if row.gap is None else percent(row.gap),
                *(f"{fixed(c.standard_g, places + 1)} = {c.pieces}" for c in row.classes),
                fixed(row.filler_kg_per_1000, 2),
                fixed(row.filler_lb_per_1000, 1),
                percent(row.wrapper_share),
                f"{row.air_speed:.2f}",
                "yes" if row.holds else "no",
                "none" if ring is None else str(ring),
                "" if row.cost.total is None else fixed(row.cost.total, 2),
            )
        )
    yield out.table(rows, right=frozenset(range(1, len(rows[0]))))
    yield "classes: standard grams = whole pieces; air: one puff's speed against the first size"
    for warning in law.warnings:
        yield f"note: {warning}"
    left = sorted({name for row in sheet.vitolas for name in row.cost.left_out})
    if left:
        yield f"note: cost leaves out, for want of figures: {', '.join(left)}"
    for problem in sheet.problems:
        yield f"left out: {problem}"
