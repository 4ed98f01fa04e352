"""`card`: what goes into one bunch at a bench, now."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from core.desk.figures import decimals, fixed, percent
from core.desk.stock import CardLot, card_lots
from core.recipe.card import Card, card_json
from core.recipe.why import UNITS
from core.say import say, say_many
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.words import word


def run(args: argparse.Namespace) -> int:
    """Print a bench's card, as of now or as of `--at`."""
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        card = today.card(args.bench)
        if args.json:
            lots = [lot._asdict() for lot in card_lots(today, args.bench)]
            out.json({**card_json(card, why=args.why), "lots": lots})
            return 0
        for line in card_lines(card, today.division_g):
            out.result(line)
        for lot in card_lots(today, args.bench):
            out.result(_lot(lot))
        if args.why:
            out.result("")
            out.result(say("why"))
            out.result(_why(card))
    return 0


def card_lines(card: Card, division_g: float) -> Iterator[str]:
    """The card in words, a line each."""
    places = decimals(division_g)
    yield say(
        "bench {bench}: {vitola}, ring {ring:g}, {length_mm:g} mm, blend {blend}",
        bench=card.bench,
        vitola=card.vitola,
        ring=card.ring,
        length_mm=card.length_mm,
        blend=card.blend,
    )
    rows: list[tuple[str, ...]] = [
        (say("class"), say("leaf"), say("grams"), say("moisture"), say("half-leaves"), say("share"))
    ]
    rows += (
        (
            row.leaf_class,
            row.leaf,
            fixed(row.g, places),
            percent(row.moisture),
            f"{row.half_leaves:g}",
            percent(row.share),
        )
        for row in card.classes
    )
    rows.append((say("filler"), "", fixed(card.filler_g, places), "", "", ""))
    yield out.table(rows, right=frozenset({2, 3, 4, 5}))
    for name, target in card.targets.items():
        yield say(
            "{measure} target {target} g, {low} to {high}",
            measure=word(name),
            target=fixed(target.target_g, places),
            low=fixed(target.low_g, places),
            high=fixed(target.high_g, places),
        )
    if card.batch is not None:
        grams = ", ".join(f"{row.leaf} {fixed(row.g, places)}" for row in card.batch.classes)
        total = fixed(card.batch.total_g, places)
        yield say(
            "portion {n} bunches together: {grams}; {total} g in all",
            n=card.batch.bunches,
            grams=grams,
            total=total,
        )
    for use, cover in (("binder", card.binder), ("wrapper", card.wrapper)):
        yield say_many(
            1 if cover.pieces == 1 else 2,
            "{use} {leaf}: {pieces:g} half-leaf, {grams:.2f} g on it",
            "{use} {leaf}: {pieces:g} half-leaves, {grams:.2f} g on it",
            use=word(use),
            leaf=cover.leaf,
            pieces=cover.pieces,
            grams=cover.on_bunch_g,
        )
    for warning in card.warnings:
        yield say("note: {note}", note=warning)


def _lot(lot: CardLot) -> str:
    new = say("lot of {leaf}: {lot}, new today") if lot.new else say("lot of {leaf}: {lot}")
    told = new.format(leaf=lot.leaf, lot=lot.lot)
    return told if lot.had is None else told + say("; this bench last took {lot}", lot=lot.had)


def _why(card: Card) -> str:
    rows = [
        (step.step, f"{step.value:.6g}", UNITS.get(step.unit, step.unit), step.source)
        for step in card.why
    ]
    return out.table(rows, right=frozenset({1}))
