"""The line sheet written out."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest

from core.house.model import Approved, Vitola
from core.line.sheet import LineSheet, line_sheet
from core.line.written import line_csv, line_json
from tests.recipe.workshop import workshop


@pytest.fixture
def sheet() -> LineSheet:
    house = workshop(
        Vitola(code="robusto", ring=50, length_mm=127, box=30),
        Vitola(code="gordo", ring=60, length_mm=152.4, piece_rate=70, price=900),
        approved=[Approved(vitola="robusto", filler_g=11.0)],
    )
    return line_sheet(house, "B1", {})


def test_the_keys_of_the_json(sheet: LineSheet) -> None:
    found: Any = line_json(sheet)
    assert {"blend", "strength", "law", "vitolas", "smallest_ring"} <= set(found)
    assert {"a", "p", "entries", "residual_sd"} <= set(found["law"])
    robusto = found["vitolas"][0]
    assert {
        *("vitola", "ring", "length_mm", "filler_standard_g", "law_g", "approved_g", "gap"),
        *("classes", "filler_kg_per_1000", "filler_lb_per_1000", "wrapper_share", "cover_share"),
        *("air_speed", "holds", "strength_laid", "cost"),
    } <= set(robusto)
    assert list(robusto["classes"][0]) == [
        *("leaf", "class", "standard_g", "exact_g", "pieces", "piece_error"),
    ]
    assert {
        *("filler", "binder", "wrapper", "labour", "box", "total", "price", "margin"),
    } <= set(robusto["cost"])
    assert set(found["smallest_ring"]) == {"robusto", "gordo"}


def test_the_json_holds_the_sheets_figures(sheet: LineSheet) -> None:
    found: Any = line_json(sheet)
    assert found["vitolas"][0]["approved_g"] == 11.0
    assert found["vitolas"][1]["approved_g"] is None
    assert found["vitolas"][0]["classes"][2]["class"] == "ligero"
    assert found["law"]["warnings"] == ("exact fit: its error cannot be told",)


def test_the_csv_reads_back(sheet: LineSheet) -> None:
    table = list(csv.DictReader(io.StringIO(line_csv(sheet))))
    assert [row["vitola"] for row in table] == ["robusto", "gordo"]
    robusto, gordo = table
    assert float(robusto["filler_standard_g"]) == 11.0
    assert float(robusto["SE-1 standard_g"]) == pytest.approx(5.5)
    assert robusto["LI-1 pieces"] == "1"
    assert float(robusto["cost_box"]) == 30
    assert (robusto["cost_labour"], robusto["cost_margin"]) == ("", "")
    assert float(gordo["cost_price"]) == 900
    assert (gordo["approved_g"], gordo["gap"], gordo["beyond"]) == ("", "", "True")
