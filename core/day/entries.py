"""Everything that can be recorded, as the documents TinyDB holds.

Typed dictionaries, not models: a day of 20,000 entries is read in one pass, and the
checksum of its line already says that this program wrote it. `records.verify` holds
every document against these same types through pydantic.

Amounts are grams; moisture is a fraction, wet basis; `at` is UTC (ISO 8601, ending in Z)
and `offset` the local clock's minutes east of it. `house` is the house-book version the
entry was judged by. Entries are never changed: an undo is another entry that names one.
"""

from __future__ import annotations

from typing import Literal, NotRequired, Required

# Pydantic, which verifies documents against these types, asks for this one before 3.12.
from typing_extensions import TypedDict

from core.measure import DrawRises, DrawUnit, Measure


class _Stamp(TypedDict):
    """What every entry carries. `id` counts from 1 within the day."""

    id: int
    at: str
    offset: int
    event: str
    terminal: str
    who: NotRequired[str]
    house: int


class _AtBench(_Stamp):
    """What an entry at a bench carries: what was rolled there when it was made."""

    bench: str
    blend: str
    vitola: str


class _Judged(_AtBench):
    """What a reading was judged against; no window where the house gives none.

    Draw without a unit is in mm of water column.
    """

    measure: Measure
    of: NotRequired[int]  # cigars on the scale together (bundle)
    leaf: NotRequired[str]  # whose portion was weighed alone (portion)
    unit: NotRequired[DrawUnit]  # what draw was read in
    rises: NotRequired[DrawRises]  # what a higher figure of draw means
    target: NotRequired[float]
    low: NotRequired[float]
    high: NotRequired[float]
    standard: NotRequired[float]  # filler at standard moisture per gram of filler today


class CheckEntry(_Judged):
    """A weight (or ring, length, draw) check typed whole."""

    kind: Literal["check"]
    readings: list[float]


class ReadingEntry(_Judged):
    """One reading of an open check, which is named by its first reading's entry."""

    kind: Literal["reading"]
    reading: float
    check: int
    needs: int


class DoneEntry(_AtBench):
    """An open check closed before it had all its readings."""

    kind: Literal["done"]
    check: int


class CountEntry(_AtBench):
    """Bunches made, cigars passed, pieces reworked."""

    kind: Literal["made", "good", "rework"]
    n: int


class FailEntry(_AtBench):
    """Pieces that failed, by fault."""

    kind: Literal["fail"]
    faults: dict[str, int]


class OutputEntry(_AtBench):
    """Cigars sold as seconds; and of the good ones: set aside on hold, let go again, given
    to the workers, taken for the panel.
    """

    kind: Literal["second", "hold", "release", "workers", "panel"]
    n: int
    reason: NotRequired[str]  # of a hold


class LeafEntry(_AtBench):
    """Leaf issued to a bench or returned from it, weighed at `moisture`, of a lot if any."""

    kind: Literal["take", "back"]
    leaf: str
    grams: float
    moisture: float
    lot: NotRequired[str]


class ScrapEntry(_AtBench):
    """Cuttings or stem weighed at a bench, of one leaf if it is told, else of the blend's mix."""

    kind: Literal["scrap", "stem"]
    leaf: NotRequired[str]
    grams: float
    moisture: float


class SweepEntry(_Stamp):
    """Sweepings of the room, of one leaf where it is told, else of all that was used."""

    kind: Literal["sweepings"]
    leaf: NotRequired[str]
    grams: float
    moisture: float


class ReceiveEntry(_Stamp):
    """A lot of leaf received into stock, or more of it, weighed at `moisture`."""

    kind: Literal["receive"]
    leaf: str
    lot: str
    grams: float
    moisture: float
    crop: NotRequired[int]  # the year
    bales: NotRequired[int]
    price_per_kg: NotRequired[float]  # at standard moisture


class StocktakeEntry(_Stamp):
    """What was found on hand of a lot, weighed at `moisture`: stock goes on from it."""

    kind: Literal["stocktake"]
    leaf: str
    lot: str
    grams: float
    moisture: float


class RollEntry(_AtBench):
    """A change of vitola; `vitola` and `blend` are the new ones."""

    kind: Literal["roll"]
    quota: NotRequired[int]


class MoistureEntry(_Stamp):
    """A leaf's moisture as measured now."""

    kind: Literal["moisture"]
    leaf: str
    moisture: float


class UndoEntry(_Stamp):
    """Voids an earlier entry of the day."""

    kind: Literal["undo"]
    voids: int
    reason: NotRequired[str]


class NoteEntry(_Stamp):
    """Free text on the day, or on a bench."""

    kind: Literal["note"]
    text: str
    bench: NotRequired[str]


class DayEndEntry(_Stamp):
    """The day closed, or opened again with a reason."""

    kind: Literal["close", "reopen"]
    reason: NotRequired[str]


BenchEntry = (
    CheckEntry
    | ReadingEntry
    | DoneEntry
    | CountEntry
    | FailEntry
    | OutputEntry
    | LeafEntry
    | ScrapEntry
    | RollEntry
)
StockEntry = ReceiveEntry | StocktakeEntry
Entry = BenchEntry | SweepEntry | StockEntry | MoistureEntry | UndoEntry | NoteEntry | DayEndEntry


class CarriedSeat(TypedDict):
    """What a bench was told to roll on an earlier day, and by which house-book version."""

    blend: str
    vitola: str
    quota: int | None
    house: int


class CarriedMoisture(TypedDict):
    """A leaf's moisture measured on an earlier day, when, and by which version."""

    moisture: float
    at: str
    house: int


class CarriedChecks(TypedDict):
    """A bench's latest checks of one kind, made by one buncher on earlier days, oldest first.

    Each column is text, a figure a check with blanks between: a day's book is read whole by
    whoever asks it for a card, and text costs nothing until a chart takes it apart. `days`
    has pairs, a date and how many checks follow of it; `at` minutes of the clock from that
    date's midnight, `offset` being the clock's minutes east of UTC; `check` the entry; `n` its
    readings; `off` its mean less its target, `s` its standard deviation and `r` its range
    (where the house charts ranges; - without one), in thousandths of the measure's unit.
    """

    measure: Measure
    blend: str
    vitola: str
    buncher: str
    of: str
    offset: int
    days: str
    at: str
    check: str
    n: str
    off: str
    s: str
    r: NotRequired[str]


class CarriedLot(TypedDict):
    """A lot in stock: its leaf, when and how it came, and what is left of it.

    Grams at standard moisture; `received_g` is all that ever came of it.
    """

    leaf: str
    lot: str
    received: str  # the date it first came
    received_g: float
    on_hand_g: float
    crop: NotRequired[int]
    bales: NotRequired[int]
    price_per_kg: NotRequired[float]


class Opening(TypedDict):
    """What a day starts from, written with its first entry so that the book stands alone.

    `ends`: where other books ended then, by their names within the data folder: how many
    lines, and the last one's checksum. A chain does not show lines cut off its own end.
    `checks`: what control charts go on from, by bench. `lots`: the leaf in stock, in the
    order it is to be used; `held`: cigars on hold, by bench.
    """

    house: Required[int]
    seats: dict[str, CarriedSeat]
    moistures: dict[str, CarriedMoisture]
    ends: NotRequired[dict[str, tuple[int, str]]]
    checks: NotRequired[dict[str, list[CarriedChecks]]]
    lots: NotRequired[list[CarriedLot]]
    held: NotRequired[dict[str, int]]
