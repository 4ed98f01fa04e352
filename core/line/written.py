"""The line sheet as JSON keys and as a table for spreadsheets."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from core.line.pieces import Bound
from core.line.sheet import LineClass, LineRow, LineSheet
from core.recipe.influence import Influence

FIGURES = (
    "vitola",
    "ring",
    "length_mm",
    "filler_standard_g",
    "law_g",
    "approved_g",
    "gap",
    "beyond",
    "low_g",
    "high_g",
    "filler_kg_per_1000",
    "filler_lb_per_1000",
    "wrapper_share",
    "cover_share",
    "air_speed",
    "holds",
    "worst",
    "strength_laid",
    "finished_g",
)
COSTS = (
    *("filler", "loss", "binder", "wrapper", "labour", "box", "total", "price", "margin"),
    *("excise", "after_excise", "price_by_filler"),
)
LAW = ("a", "p", "fitted", "entries", "residual_sd", "warnings")
CLASSES = ("standard_g", "exact_g", "pieces", "piece_error")


def line_json(sheet: LineSheet, influence: Iterable[Influence] | None = None) -> dict[str, object]:
    """The sheet under the keys of `line --json`; `influence` where it was asked for."""
    whole: dict[str, object] = {
        "blend": sheet.blend,
        "reference": sheet.reference,
        "strength": sheet.strength,
        "law": {name: getattr(sheet.law, name) for name in LAW},
        "vitolas": [_row_json(row) for row in sheet.vitolas],
        "smallest_ring": dict(sheet.smallest_ring),
        "smallest_ring_bound": {
            code: None if found.bound is None else _class_json(found.bound)
            for code, found in sheet.smallest.items()
        },
        "loss": None if sheet.loss is None else sheet.loss._asdict(),
        "earnings": [each._asdict() for each in sheet.earnings],
        "problems": [str(problem) for problem in sheet.problems],
    }
    if influence is not None:
        whole["influence"] = [{**each._asdict(), "moves_g": each.moves_g} for each in influence]
    return whole


def _row_json(row: LineRow) -> dict[str, object]:
    return {
        **row._asdict(),
        "classes": [_class_json(each) for each in row.classes],
        "cost": row.cost._asdict(),
    }


def _class_json(each: LineClass | Bound) -> dict[str, object]:
    fields = each._asdict()
    return {"leaf": fields.pop("leaf"), "class": fields.pop("leaf_class"), **fields}


def line_csv(sheet: LineSheet) -> str:
    """The sheet as CSV, a row a vitola, a group of columns a leaf; empty where not known."""
    written = io.StringIO(newline="")
    table = csv.writer(written, lineterminator="\n")
    leaves = [each.leaf for each in sheet.vitolas[0].classes]
    table.writerow(
        (
            *FIGURES,
            "smallest_ring",
            "smallest_ring_leaf",
            *(f"cost_{name}" for name in COSTS),
            *(f"{leaf} {figure}" for leaf in leaves for figure in CLASSES),
        )
    )
    for row in sheet.vitolas:
        table.writerow(
            (
                *(getattr(row, name) for name in FIGURES),
                sheet.smallest_ring[row.vitola],
                bound.leaf if (bound := sheet.smallest[row.vitola].bound) else None,
                *(getattr(row.cost, name) for name in COSTS),
                *(getattr(leaf, figure) for leaf in row.classes for figure in CLASSES),
            )
        )
    return written.getvalue()
