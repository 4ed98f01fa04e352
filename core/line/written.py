"""The line sheet as JSON keys and as a table for spreadsheets."""

from __future__ import annotations

import csv
import io

from core.line.sheet import LineRow, LineSheet

FIGURES = (
    "vitola",
    "ring",
    "length_mm",
    "filler_standard_g",
    "law_g",
    "approved_g",
    "gap",
    "beyond",
    "filler_kg_per_1000",
    "filler_lb_per_1000",
    "wrapper_share",
    "cover_share",
    "air_speed",
    "holds",
    "strength_laid",
)
COSTS = ("filler", "binder", "wrapper", "labour", "box", "total", "price", "margin")
CLASSES = ("standard_g", "exact_g", "pieces", "piece_error")


def line_json(sheet: LineSheet) -> dict[str, object]:
    """The sheet under the keys of `line --json`."""
    return {
        "blend": sheet.blend,
        "reference": sheet.reference,
        "strength": sheet.strength,
        "law": sheet.law.model_dump(
            include={"a", "p", "fitted", "entries", "residual_sd", "warnings"}
        ),
        "vitolas": [_row_json(row) for row in sheet.vitolas],
        "smallest_ring": dict(sheet.smallest_ring),
        "problems": [str(problem) for problem in sheet.problems],
    }


def _row_json(row: LineRow) -> dict[str, object]:
    whole = row.model_dump()
    whole["classes"] = [
        {"leaf": leaf.pop("leaf"), "class": leaf.pop("leaf_class"), **leaf}
        for leaf in whole["classes"]
    ]
    return whole


def line_csv(sheet: LineSheet) -> str:
    """The sheet as CSV, a row a vitola, a group of columns a leaf; empty where not known."""
    written = io.StringIO(newline="")
    table = csv.writer(written, lineterminator="\n")
    leaves = [each.leaf for each in sheet.vitolas[0].classes]
    table.writerow(
        (
            *FIGURES,
            "smallest_ring",
            *(f"cost_{name}" for name in COSTS),
            *(f"{leaf} {figure}" for leaf in leaves for figure in CLASSES),
        )
    )
    for row in sheet.vitolas:
        figures = row.model_dump()
        table.writerow(
            (
                *(figures[name] for name in FIGURES),
                sheet.smallest_ring[row.vitola],
                *(figures["cost"][name] for name in COSTS),
                *(leaf[figure] for leaf in figures["classes"] for figure in CLASSES),
            )
        )
    return written.getvalue()
