"""The issue sheet of a shift: what leaf each bench is to be given for its planned cigars."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.day.lots import LEFT_G, LotState
from core.house.model import HouseBook
from core.recipe.moisture import on_scale
from core.stock.need import CardOf, Plan, issued_for_one, known, loss_of

SLACK = 1e-9


class FromLot(NamedTuple):
    """Grams on the scale today out of one lot; of no lot (None) what none on hand has."""

    lot: str | None
    grams: float


class IssueCell(NamedTuple):
    """One leaf for one bench, grams on the scale today; whole `pieces` of a cover."""

    leaf: str
    leaf_class: str
    grams: float
    pieces: int | None
    lots: tuple[FromLot, ...]


class IssueRow(NamedTuple):
    """What a bench is given for its quota."""

    bench: str
    buncher: str
    blend: str
    vitola: str
    quota: int
    cells: tuple[IssueCell, ...]


class IssueTotal(NamedTuple):
    """One leaf for all benches, grams on the scale today. `on_hand_g`, `short_g` None: no lots."""

    leaf: str
    leaf_class: str
    moisture: float
    grams: float
    pieces: int | None
    on_hand_g: float | None
    short_g: float | None


class IssueSheet(NamedTuple):
    """The whole shift. `left_out` are the benches without a quota or without a card."""

    loss_allowance: float
    rows: tuple[IssueRow, ...]
    totals: tuple[IssueTotal, ...]
    left_out: tuple[str, ...]


def issue_sheet(
    planned: Sequence[Plan],
    house: HouseBook,
    card: CardOf,
    moistures: Mapping[str, float],
    lots: Mapping[str, Sequence[LotState]],
    had: Mapping[tuple[str, str], float],
) -> IssueSheet:
    """The sheet at the moistures in force: quota × grams in a cigar ÷ (1 − loss allowance).

    What a bench has had of a leaf today (`had`, standard grams by bench and leaf) is taken off.
    Lots are proposed oldest first; where one is used up within the sheet the next goes on.
    """
    shelf = _Shelf(lots)
    rows: list[IssueRow] = []
    left_out: list[str] = []
    for plan in planned:
        rolls = known(card, plan.blend, plan.vitola) if plan.quota else None
        if rolls is None or not plan.quota:
            left_out.append(plan.bench)
            continue
        covers = {rolls.binder.leaf: rolls.binder, rolls.wrapper.leaf: rolls.wrapper}
        cells: list[IssueCell] = []
        for leaf, one_g in issued_for_one(rolls, loss_of(house)).items():
            cover = house.cover.get(leaf) if leaf in covers else None
            wanted_g = plan.quota * one_g - had.get((plan.bench, leaf), 0.0)
            pieces, standard_g = None, max(0.0, wanted_g)
            if cover is not None:
                pieces = math.ceil(standard_g / cover.half_leaf_g - SLACK)
                standard_g = pieces * cover.half_leaf_g
            scaled = on_scale(1.0, house.house.standard_moisture, moistures[leaf])
            taken = tuple(FromLot(lot, g * scaled) for lot, g in shelf.take(leaf, standard_g))
            cells.append(IssueCell(leaf, _class(house, leaf), standard_g * scaled, pieces, taken))
        rows.append(
            IssueRow(plan.bench, plan.buncher, plan.blend, plan.vitola, plan.quota, tuple(cells))
        )
    totals = _totals(rows, house, moistures, lots)
    return IssueSheet(loss_of(house), tuple(rows), totals, tuple(left_out))


class _Shelf:
    """What is left of each lot as the sheet gives it out, oldest first, standard grams."""

    def __init__(self, lots: Mapping[str, Sequence[LotState]]) -> None:
        self._left = {leaf: {lot.lot: lot.on_hand_g for lot in each} for leaf, each in lots.items()}

    def take(self, leaf: str, grams: float) -> list[tuple[str | None, float]]:
        """Give out so much; what no lot has stands under None."""
        given: list[tuple[str | None, float]] = []
        left = self._left.get(leaf, {})
        for lot, has in left.items():
            if has >= LEFT_G and grams > SLACK:
                part = min(has, grams)
                left[lot], grams = has - part, grams - part
                given.append((lot, part))
        if grams > SLACK:
            given.append((None, grams))
        return given


def _class(house: HouseBook, code: str) -> str:
    leaf = house.leaf[code]
    return leaf.leaf_class if leaf.use == "filler" else leaf.use


def _totals(
    rows: Sequence[IssueRow],
    house: HouseBook,
    moistures: Mapping[str, float],
    lots: Mapping[str, Sequence[LotState]],
) -> tuple[IssueTotal, ...]:
    by_leaf: dict[str, list[IssueCell]] = {}
    for row in rows:
        for cell in row.cells:
            by_leaf.setdefault(cell.leaf, []).append(cell)
    totals: list[IssueTotal] = []
    for leaf in house.leaf:
        if leaf not in by_leaf:
            continue
        cells = by_leaf[leaf]
        grams = math.fsum(cell.grams for cell in cells)
        counted = [cell.pieces for cell in cells if cell.pieces is not None]
        pieces = sum(counted) if counted else None
        on_hand_g = None
        if leaf in lots:
            standard_g = sum(lot.on_hand_g for lot in lots[leaf])
            on_hand_g = on_scale(standard_g, house.house.standard_moisture, moistures[leaf])
        short_g = None if on_hand_g is None else max(0.0, grams - max(0.0, on_hand_g))
        totals.append(
            IssueTotal(
                leaf, _class(house, leaf), moistures[leaf], grams, pieces, on_hand_g, short_g
            )
        )
    return tuple(totals)
