"""Mass balance: whatever is entered, every leaf's columns close and the parts add up."""

from __future__ import annotations

import math
from typing import NamedTuple

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.day.adding import COLUMNS, told
from tests.day.book import Writer

STANDARD = 0.13


class Typed(NamedTuple):
    kind: str
    bench: str
    vitola: str
    leaf: str
    named: bool
    grams: float
    moisture: float


KINDS = (
    "take", "back", "made", "good", "fail", "rework", "second", "hold", "workers", "scrap",
    "stem", "sweepings", "check", "roll", "undo",
)  # fmt: skip
ANY = st.builds(
    Typed,
    kind=st.sampled_from(KINDS),
    bench=st.sampled_from(["7", "8", "9"]),
    vitola=st.sampled_from(["toro", "corona"]),
    leaf=st.sampled_from(["SE-1", "LI-1", "LI-9", "BI-1"]),
    named=st.booleans(),
    grams=st.floats(0.1, 5000),
    moisture=st.floats(0.05, 0.4),
)


def write(day: Writer, typed: Typed) -> None:
    kind, bench, vitola, leaf, named, grams, moisture = typed
    at = {"vitola": vitola}
    if kind in ("take", "back"):
        day(kind, bench, leaf=leaf, grams=grams, moisture=moisture, **at)
    elif kind in ("scrap", "stem"):
        of = {"leaf": leaf} if named else {}
        day(kind, bench, grams=grams, moisture=moisture, **of, **at)
    elif kind == "sweepings":
        of = {"leaf": leaf} if named else {}
        day(kind, grams=grams, moisture=moisture, **of)
    elif kind == "check":
        day(
            "check", bench, measure="bunch", readings=[12.0, 12.0 + grams / 5000], target=12.0,
            low=11.4, high=12.6, standard=(1 - moisture) / (1 - STANDARD), **at,
        )  # fmt: skip
    elif kind == "fail":
        day(kind, bench, faults={"torn": int(grams) % 9 + 1}, **at)
    elif kind == "roll":
        day(kind, bench, **at)
    elif kind == "undo":
        if day.ledger.latest:
            day(kind, voids=int(grams) % day.ledger.latest + 1)
    else:
        day(kind, bench, n=int(grams) % 90 + 1, **at)


@settings(deadline=None, max_examples=120)
@given(st.lists(ANY, max_size=50))
def test_every_leaf_closes_and_its_parts_add_up(entries: list[Typed]) -> None:
    day = Writer()
    for typed in entries:
        write(day, typed)
    report = told(day)
    tolerance_g = 1e-6
    for row in report.leaf:
        used, *known, rest = (getattr(row, name) for name in COLUMNS)
        assert math.isclose(used, math.fsum(known) + rest, rel_tol=1e-9, abs_tol=tolerance_g)
        parts = [part for part in report.split if part.leaf == row.leaf]
        for name in COLUMNS:
            assert getattr(row, name) == math.fsum(getattr(part, name) for part in parts)
    for part in report.split:
        used, *known, rest = (getattr(part, name) for name in COLUMNS)
        assert math.isclose(used, math.fsum(known) + rest, rel_tol=1e-9, abs_tol=tolerance_g)
    assert {part.leaf for part in report.split} <= {row.leaf for row in report.leaf}


@settings(deadline=None, max_examples=120)
@given(st.lists(ANY, max_size=50))
def test_nothing_that_was_weighed_is_lost(entries: list[Typed]) -> None:
    """Issues less returns, cuttings, stem and sweepings: the rows hold what the entries say."""
    day = Writer()
    for typed in entries:
        write(day, typed)
    weighed = dict.fromkeys(("take", "back", "scrap", "stem", "sweepings"), 0.0)
    used: dict[str, float] = {}
    for number, entry in day.ledger.entries.items():
        kind = entry["kind"]
        if number in day.ledger.undone or kind not in weighed:
            continue
        grams = entry["grams"] * (1 - entry["moisture"]) / (1 - STANDARD)  # type: ignore[typeddict-item]
        weighed[kind] += grams
        if kind in ("take", "back"):
            leaf = entry["leaf"]  # type: ignore[typeddict-item]
            used[leaf] = used.get(leaf, 0.0) + (grams if kind == "take" else -grams)
    report = told(day)
    rows = {row.leaf: row for row in report.leaf}

    def close(mine: float, theirs: float) -> bool:
        return math.isclose(mine, theirs, rel_tol=1e-9, abs_tol=1e-6)

    for leaf, grams in used.items():
        assert close(rows[leaf].used_standard_g, grams)
    assert close(math.fsum(row.cuttings_g for row in report.leaf), weighed["scrap"])
    assert close(math.fsum(row.stem_g for row in report.leaf), weighed["stem"])
    swept = math.fsum(row.sweepings_g for row in report.leaf)
    if not any("sweepings" in says for says in report.warnings):
        assert close(swept, weighed["sweepings"])
