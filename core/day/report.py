"""The day as figures: the keys of `day --json`, and what the Day screen shows."""

from __future__ import annotations

from core.house.model import Value


class RunDay(Value):
    """What one bench did of one blend and vitola that day: a piece rate goes by these."""

    blend: str
    vitola: str
    made: int
    good: int
    rejected: dict[str, int]
    rework: int


class BenchDay(Value):
    """One bench's day; `vitola` is what it rolled last, `runs` what it did of each.

    The deviation is grams on the scale, of bunch and filler checks.
    """

    bench: int | str
    buncher: str | None
    vitola: str
    made: int
    good: int
    rejected: dict[str, int]
    rework: int
    checks: int
    out: int
    mean_deviation_g: float | None
    runs: tuple[RunDay, ...] = ()


class Totals(Value):
    """The house's day. First-pass yield is passed first time ÷ inspected."""

    made: int
    good: int
    rejected: int
    rework: int
    first_pass_yield: float | None


class LeafDay(Value):
    """Where one leaf went. Issued and returned as weighed; the rest standard grams.

    `heavy_g` is filler beyond target (negative: short of it) with its standard error, None
    where no check tells it. `beyond`: more is unexplained, either way, than the checks and
    the rounding of portions can tell; leaf not yet explained on an open day is not.
    """

    leaf: str
    leaf_class: str
    issued_g: float
    returned_g: float
    used_standard_g: float
    in_good_g: float
    rejects_g: float
    heavy_g: float
    heavy_se_g: float | None
    cuttings_g: float
    unexplained_g: float
    beyond: bool


class NoteLine(Value):
    """A note of the day, with the bench it is about."""

    bench: int | str | None
    text: str


class DayReport(Value):
    """A working day, whole."""

    date: str
    closed: bool
    benches: tuple[BenchDay, ...]
    totals: Totals
    leaf: tuple[LeafDay, ...]
    leaf_yield: float | None
    notes: tuple[NoteLine, ...]
    entries: int
    voided: int
    damaged_lines: int
    warnings: tuple[str, ...]

    def faults(self) -> dict[str, int]:
        """What failed over all benches, by fault, in the order first met."""
        found: dict[str, int] = {}
        for bench in self.benches:
            for fault, n in bench.rejected.items():
                found[fault] = found.get(fault, 0) + n
        return found


def day_json(report: DayReport) -> dict[str, object]:
    """The report under the keys of `day --json`."""
    whole = report.model_dump()
    for row in whole["leaf"]:
        row["class"] = row.pop("leaf_class")
    return whole
