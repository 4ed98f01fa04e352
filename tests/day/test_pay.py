"""Piece-rate counts, worked by hand."""

from __future__ import annotations

from typing import Any, cast

import pytest

from core.day.pay import Pay, pay
from core.day.summary import DaySummary, Runs, as_text
from core.house.model import HouseBook
from tests.day.book import HOUSE

RATED = HOUSE._replace(
    vitolas=tuple(
        vitola._replace(piece_rate=60.0) if vitola.code == "toro" else vitola
        for vitola in HOUSE.vitolas
    )
)
DEARER = HOUSE._replace(vitolas=tuple(v._replace(piece_rate=70.0) for v in HOUSE.vitolas))
HOUSES: dict[int, HouseBook] = {1: RATED, 2: DEARER}


def day(date: str, version: int, **runs: list[Any]) -> DaySummary:
    columns = cast("Runs", {"bench": [7, 7], "vitola": ["toro", "corona"], **runs})
    return cast(
        "DaySummary",
        {
            "date": date,
            "version": version,
            "faults": {"torn": 6, "stain": 9},
            "runs": as_text(columns),
        },
    )


def made(date: str, version: int = 1) -> DaySummary:
    return day(
        date, version, buncher=["P-07", "P-07"], good=[250, 40], rejected=[9, 0], rework=[4, 0],
        second=[3, 0],
    )  # fmt: skip


def counted(*days: DaySummary) -> Pay:
    return pay(days, HOUSES)


def test_accepted_cigars_go_by_the_rate_of_a_thousand() -> None:
    """500 accepted at 60 a thousand are 30; 10 not mended and 6 seconds stand beside it."""
    corona, toro = counted(made("2026-05-04"), made("2026-05-05")).lines
    assert (toro.buncher, toro.roller, toro.accepted, toro.days) == ("P-07", "R-07", 500, 2)
    assert toro.amount == pytest.approx(30.0)
    assert (toro.not_mended, toro.second) == (10, 6)
    assert (corona.accepted, corona.rate_per_1000, corona.amount) == (80, None, None)


def test_nothing_is_taken_off() -> None:
    told = counted(made("2026-05-04"))
    assert told.amount == pytest.approx(250 * 60 / 1000)
    assert "nothing is decided" in str(told.json()["caution"])


def test_a_new_rate_has_a_row_of_its_own() -> None:
    told = counted(made("2026-05-04", 1), made("2026-05-05", 2))
    rates = [(line.rate_per_1000, line.accepted) for line in told.lines if line.vitola == "toro"]
    assert rates == [(60.0, 250), (70.0, 250)]


def test_faults_are_the_houses_with_what_usually_happens() -> None:
    """Common practice, no source: a torn wrapper is wrapped again, a stain makes a second."""
    told = counted(made("2026-05-04"), made("2026-05-05"))
    assert told.faults == (("stain", 18, "second"), ("torn", 12, "re-wrap"))
