"""The day as figures: the keys of `day --json`, and what the Day screen shows."""

from __future__ import annotations

from typing import Literal, NamedTuple

from pydantic import SkipValidation

from core.units import kg_to_lb
from core.value import Sentence, Value


class Output(Value):
    """What was made, and the filler it took.

    `second` are cigars sold as seconds; of the good ones `held` are on hold, `workers` and
    `panel` were given to them. First-pass yield is passed first time ÷ inspected. Filler is
    at standard moisture; the standard is what the good cigars should have taken. None where
    nothing was inspected, used or made. On an open day the filler used still has what lies
    on the benches in it.
    """

    made: int
    good: int
    rework: int
    second: int = 0
    held: int = 0
    workers: int = 0
    panel: int = 0
    first_pass_yield: float | None = None
    leaf_yield: float | None = None
    filler_used_kg: float = 0.0
    filler_kg_per_1000_good: float | None = None
    standard_kg_per_1000: float | None = None

    @property
    def filler_lb_per_1000_good(self) -> float | None:
        """Filler used for 1,000 good cigars, pounds."""
        kg = self.filler_kg_per_1000_good
        return None if kg is None else kg_to_lb(kg)

    @property
    def standard_lb_per_1000(self) -> float | None:
        """Filler that 1,000 cigars should take, pounds."""
        kg = self.standard_kg_per_1000
        return None if kg is None else kg_to_lb(kg)


class RunDay(Output):
    """What one bench did of one blend and vitola that day: a piece rate goes by these.

    `held` is of that day: put on hold less let go, so below 0 where an earlier day's was.
    """

    blend: str
    vitola: str
    rejected: dict[str, int]


class BenchDay(Output):
    """One bench's day; `vitola` is what it rolled last, `runs` what it did of each.

    The deviation is grams on the scale, of bunch and filler checks. `held` is what is on
    hold now, an earlier day's too.
    """

    bench: int | str
    buncher: str | None
    vitola: str
    rejected: dict[str, int]
    checks: int
    out: int
    mean_deviation_g: float | None
    runs: tuple[RunDay, ...] = ()


class VitolaDay(Output):
    """One vitola's day over all benches and blends; `held` as in its runs."""

    vitola: str
    rejected: dict[str, int]


class BuncherDay(Output):
    """One buncher's day, over the benches that the house book gives them."""

    buncher: str
    rejected: dict[str, int]


class Totals(Output):
    """The house's day."""

    rejected: int


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
    in_seconds_g: float = 0.0
    stem_g: float = 0.0
    sweepings_g: float = 0.0


class LeafPart(NamedTuple):
    """Where one leaf of what a bench rolled went, standard grams.

    Every column but the error adds up to the leaf's row. What a bench used is shared over
    what it rolled by what it packed, sweepings of the room by use. Those of a leaf that no
    bench used have no bench: it is None, and blend and vitola are empty.
    """

    bench: int | str | None
    blend: str
    vitola: str
    leaf: str
    leaf_class: str
    used_standard_g: float
    in_good_g: float
    in_seconds_g: float
    rejects_g: float
    heavy_g: float
    heavy_se_g: float | None
    cuttings_g: float
    stem_g: float
    sweepings_g: float
    unexplained_g: float


Reason = Literal["first_pass", "leaf_over", "leaf_under", "heavy", "light", "unchecked"]


class StandOut(Value):
    """A bench that stands out, and why.

    - first_pass: `value` is its first-pass yield, `against` the house's, of `n` inspected
    - leaf_over, leaf_under: kilograms of filler that nothing explains (below 0: too little
      was booked) for each 1,000 of its `n` good cigars, `against` the standard for 1,000
    - heavy, light: grams a bunch of `vitola` off the target, against 0, by `n` figures
    - unchecked: no check all day of what it made, `n` bunches

    `tells` is how far from `against` (leaf: from 0) chance and the checks' errors may lead.
    """

    bench: int | str
    reason: Reason
    n: int
    value: float | None = None
    against: float | None = None
    tells: float | None = None
    vitola: str | None = None


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
    warnings: tuple[Sentence, ...]
    reopened: int = 0
    late: int = 0
    by_vitola: tuple[VitolaDay, ...] = ()
    by_buncher: tuple[BuncherDay, ...] = ()
    split: SkipValidation[tuple[LeafPart, ...]] = ()
    standouts: tuple[StandOut, ...] = ()

    def faults(self) -> dict[str, int]:
        """What failed over all benches, by fault, in the order first met."""
        found: dict[str, int] = {}
        for bench in self.benches:
            for fault, n in bench.rejected.items():
                found[fault] = found.get(fault, 0) + n
        return found


def day_json(report: DayReport) -> dict[str, object]:
    """The report under the keys of `day --json`."""
    whole = report.model_dump(exclude={"split"})
    whole["split"] = [part._asdict() for part in report.split]
    for row in (*whole["leaf"], *whole["split"]):
        row["class"] = row.pop("leaf_class")
    return whole
