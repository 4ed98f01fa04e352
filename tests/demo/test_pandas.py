"""Every total of the demo's fortnight, counted again by pandas from the raw lines of its books."""

from __future__ import annotations

from typing import Any

import pandas as pd
import pytest

from core.day.parts import Parts, parts
from core.day.report import DayReport
from core.day.summary import DaySummary, runs_of
from core.day.trend import trend
from tests.demo.frames import COUNTED, Frame


@pytest.fixture(scope="session")
def by(kept: list[DaySummary]) -> Parts:
    return parts(kept, {})


def first_pass(row: Any) -> float:
    passed = row["good"] - row["rework"]
    return float(passed / (passed + row["rejected"] + row["second"]))


@pytest.mark.parametrize("key", ["made", "good", "rework", "rejected"])
def test_counts_by_day(pieces: Frame, kept: list[DaySummary], key: str) -> None:
    expected = pieces.groupby("date")[key].sum().to_dict()
    assert {day["date"]: dict(day["totals"])[key] for day in kept} == expected


def test_output_beside_the_good_by_day(pieces: Frame, kept: list[DaySummary]) -> None:
    for key in ("second", "workers", "panel"):
        expected = pieces.groupby("date")[key].sum().to_dict()
        assert {d["date"]: dict(d["totals"]).get(key, 0) for d in kept} == expected


def test_rejects_by_fault_and_day(
    raw: Frame, kept: list[DaySummary], reports: list[DayReport]
) -> None:
    fails = raw[raw["kind"] == "fail"]
    for day, report in zip(kept, reports, strict=True):
        mine = pd.DataFrame(fails[fails["date"] == day["date"]]["faults"].tolist())
        assert day["faults"] == report.faults() == mine.sum().astype(int).to_dict()


def test_counts_by_run(pieces: Frame, kept: list[DaySummary]) -> None:
    """A summary has a row for each run; one of nothing is in no count."""
    for day in kept:
        runs = pd.DataFrame(dict(runs_of(day)))
        runs["bench"] = runs["bench"].astype(str)
        mine = pieces[pieces["date"] == day["date"]].set_index(["bench", "vitola"])
        found = runs.groupby(["bench", "vitola"])[["made", "good", "rework", "rejected"]].sum()
        found = found[found.sum(axis=1) > 0].sort_index()
        expected = mine[["made", "good", "rework", "rejected"]].sort_index()
        assert found.to_dict("index") == expected.to_dict("index")


@pytest.mark.parametrize("key", ["vitola", "bench", "buncher"])
def test_counts_yields_and_deviations_by_part(
    pieces: Frame, checks: Frame, by: Parts, key: str
) -> None:
    sums = pieces.groupby(key)[[*COUNTED, "rejected"]].sum()
    off = checks.groupby(key)["off"].agg(["mean", "sem"])
    found = getattr(by, f"by_{key}")
    assert set(found) == set(sums.index)
    for name, part in found.items():
        row = sums.loc[name]
        assert (part.made, part.good, part.rejected) == (row["made"], row["good"], row["rejected"])
        assert part.first_pass_yield == pytest.approx(first_pass(row))
        assert part.mean_deviation_g == pytest.approx(off.loc[name, "mean"], abs=1e-4)
        assert part.deviation_se_g == pytest.approx(off.loc[name, "sem"], rel=1e-2)


def test_yields_checks_and_deviations_by_day(
    pieces: Frame, checks: Frame, kept: list[DaySummary]
) -> None:
    sums = pieces.groupby("date")[[*COUNTED, "rejected"]].sum()
    off = checks.groupby("date").agg(
        n=("bench", "size"), out=("out", "sum"), mean=("off", "mean"), error=("off", "sem")
    )
    for line in trend({day["date"]: day for day in kept}, ()).days:
        assert line.figures is not None
        told, mine = line.figures.figures, off.loc[line.date]
        assert told.first_pass_yield == pytest.approx(first_pass(sums.loc[line.date]))
        assert (line.figures.checks, line.figures.out) == (mine["n"], mine["out"])
        assert told.mean_deviation_g == pytest.approx(mine["mean"], abs=1e-4)
        assert told.deviation_se_g == pytest.approx(mine["error"], rel=1e-3)


def test_leaf_issued_returned_and_used(
    raw: Frame, kept: list[DaySummary], reports: list[DayReport]
) -> None:
    moves = raw[raw["kind"].isin(["take", "back"])].copy()
    moves["used"] = moves["standard_g"].where(moves["kind"] == "take", -moves["standard_g"])
    scale = moves.pivot_table(
        index=["date", "leaf"], columns="kind", values="grams", aggfunc="sum", fill_value=0
    )
    used = moves.groupby(["date", "leaf"])["used"].sum()
    for day, report in zip(kept, reports, strict=True):
        leaf = day["leaf"]
        told = zip(leaf["code"], leaf["issued_g"], leaf["returned_g"], leaf["used_g"], strict=True)
        for (code, *grams), row in zip(told, report.leaf, strict=True):
            at = (day["date"], code)
            expected = [scale.loc[at, "take"], scale.loc[at, "back"], used.loc[at]]
            assert grams == pytest.approx(expected, abs=0.0051)
            shown = [row.issued_g, row.returned_g, row.used_standard_g]
            assert shown == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize(
    ("kind", "column"),
    [("scrap", "cuttings_g"), ("stem", "stem_g"), ("sweepings", "sweepings_g")],
)
def test_what_fell_off(raw: Frame, kept: list[DaySummary], kind: str, column: str) -> None:
    """All of it is some leaf's; by leaf it is shared, and rounded to a hundredth in each."""
    weighed = raw[raw["kind"] == kind].groupby("date")["standard_g"].sum()
    for day in kept:
        told = dict(day["leaf"]).get(column, [])
        assert isinstance(told, list)
        assert sum(told) == pytest.approx(
            weighed.get(day["date"], 0.0), abs=0.005 * len(told) + 1e-9
        )
