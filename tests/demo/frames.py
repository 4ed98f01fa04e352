"""The raw lines of the demo's books as tables, by pandas alone."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from core.house.model import HouseBook
from demo.shift import WORKING_DAYS

COUNTED = ("made", "good", "rework", "second", "workers", "panel")
OUTPUT = (*COUNTED, "hold", "release")
Frame = Any  # pandas has no types of its own here


def raw_lines(folder: Path, house: HouseBook) -> Frame:
    """Every entry of the closed days that is not void, a row each, in the journals' order."""
    rows: list[dict[str, Any]] = []
    for date in WORKING_DAYS[:-1]:
        day: dict[int, dict[str, Any]] = {}
        for line in (folder / "days" / f"{date}.jsonl").read_text("utf-8").splitlines():
            if not line.strip():  # a book may end in blanks, kept for the lines to come
                continue
            for number, entry in json.loads(line).get("add", {}).get("entries", {}).items():
                day[int(number)] = entry | {"date": date.isoformat()}
        void = {entry["voids"] for entry in day.values() if entry["kind"] == "undo"}
        rows += [entry for number, entry in sorted(day.items()) if number not in void]
    table = pd.DataFrame(rows)
    table["buncher"] = table["bench"].map({n: seat.buncher for n, seat in house.bench.items()})
    standard = 1 - house.house.standard_moisture
    table["standard_g"] = table["grams"] * (1 - table["moisture"]) / standard
    return table


def piece_counts(raw: Frame) -> Frame:
    """Counts a row, a column a kind; rejects under `rejected`, and what of them was `lost`."""
    fails = raw[raw["kind"] == "fail"].copy()
    fails["n"] = fails["faults"].map(lambda faults: sum(faults.values()))
    fails["kind"] = "rejected"
    counts = pd.concat([raw[raw["kind"].isin(OUTPUT)], fails])
    keys = ["date", "bench", "vitola", "buncher"]
    table = counts.pivot_table(index=keys, columns="kind", values="n", aggfunc="sum", fill_value=0)
    table = table.reindex(columns=[*OUTPUT, "rejected"], fill_value=0).reset_index()
    table["lost"] = (table["rejected"] - table["rework"]).clip(lower=0)
    inspected = table["good"] + table["second"] + table["lost"]
    table["bunches"] = np.maximum(table["made"], inspected)
    return table


def all_checks(raw: Frame) -> Frame:
    """A row a check, whole or reading by reading."""
    typed = raw[raw["kind"] == "check"]
    read = raw[raw["kind"] == "reading"]
    single = read.groupby(["date", "check"]).agg(
        bench=("bench", "first"), vitola=("vitola", "first"), buncher=("buncher", "first"),
        measure=("measure", "first"), target=("target", "first"), low=("low", "first"),
        high=("high", "first"), readings=("reading", list),
    ).reset_index()  # fmt: skip
    table = pd.concat([typed, single])
    table["mean"] = table["readings"].map(np.mean)
    table["least"], table["greatest"] = table["readings"].map(min), table["readings"].map(max)
    under, over = table["least"] < table["low"] - 1e-9, table["greatest"] > table["high"] + 1e-9
    table["out"] = under | over
    weighed = table["measure"].isin(["bunch", "filler"]) & table["target"].notna()
    table["off"] = (table["mean"] - table["target"]).where(weighed)
    return table
