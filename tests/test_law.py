"""Weights that the law names, read as a house would write them. Aid only: the text decides."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.desk.load import examine
from core.house.amounts import WEIGHT, parse
from core.line.sheet import line_sheet

DEMO = Path(__file__).parent.parent / "demo" / "house.toml"

LARGE_CIGAR_G = 1.36077711
"""26 U.S.C. 5701(a): large cigars weigh more than three pounds per thousand."""


def test_three_pounds_per_thousand_is_the_weight_of_one_piece() -> None:
    assert parse("3 lb/1000", WEIGHT) == pytest.approx(LARGE_CIGAR_G, abs=1e-9)


def test_every_cigar_of_the_demo_is_a_large_one() -> None:
    house = examine(DEMO.read_bytes(), DEMO.name).house
    assert house is not None
    sheet = line_sheet(house, "B4", {})
    assert len(sheet.vitolas) == 8
    assert all(row.filler_lb_per_1000 > 3 for row in sheet.vitolas)
