"""The stock and the issue sheet as JSON keys and as tidy tables."""

from __future__ import annotations

from collections.abc import Sequence

from core.house.numbering import bench_json
from core.stock.issue import IssueSheet
from core.stock.stock import LeafStock, Shortage, Stock

Table = list[Sequence[object]]

STOCK_HEAD = (
    "leaf", "class", "lot", "received", "crop", "bales", "price_per_kg", "received_g",
    "issued_g", "returned_g", "adjusted_g", "on_hand_g", "in_use",
)  # fmt: skip
ISSUE_HEAD = ("bench", "buncher", "blend", "vitola", "quota", "leaf", "class", "lot", "grams")


def stock_json(stock: Stock) -> dict[str, object]:
    """The stock under the keys of `leaf --json`; grams at standard moisture."""
    return {
        "leaf": [_leaf_json(row) for row in stock.leaves],
        "benches": [
            {
                "bench": bench_json(row.bench),
                "leaf": row.leaf,
                "issued_g": row.issued_g,
                "returned_g": row.returned_g,
                "left_g": row.left_g,
                "runs_out": row.out_at.isoformat() if row.out_at else None,
            }
            for row in stock.benches
            if row.issued_g or row.returned_g
        ],
        "shortages": [_shortage_json(short) for short in stock.shortages],
        "overdrawn": [{"leaf": lot.leaf, "lot": lot.lot} for lot in stock.overdrawn],
        "unplanned": [bench_json(bench) for bench in stock.unplanned],
    }


def _leaf_json(row: LeafStock) -> dict[str, object]:
    return {
        "leaf": row.leaf,
        "class": row.leaf_class,
        "moisture": row.moisture,
        "measured": row.measured,
        "on_hand_g": row.on_hand_g,
        "issued_g": row.issued_g,
        "returned_g": row.returned_g,
        "on_benches_g": row.on_benches_g,
        "planned_g_per_day": row.planned_g,
        "needed_g": row.needed_g,
        "short_g": row.short_g,
        "cover_days": row.cover_days,
        "lot": row.lot.lot if row.lot else None,
        "lots": [
            {
                "lot": lot.lot,
                "received": lot.received.isoformat(),
                "crop": lot.crop,
                "bales": lot.bales,
                "price_per_kg": lot.price_per_kg,
                "received_g": lot.received_g,
                "issued_g": lot.issued_g,
                "returned_g": lot.returned_g,
                "adjusted_g": lot.adjusted_g,
                "on_hand_g": lot.on_hand_g,
            }
            for lot in row.lots
        ],
    }


def _shortage_json(short: Shortage) -> dict[str, object]:
    return {
        "leaf": short.leaf,
        "class": short.leaf_class,
        "bench": None if short.bench is None else bench_json(short.bench),
        "at": short.at.isoformat() if short.at else None,
        "short_g": short.short_g,
    }


def stock_table(stock: Stock) -> Table:
    """A row a lot under a row of heads; a leaf in no lots has a row without one."""
    rows: Table = [STOCK_HEAD]
    for row in stock.leaves:
        for lot in row.lots:
            used = "yes" if row.lot is not None and lot.lot == row.lot.lot else "no"
            rows.append((row.leaf, row.leaf_class, *lot[1:11], used))
        if not row.lots:
            moved = (row.issued_g, row.returned_g)
            rows.append((row.leaf, row.leaf_class, *[None] * 6, *moved, None, None, None))
    return rows


def issue_json(sheet: IssueSheet) -> dict[str, object]:
    """The sheet under the keys of `leaf --issue --json`; grams on the scale today."""
    return {
        "loss_allowance": sheet.loss_allowance,
        "benches": [
            {
                "bench": bench_json(row.bench),
                "buncher": row.buncher or None,
                "blend": row.blend,
                "vitola": row.vitola,
                "quota": row.quota,
                "leaf": [
                    {
                        "leaf": cell.leaf,
                        "class": cell.leaf_class,
                        "g": cell.grams,
                        "pieces": cell.pieces,
                        "lots": [part._asdict() for part in cell.lots],
                    }
                    for cell in row.cells
                ],
            }
            for row in sheet.rows
        ],
        "totals": [
            {"leaf": t.leaf, "class": t.leaf_class, "moisture": t.moisture, "g": t.grams,
             "pieces": t.pieces, "on_hand_g": t.on_hand_g, "short_g": t.short_g}
            for t in sheet.totals
        ],
        "left_out": [bench_json(bench) for bench in sheet.left_out],
    }  # fmt: skip


def issue_table(sheet: IssueSheet) -> Table:
    """A row a bench, leaf and lot under a row of heads."""
    rows: Table = [ISSUE_HEAD]
    for row in sheet.rows:
        of_bench = (row.bench, row.buncher or None, row.blend, row.vitola, row.quota)
        rows += [
            (*of_bench, cell.leaf, cell.leaf_class, part.lot, part.grams)
            for cell in row.cells
            for part in cell.lots
        ]
    return rows
