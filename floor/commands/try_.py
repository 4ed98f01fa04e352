"""`try`: a blend with a few things otherwise, or without a leaf; nothing is saved."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from core.desk.figures import decimals, fixed
from core.desk.leaf_yield import measured_yield
from core.desk.line_stock import Stocked, plan_says, short, stocked
from core.desk.today import Today, spelt
from core.house.amounts import SHARE, WEIGHT, Kind, Unreadable, parse
from core.line.change import Change, read_changes
from core.line.drawn import line_svg
from core.line.leaf_limits import Band
from core.line.new_parts import NewParts, NoParts, new_parts
from core.line.plan import Plan, read_plan
from core.line.sheet import LineRow, LineSheet
from core.line.tried import new_parts_json, whatif_json
from core.line.whatif import WhatIf, what_if
from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.written import write_new

TEN = 10.0
"""Strength is scored 0 to 10."""
ALWAYS = frozenset({"ring", "holds"})
"""Columns that are shown though nothing in them differs."""


def run(args: argparse.Namespace) -> int:
    """Print a blend's line sheet with the changes beside today's, as of now or of `--at`.

    Exit code 1 where there are no parts without the leaf named.
    """
    if not args.changes and args.without is None:
        raise BadInput("nothing to try; give a change, as LI-2=1.5 or toro.ring=50, or --without")
    if args.planned is not None and args.without is None:
        raise BadInput("--planned keeps new parts to the stock on hand; give --without too")
    if args.json and getattr(args, "svg", None) is not None:
        raise BadInput(say("give one of --json and --svg"))
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        blend = spelt(args.blend, today.loaded.blend)
        words, plan = read_plan(args.changes)
        changes = read_changes(words, today.loaded)
        stock = stocked(today, blend, _planned(args, plan))
        found = None if args.without is None else _without(today, blend, args, changes, stock)
        if isinstance(found, NewParts):
            changes = (*changes, *found.changes())
        tried = None if isinstance(found, NoParts) else _tried(today, blend, changes)
        svg = getattr(args, "svg", None)
        if svg is not None:
            _draw(today, tried, svg)
        elif args.json:
            out.json(_json(blend, found, tried))
        else:
            for line in _lines(found, tried, stock, decimals(today.division_g)):
                out.result(line)
    return 1 if isinstance(found, NoParts) else 0


def _draw(today: Today, tried: WhatIf | None, file: str) -> None:
    """Today's picture and that of what is tried, in one file."""
    if tried is None:
        raise BadInput(say("there is nothing to draw: no parts keep every limit"))
    write_new(Path(file), line_svg(today.loaded, tried.today, tried))
    says = say("blend {blend} today and as tried is in {file}", blend=tried.today.blend, file=file)
    out.result(says)


def _tried(today: Today, blend: str, changes: tuple[Change, ...]) -> WhatIf:
    return what_if(
        today.loaded,
        blend,
        changes,
        today.moistures(),
        law=today.law(blend),
        leaf_yield=measured_yield(today),
    )


def _planned(args: argparse.Namespace, plan: Plan) -> Plan:
    """What the stock is to last for: `--planned`, else as a change says."""
    if args.planned is None:
        return plan
    if plan != Plan():
        raise BadInput(say("the plan is told twice; give one of --planned and plan="))
    return Plan(filler_g=_amount("--planned", args.planned, WEIGHT))


def _without(
    today: Today,
    blend: str,
    args: argparse.Namespace,
    changes: tuple[Change, ...],
    stock: Stocked,
) -> NewParts | NoParts:
    if any(change.field == "parts" for change in changes):
        raise BadInput("--without finds the parts itself; leave out changes of parts")
    house = today.loaded
    codes = ",".join(args.without).replace(",", " ").split()
    leaves = [spelt(code, house.filler) for code in codes]
    if not leaves:
        raise BadInput("--without expects codes of leaf, as LI-2 or LI-2,SE-20; found none")
    band = Band(
        strength_within=args.strength_within,
        class_within=_amount("--class-within", args.class_within, SHARE),
    )
    if not 0 <= band.strength_within <= TEN:
        raise BadInput(f"--strength-within expects 0 to 10, found {band.strength_within:g}")
    if band.class_within > 1:
        raise BadInput(f"--class-within expects 0 to 100 %, found {args.class_within}")
    found = new_parts(house, blend, leaves, stock.within(band))
    return found._replace(notes=(*found.notes, *stock.notes))


def _amount(option: str, text: str, kind: Kind) -> float:
    amount = parse(text, kind)
    if isinstance(amount, Unreadable):
        raise BadInput(f"{option} {amount.says}")
    if amount < 0:
        raise BadInput(f"{option} expects 0 or more, found {text}")
    return amount


def _json(blend: str, found: NewParts | NoParts | None, tried: WhatIf | None) -> dict[str, object]:
    whole: dict[str, object] = {"blend": blend} if tried is None else whatif_json(tried)
    return whole if found is None else {**whole, "without": new_parts_json(found)}


def _lines(
    found: NewParts | NoParts | None, tried: WhatIf | None, stock: Stocked, places: int
) -> Iterator[str]:
    plan = plan_says(stock)
    if isinstance(found, NoParts):
        yield from _no_parts(found)
    elif found is not None:
        yield from _parts(found)
    if found is not None and plan is not None:
        yield plan
    if tried is not None:
        yield from _beside(tried, places)
        lacking = short(stock, tried.blend.shares)
        if lacking and plan is not None and found is None:
            yield plan
        yield from lacking


def _no_parts(found: NoParts) -> Iterator[str]:
    yield f"no parts of {found.blend} without {', '.join(found.without)} keep every limit"
    if len(found.binds) == 1:
        yield "what binds:"
    elif found.binds[0].alone:
        yield "what binds; to let any one of these go is enough:"
    else:
        yield "what binds; to let these go together is enough:"
    yield from (f"  {bound.says}" for bound in found.binds)
    yield from (f"note: {note}" for note in found.notes)


def _parts(found: NewParts) -> Iterator[str]:
    yield f"blend {found.blend} without {', '.join(found.without)}: least change of parts"
    planned = any(part.needed_g is not None for part in found.parts)
    limited = any(part.on_hand_g is not None for part in found.parts)
    head = ("leaf", "class", "parts", "new", "share")
    kilograms = (("kg needed", planned), ("kg on hand", limited))
    rows = [(*head, *(name for name, told in kilograms if told))]
    for part in found.parts:
        cells = (part.leaf, part.leaf_class, f"{part.before:g}", fixed(part.parts, 2))
        share = f"{fixed(100 * part.share, 1)} %"
        grams = [g for g, told in ((part.needed_g, planned), (part.on_hand_g, limited)) if told]
        kg = ("" if each is None else fixed(each / 1000, 2) for each in grams)
        rows.append((*cells, share, *kg))
    yield out.table(rows, right=frozenset({2, 3, 4, 5, 6}))
    if found.strength is not None and found.strength_before is not None:
        yield f"strength {found.strength_before:.2f} -> {found.strength:.2f}"
    if found.at_limit:
        yield f"just at its limit: {', '.join(found.at_limit)}"
    yield from (f"note: {note}" for note in found.notes)


def _beside(tried: WhatIf, places: int) -> Iterator[str]:
    said = ", ".join(change.said for change in tried.changes)
    yield f"blend {tried.today.blend} with {said}; today -> changed, nothing is saved"
    before, after = _cells(tried.today, tried, places), _cells(tried.changed, tried, places)
    codes = list(dict.fromkeys((*before, *after)))
    empty = ("-",) * len(_head(tried))
    columns = [("vitola", *codes)]
    same: list[str] = []
    for place, name in enumerate(_head(tried)):
        pairs = [(before.get(c, empty)[place], after.get(c, empty)[place]) for c in codes]
        if name in ALWAYS or any(one != other for one, other in pairs):
            cells = (one if one == other else f"{one} -> {other}" for one, other in pairs)
            columns.append((name, *cells))
        else:
            same.append(name)
    yield out.table(list(zip(*columns, strict=True)), right=frozenset(range(1, len(columns))))
    if same:
        yield f"as today in every size: {', '.join(same)}"
    yield "classes: grams on the scale today = whole pieces; from ring: the leaf that binds"
    yield from _strength(tried)
    yield from (f"note: {note}" for note in tried.notes)
    for problem in tried.changed.problems:
        if problem not in tried.today.problems:
            yield f"left out: {problem}"


def _strength(tried: WhatIf) -> Iterator[str]:
    """The blend's own, by its parts; a size's is what its whole pieces make of it."""
    before, after = tried.today.strength, tried.changed.strength
    if before != after:
        one, other = ("not known" if s is None else f"{s:.2f}" for s in (before, after))
        yield f"strength by parts {one} -> {other}"


def _leaves(tried: WhatIf) -> list[str]:
    sheets = (tried.today, tried.changed)
    return list(dict.fromkeys(each.leaf for sheet in sheets for each in sheet.vitolas[0].classes))


def _head(tried: WhatIf) -> tuple[str, ...]:
    return ("ring", "mm", "filler g", *_leaves(tried), "holds", "from ring", "laid", "cost")


def _cells(sheet: LineSheet, tried: WhatIf, places: int) -> dict[str, tuple[str, ...]]:
    leaves = _leaves(tried)
    return {row.vitola: _row(sheet, row, leaves, places) for row in sheet.vitolas}


def _row(sheet: LineSheet, row: LineRow, leaves: list[str], places: int) -> tuple[str, ...]:
    classes = {c.leaf: f"{fixed(c.exact_g, places + 1)} = {c.pieces}" for c in row.classes}
    smallest = sheet.smallest[row.vitola]
    ring = "none" if smallest.ring is None else str(smallest.ring)
    return (
        f"{row.ring:g}",
        f"{row.length_mm:.1f}",
        fixed(row.filler_standard_g, places + 1),
        *(classes.get(leaf, "-") for leaf in leaves),
        "yes" if row.holds else f"no: {row.worst}",
        ring if smallest.bound is None else f"{ring} {smallest.bound.leaf}",
        "" if row.strength_laid is None else f"{row.strength_laid:.2f}",
        "" if row.cost.total is None else fixed(row.cost.total, 2),
    )
