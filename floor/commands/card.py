"""`card`: what goes into one bunch at a bench, now."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from core.desk.figures import decimals, fixed, percent
from core.desk.stock import CardLot, card_lots
from core.recipe.card import Card, card_json
from floor.commands import out
from floor.commands.setting import setting, tell_damage


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
            out.result("\nwhy")
            out.result(_why(card))
    return 0


def card_lines(card: Card, division_g: float) -> Iterator[str]:
    """The card in words, a line each."""
    places = decimals(division_g)
    yield (
        f"bench {card.bench}: {card.vitola}, ring {card.ring:g}, {card.length_mm:g} mm, "
        f"blend {card.blend}"
    )
    rows = [("class", "leaf", "grams", "moisture", "half-leaves", "share")]
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
    rows.append(("filler", "", fixed(card.filler_g, places), "", "", ""))
    yield out.table(rows, right=frozenset({2, 3, 4, 5}))
    for name, target in card.targets.items():
        yield (
            f"{name} target {fixed(target.target_g, places)} g, "
            f"{fixed(target.low_g, places)} to {fixed(target.high_g, places)}"
        )
    if card.batch is not None:
        grams = ", ".join(f"{row.leaf} {fixed(row.g, places)}" for row in card.batch.classes)
        total = fixed(card.batch.total_g, places)
        yield f"portion {card.batch.bunches} bunches together: {grams}; {total} g in all"
    for use, cover in (("binder", card.binder), ("wrapper", card.wrapper)):
        yield f"{use} {cover.leaf}: {cover.pieces:g} half-leaves, {cover.on_bunch_g:.2f} g on it"
    for warning in card.warnings:
        yield f"note: {warning}"


def _lot(lot: CardLot) -> str:
    had = "" if lot.had is None else f"; this bench last took {lot.had}"
    return f"lot of {lot.leaf}: {lot.lot}{', new today' if lot.new else ''}{had}"


def _why(card: Card) -> str:
    rows = [(step.step, f"{step.value:.6g}", step.unit, step.source) for step in card.why]
    return out.table(rows, right=frozenset({1}))
