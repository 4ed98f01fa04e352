"""The day reports of the demo's fortnight against pandas: benches, leaf by bench, offcuts, lots."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np
import pandas as pd
import pytest

from core.day.report import DayReport
from core.house.model import HouseBook
from demo.cards import Cards
from tests.demo.frames import COUNTED, Frame

BY_BENCH = ["date", "bench", "vitola", "leaf"]
EACH = pytest.mark.parametrize(
    ("name", "rows"), [("bench", "benches"), ("vitola", "by_vitola"), ("buncher", "by_buncher")]
)


def by_day(table: Frame, report: DayReport) -> Frame:
    return table[table["date"] == report.date]


# -- counts, checks, yields ---------------------------------------------------------------


def told(rows: Iterable[Any], name: str) -> Frame:
    """The rows of a report as a table, by what they are of; counts and yields."""
    table = pd.DataFrame([row.model_dump() for row in rows])
    table["rejected"] = table["rejected"].map(lambda faults: sum(faults.values()))
    return table.assign(**{name: table[name].astype(str)}).set_index(name).sort_index()


@EACH
def test_counts_and_first_pass_yields_of_each_report(
    pieces: Frame, reports: list[DayReport], name: str, rows: str
) -> None:
    for report in reports:
        columns = [*COUNTED, "rejected"]
        mine = by_day(pieces, report).groupby(name)[columns].sum().sort_index()
        found = told(getattr(report, rows), name)
        assert found[columns].to_dict("index") == mine.to_dict("index")
        passed = mine["good"] - mine["rework"]
        expected = passed / (passed + mine["rejected"] + mine["second"])
        assert found["first_pass_yield"].to_numpy() == pytest.approx(expected.to_numpy())


def test_cigars_on_hold_are_those_held_less_those_let_go_since(
    pieces: Frame, reports: list[DayReport]
) -> None:
    """A bench's hold goes on from day to day; the house's is the sum."""
    moves = pieces.assign(held=pieces["hold"] - pieces["release"])
    table = moves.pivot_table(index="date", columns="bench", values="held", aggfunc="sum")
    held = table.fillna(0).cumsum()
    assert held.to_numpy().max() > 0
    for report in reports:
        mine = held.loc[report.date]
        assert {str(row.bench): row.held for row in report.benches} == mine.to_dict()
        assert report.totals.held == mine.sum()


def test_checks_and_deviations_of_each_bench(checks: Frame, reports: list[DayReport]) -> None:
    for report in reports:
        mine = by_day(checks, report).groupby("bench").agg(
            checks=("bench", "size"), out=("out", "sum"), off=("off", "mean")
        )  # fmt: skip
        for row in report.benches:
            expected = mine.loc[str(row.bench)]
            assert (row.checks, row.out) == (expected["checks"], expected["out"])
            assert row.mean_deviation_g == pytest.approx(expected["off"], abs=1e-9)


# -- leaf by bench and vitola -------------------------------------------------------------


@pytest.fixture(scope="session")
def recipes(house: HouseBook, cards: Cards) -> Frame:
    """Standard grams of each leaf in one piece of each vitola, by the house book."""
    rows: list[tuple[str, str, float]] = []
    (blend,) = house.blends
    for vitola in house.vitola:
        card = cards(blend.code, vitola, {code: leaf.moisture for code, leaf in house.leaf.items()})
        filler_g = card.packing.filler_standard_g
        rows += [(vitola, leaf, filler_g * share) for leaf, share in blend.shares.items()]
        covers = (house.cover[code] for code in (blend.binder, blend.wrapper))
        rows += [(vitola, c.code, c.pieces * c.half_leaf_g) for c in covers]
    return pd.DataFrame(rows, columns=["vitola", "leaf", "piece_g"])


@pytest.fixture(scope="session")
def used(raw: Frame, pieces: Frame, recipes: Frame) -> Frame:
    """Leaf used by bench and vitola: what a bench used, by what it packed of it."""
    moves = raw[raw["kind"].isin(["take", "back"])].copy()
    moves["used_g"] = moves["standard_g"].where(moves["kind"] == "take", -moves["standard_g"])
    at_bench = moves.groupby(["date", "bench", "leaf"])["used_g"].sum().reset_index()
    table = pieces.merge(recipes, on="vitola").merge(at_bench, on=["date", "bench", "leaf"])
    table["packed_g"] = table["bunches"] * table["piece_g"]
    whole = table.groupby(["date", "bench", "leaf"])["packed_g"].transform("sum")
    table["used_standard_g"] = table["used_g"] * table["packed_g"] / whole
    for column, count in (("in_good_g", "good"), ("in_seconds_g", "second"), ("rejects_g", "lost")):
        table[column] = table[count] * table["piece_g"]
    return table.set_index(BY_BENCH).sort_index()


@pytest.fixture(scope="session")
def splits(reports: list[DayReport]) -> Frame:
    table = pd.concat(
        pd.DataFrame([part._asdict() for part in report.split]).assign(date=report.date)
        for report in reports
    )
    table["bench"] = table["bench"].astype(str)
    return table.set_index(BY_BENCH).sort_index()


def test_leaf_used_and_in_good_seconds_and_rejects_by_bench_and_vitola(
    used: Frame, splits: Frame
) -> None:
    assert used.index.equals(splits.index)
    for column in ("used_standard_g", "in_good_g", "in_seconds_g", "rejects_g"):
        assert np.allclose(splits[column], used[column], rtol=1e-9, atol=1e-6)
    assert used["in_seconds_g"].sum() > 0


def test_offcuts_by_bench_and_sweepings_by_use(
    raw: Frame, used: Frame, splits: Frame, house: HouseBook
) -> None:
    """Cuttings and stem of no leaf are the bench's fillers' by use, the room's sweepings all's."""
    key = ["date", "bench", "leaf"]
    at_bench = used["used_g"].groupby(key).first()
    filler = at_bench[at_bench.index.get_level_values("leaf").isin(list(house.filler))]
    of_bench = filler.reset_index()
    of_bench["share"] = of_bench["used_g"] / of_bench.groupby(key[:2])["used_g"].transform("sum")
    for kind, column in (("scrap", "cuttings_g"), ("stem", "stem_g")):
        fell = raw[raw["kind"] == kind].groupby(key[:2])["standard_g"].sum().reset_index()
        mine = of_bench.merge(fell, on=key[:2]).set_index(key)
        found = splits[column].groupby(key).sum()
        assert found.sum() == pytest.approx(fell["standard_g"].sum())
        expected = mine["share"] * mine["standard_g"]
        assert np.allclose(found.loc[expected.index], expected, rtol=1e-9, atol=1e-6)
    swept = raw[raw["kind"] == "sweepings"].groupby("date")["standard_g"].sum()
    dates = used.index.get_level_values("date")
    whole = used["used_standard_g"].groupby("date").sum()
    expected = used["used_standard_g"] * (swept / whole).loc[dates].to_numpy()
    assert np.allclose(splits["sweepings_g"], expected, rtol=1e-9, atol=1e-6)


def test_the_parts_of_the_leaf_add_up_to_what_was_used(splits: Frame) -> None:
    parts = splits.filter(regex="_g$").drop(columns=["used_standard_g", "heavy_se_g"])
    assert np.allclose(parts.sum(axis=1), splits["used_standard_g"], rtol=0, atol=1e-6)


@EACH
def test_leaf_yields_and_filler_per_thousand_of_each_report(
    used: Frame, reports: list[DayReport], house: HouseBook, name: str, rows: str
) -> None:
    filler = used.reset_index()
    filler = filler[filler["leaf"].isin(list(house.filler))]
    good = filler.drop_duplicates(["date", "bench", "vitola"])
    for report in reports:
        keys = by_day(filler, report).groupby(name)
        used_g, in_good_g = keys["used_standard_g"].sum(), keys["in_good_g"].sum()
        n = by_day(good, report).groupby(name)["good"].sum()
        for row in getattr(report, rows):
            at = str(getattr(row, name))
            assert row.leaf_yield == pytest.approx(in_good_g[at] / used_g[at])
            assert row.filler_used_kg == pytest.approx(used_g[at] / 1000)
            assert row.filler_kg_per_1000_good == pytest.approx(used_g[at] / n[at])
            assert row.standard_kg_per_1000 == pytest.approx(in_good_g[at] / n[at])
        assert report.leaf_yield == pytest.approx(in_good_g.sum() / used_g.sum())
