"""`try`: a blend with a few things otherwise, or without a leaf; nothing is saved."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
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
from core.say import joined, say, say_as
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
        raise BadInput(
            say("nothing to try; give a change, as LI-2=1.5 or toro.ring=50, or --without")
        )
    if args.planned is not None and args.without is None:
        raise BadInput(say("--planned keeps new parts to the stock on hand; give --without too"))
    if args.json and args.svg is not None:
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
        if args.svg is not None:
            _draw(today, tried, args.svg)
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
    write_new(Path(file), line_svg(today.loaded, tried.today, tried, tell=out.tell))
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
        raise BadInput(say("--without finds the parts itself; leave out changes of parts"))
    house = today.loaded
    codes = ",".join(args.without).replace(",", " ").split()
    leaves = [spelt(code, house.filler) for code in codes]
    if not leaves:
        raise BadInput(say("--without expects codes of leaf, as LI-2 or LI-2,SE-20; found none"))
    band = Band(
        strength_within=args.strength_within,
        class_within=_amount("--class-within", args.class_within, SHARE),
    )
    if not 0 <= band.strength_within <= TEN:
        raise BadInput(
            say("--strength-within expects 0 to 10, found {found:g}", found=band.strength_within)
        )
    if band.class_within > 1:
        raise BadInput(
            say("--class-within expects 0 to 100 %, found {found}", found=args.class_within)
        )
    found = new_parts(house, blend, leaves, stock.within(band))
    return found._replace(notes=(*found.notes, *stock.notes))


def _amount(option: str, text: str, kind: Kind) -> float:
    amount = parse(text, kind)
    if isinstance(amount, Unreadable):
        raise BadInput(joined(" ", (option, amount.says)))
    if amount < 0:
        raise BadInput(say("{option} expects 0 or more, found {found}", option=option, found=text))
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
    yield say(
        "no parts of {blend} without {leaves} keep every limit",
        blend=found.blend,
        leaves=", ".join(found.without),
    )
    if len(found.binds) == 1:
        yield say("what binds:")
    elif found.binds[0].alone:
        yield say("what binds; to let any one of these go is enough:")
    else:
        yield say("what binds; to let these go together is enough:")
    yield from (joined("  ", ("", bound.says)) for bound in found.binds)
    yield from _notes(found.notes)


def _notes(notes: Iterable[str]) -> Iterator[str]:
    return (say("note: {note}", note=note) for note in notes)


def _parts(found: NewParts) -> Iterator[str]:
    yield say(
        "blend {blend} without {leaves}: least change of parts",
        blend=found.blend,
        leaves=", ".join(found.without),
    )
    planned = any(part.needed_g is not None for part in found.parts)
    limited = any(part.on_hand_g is not None for part in found.parts)
    head = (say("leaf"), say("class"), say("parts"), say_as("parts", "new"), say("share"))
    kilograms = ((say("kg needed"), planned), (say("kg on hand"), limited))
    rows: list[tuple[str, ...]] = [(*head, *(name for name, told in kilograms if told))]
    for part in found.parts:
        cells = (part.leaf, part.leaf_class, f"{part.before:g}", fixed(part.parts, 2))
        share = f"{fixed(100 * part.share, 1)} %"
        grams = [g for g, told in ((part.needed_g, planned), (part.on_hand_g, limited)) if told]
        kg = ("" if each is None else fixed(each / 1000, 2) for each in grams)
        rows.append((*cells, share, *kg))
    yield out.table(rows, right=frozenset({2, 3, 4, 5, 6}))
    if found.strength is not None and found.strength_before is not None:
        yield say(
            "strength {before:.2f} -> {after:.2f}",
            before=found.strength_before,
            after=found.strength,
        )
    if found.at_limit:
        yield say("just at its limit: {limits}", limits=joined(", ", found.at_limit))
    yield from _notes(found.notes)


def _beside(tried: WhatIf, places: int) -> Iterator[str]:
    yield say(
        "blend {blend} with {changes}; today -> changed, nothing is saved",
        blend=tried.today.blend,
        changes=joined(", ", (change.said for change in tried.changes)),
    )
    before, after = _cells(tried.today, tried, places), _cells(tried.changed, tried, places)
    codes = list(dict.fromkeys((*before, *after)))
    empty = ("-",) * len(_head(tried))
    columns: list[tuple[str, ...]] = [(say("vitola"), *codes)]
    same: list[str] = []
    for place, name in enumerate(_head(tried)):
        pairs = [(before.get(c, empty)[place], after.get(c, empty)[place]) for c in codes]
        if name in ALWAYS or any(one != other for one, other in pairs):
            cells = (one if one == other else joined(" -> ", (one, other)) for one, other in pairs)
            columns.append((name, *cells))
        else:
            same.append(name)
    yield out.table(list(zip(*columns, strict=True)), right=frozenset(range(1, len(columns))))
    if same:
        yield say("as today in every size: {columns}", columns=joined(", ", same))
    yield say("classes: grams on the scale today = whole pieces; from ring: the leaf that binds")
    yield from _strength(tried)
    yield from _notes(tried.notes)
    for problem in tried.changed.problems:
        if problem not in tried.today.problems:
            yield say("left out: {problem}", problem=problem.said)


def _strength(tried: WhatIf) -> Iterator[str]:
    """The blend's own, by its parts; a size's is what its whole pieces make of it."""
    before, after = tried.today.strength, tried.changed.strength
    if before != after:
        one, other = (say("not known") if s is None else f"{s:.2f}" for s in (before, after))
        yield say("strength by parts {before} -> {after}", before=one, after=other)


def _leaves(tried: WhatIf) -> list[str]:
    sheets = (tried.today, tried.changed)
    return list(dict.fromkeys(each.leaf for sheet in sheets for each in sheet.vitolas[0].classes))


def _head(tried: WhatIf) -> tuple[str, ...]:
    return (
        *(say("ring"), "mm", say("filler g"), *_leaves(tried), say_as("line sheet", "holds")),
        *(say("from ring"), say_as("line sheet", "laid"), say("cost")),
    )


def _cells(sheet: LineSheet, tried: WhatIf, places: int) -> dict[str, tuple[str, ...]]:
    leaves = _leaves(tried)
    return {row.vitola: _row(sheet, row, leaves, places) for row in sheet.vitolas}


def _row(sheet: LineSheet, row: LineRow, leaves: list[str], places: int) -> tuple[str, ...]:
    classes = {c.leaf: f"{fixed(c.exact_g, places + 1)} = {c.pieces}" for c in row.classes}
    smallest = sheet.smallest[row.vitola]
    ring = say_as("ring", "none") if smallest.ring is None else str(smallest.ring)
    return (
        f"{row.ring:g}",
        f"{row.length_mm:.1f}",
        fixed(row.filler_standard_g, places + 1),
        *(classes.get(leaf, "-") for leaf in leaves),
        say("yes") if row.holds else say("no: {leaf}", leaf=row.worst),
        ring if smallest.bound is None else joined(" ", (ring, smallest.bound.leaf)),
        "" if row.strength_laid is None else f"{row.strength_laid:.2f}",
        "" if row.cost.total is None else fixed(row.cost.total, 2),
    )
