"""The house book as values: grams, millimetres, fractions; no unit text, no file.

Named tuples, not models that check themselves: what a file says is checked as it is read
(`core.house.read`), what was stored had been, and a terminal must not wait for more.
"""

from __future__ import annotations

import re
from functools import cached_property
from typing import Literal, NamedTuple

from core.measure import DrawRises

FillerClass = Literal["volado", "seco", "viso", "ligero", "medio tiempo"]
CoverUse = Literal["binder", "wrapper"]
Shape = Literal["parejo", "pressed", "figurado"]
Language = Literal["en", "es"]
SpreadChart = Literal["deviation", "range"]
RunRule = Literal["beyond", "two_of_three", "four_of_five", "one_side", "run"]

LAYING_ORDER: tuple[FillerClass, ...] = ("volado", "seco", "viso", "ligero", "medio tiempo")


class Tolerance(NamedTuple):
    """Half the width of a window: a share of the target, or grams whatever the target."""

    share: float | None = None
    grams: float | None = None

    def of(self, target_g: float) -> float:
        """Grams each side of `target_g`."""
        return self.grams if self.grams is not None else (self.share or 0.0) * target_g


USUAL_TOLERANCE = Tolerance(share=0.04)


class HouseRules(NamedTuple):
    """`[house]`: what holds for every bench. Moisture is wet basis, shares are fractions.

    The defaults for ring (gauge) and length are common practice, no source. `draw_rises` is
    what a higher figure on a dial for draw means; `loss_allowance` the share of the filler
    issued that is taken to be lost before the bunch; `hours_min` how long a bench works a day.
    `rules` are the run rules that control charts watch, `spread_chart` what they show of the
    spread within a check: standard deviations, or ranges for who reckons by hand. `pin` is the
    house's PIN, hashed (`core.house.pin`); None asks nobody for one.
    """

    name: str
    standard_moisture: float
    scale_division_g: float
    language: Language = "en"
    currency: str | None = None
    tolerance: Tolerance = USUAL_TOLERANCE
    bundle_tolerance: float = 0.02
    ring_tolerance: float = 1.0
    length_tolerance_mm: float = 1.5
    draw_rises: DrawRises | None = None
    rounding_limit: float = 0.02
    portion_limit: float = 0.15
    weigh_every_min: float = 60.0
    readings: int = 5
    packing_g_per_cm3: float | None = None
    day_begins: str = "00:00"
    loss_allowance: float = 0.0
    hours_min: float | None = None
    spread_chart: SpreadChart = "deviation"
    rules: tuple[RunRule, ...] = ("beyond", "two_of_three", "four_of_five", "one_side", "run")
    pin: str | None = None


class Excise(NamedTuple):
    """`[excise]`, as the house's adviser gives it: a share of the price, for pieces of a weight.

    Money per 1,000 pieces. Without a cap there is none; `above_g` is the finished weight of
    one piece that it is due beyond, standard grams.
    """

    rate: float
    cap_per_1000: float | None = None
    above_g: float = 0.0


class FillerLeaf(NamedTuple):
    """A filler leaf as stocked. `half_leaf_g` at standard moisture; price per kg at it."""

    code: str
    leaf_class: FillerClass
    moisture: float
    half_leaf_g: float
    name: str = ""
    use: Literal["filler"] = "filler"
    piece: float = 0.5
    price_per_kg: float | None = None
    strength: float | None = None


class CoverLeaf(NamedTuple):
    """A binder or wrapper leaf. `build_mm` is what all its layers add to the radius."""

    code: str
    use: CoverUse
    moisture: float
    half_leaf_g: float
    build_mm: float
    on_cigar_g_per_m2: float
    name: str = ""
    pieces: float = 1.0
    overlap: float = 0.30
    price_per_kg: float | None = None


Leaf = FillerLeaf | CoverLeaf


class Part(NamedTuple):
    """One filler leaf of a blend, in parts by weight at standard moisture."""

    leaf: str
    parts: float


class _Blend(NamedTuple):
    code: str
    parts: tuple[Part, ...]
    binder: str
    wrapper: str
    name: str = ""


class Blend(_Blend):
    """A recipe: filler parts in the blend's order, a binder and a wrapper."""

    @cached_property
    def shares(self) -> dict[str, float]:
        """Fraction of the filler's standard grams by leaf code, in the blend's order."""
        total = sum(part.parts for part in self.parts)
        return {part.leaf: part.parts / total for part in self.parts}


class Station(NamedTuple):
    """A place along a figurado, from the foot, and the ring gauge there."""

    at_mm: float
    ring: float


class DrawWindow(NamedTuple):
    """The house's window for draw checks, in millimetres of water column."""

    low_mmh2o: float
    high_mmh2o: float
    unit: Literal["mmH2O"] = "mmH2O"


class DialWindow(NamedTuple):
    """The house's window for draw checks, in readings of its own dial."""

    low: float
    high: float
    unit: Literal["dial"] = "dial"


class Vitola(NamedTuple):
    """A size. `ring` is the greatest ring gauge (64ths of an inch)."""

    code: str
    ring: float
    length_mm: float
    shape: Shape = "parejo"
    profile: tuple[Station, ...] = ()
    tolerance: Tolerance | None = None
    draw: DrawWindow | DialWindow | None = None
    draw_rises: DrawRises | None = None
    piece_rate: float | None = None
    box: float | None = None
    price: float | None = None


class Approved(NamedTuple):
    """Approved bunches, weighed: mean filler at standard moisture."""

    vitola: str
    filler_g: float
    blend: str | None = None
    bunches: int = 1
    spread_g: float | None = None


class Bench(NamedTuple):
    """A bench of the rolling room. `number` is digits, or digits, a dash and text."""

    number: str
    blend: str
    vitola: str
    buncher: str | None = None
    roller: str | None = None
    quota: int | None = None


class _HouseBook(NamedTuple):
    house: HouseRules
    excise: Excise | None = None
    leaves: tuple[Leaf, ...] = ()
    blends: tuple[Blend, ...] = ()
    vitolas: tuple[Vitola, ...] = ()
    approved: tuple[Approved, ...] = ()
    benches: tuple[Bench, ...] = ()


class HouseBook(_HouseBook):
    """Everything a house says of itself, checked: every code it refers to is there."""

    @cached_property
    def leaf(self) -> dict[str, Leaf]:
        return {leaf.code: leaf for leaf in self.leaves}

    @cached_property
    def filler(self) -> dict[str, FillerLeaf]:
        return {leaf.code: leaf for leaf in self.leaves if isinstance(leaf, FillerLeaf)}

    @cached_property
    def cover(self) -> dict[str, CoverLeaf]:
        return {leaf.code: leaf for leaf in self.leaves if isinstance(leaf, CoverLeaf)}

    @cached_property
    def blend(self) -> dict[str, Blend]:
        return {blend.code: blend for blend in self.blends}

    @cached_property
    def vitola(self) -> dict[str, Vitola]:
        return {vitola.code: vitola for vitola in self.vitolas}

    @cached_property
    def bench(self) -> dict[str, Bench]:
        return {bench.number: bench for bench in self.benches}


BENCH_NUMBER = re.compile(r"(\d{1,4})(?:-(\w{1,8}))?")
