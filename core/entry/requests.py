"""What a line asks for, once read: plain values, every code resolved against the house."""

from __future__ import annotations

from typing import Literal, NamedTuple

from core.measure import DrawUnit, Measure

Unit = Literal["g", "mm", DrawUnit]
"""What an amount typed with a unit is in; a bare one is in its measure's own."""


class OpenBench(NamedTuple):
    """Open a bench's card."""

    bench: str


class Check(NamedTuple):
    """Readings of one check: grams, or millimetres, ring gauge, draw by its measure.

    A bundle is `of` cigars, a portion is of one filler `leaf`; `unit` is a draw's where typed.
    """

    bench: str
    measure: Measure
    readings: tuple[float, ...]
    of: int = 1
    leaf: str | None = None
    unit: DrawUnit | None = None


class Begin(NamedTuple):
    """What the bare numbers that follow on a bench's card are readings of."""

    bench: str
    measure: Measure
    leaf: str | None = None


class Reading(NamedTuple):
    """One bare number on a bench's card: a reading of this terminal's open check."""

    bench: str
    reading: float
    unit: Unit | None = None


class Done(NamedTuple):
    """Close this terminal's open check at a bench with the readings it has."""

    bench: str


class Count(NamedTuple):
    """Bunches made, cigars passed, pieces reworked, seconds; good ones let go, given, kept."""

    bench: str
    kind: Literal["made", "good", "rework", "second", "release", "workers", "panel"]
    n: int


class Hold(NamedTuple):
    """Good cigars set aside, with a reason where it is told."""

    bench: str
    n: int
    reason: str = ""


class Fail(NamedTuple):
    """Pieces failed, by fault code, in the order typed."""

    bench: str
    faults: tuple[tuple[str, int], ...]


class Leaf(NamedTuple):
    """Leaf issued or returned, of a lot where one is named."""

    bench: str
    kind: Literal["take", "back"]
    leaf: str
    grams: float
    lot: str | None = None


class Scrap(NamedTuple):
    """Cuttings or stem weighed, of one leaf where it is told."""

    bench: str
    grams: float
    leaf: str | None = None
    kind: Literal["scrap", "stem"] = "scrap"


class Sweepings(NamedTuple):
    """Sweepings of the room weighed, of one leaf where it is told."""

    grams: float
    leaf: str | None = None


class Receive(NamedTuple):
    """Leaf received into a lot; `moisture` None is the leaf's own as last measured."""

    leaf: str
    lot: str
    grams: float
    moisture: float | None = None
    crop: int | None = None
    bales: int | None = None
    price_per_kg: float | None = None


class Stocktake(NamedTuple):
    """What was found on hand of a lot."""

    leaf: str
    lot: str
    grams: float
    moisture: float | None = None


class Roll(NamedTuple):
    """A change of vitola; blend and quota where told."""

    bench: str
    vitola: str
    blend: str | None = None
    quota: int | None = None


class Moisture(NamedTuple):
    """A leaf's moisture as measured now, a fraction of the wet weight."""

    leaf: str
    moisture: float


class Undo(NamedTuple):
    """Void an entry of today: the one named, or this terminal's last."""

    entry: int | None = None
    reason: str = ""


class Note(NamedTuple):
    """Free text on the day, or on a bench."""

    text: str
    bench: str | None = None


class Reopen(NamedTuple):
    """Open the closed day again, with a reason."""

    reason: str


class Show(NamedTuple):
    """Open a screen, or change how the Board lists its benches."""

    screen: Literal[
        "board", "why", "rounds", "leaf", "line", "drop", "day", "days", "panel", "log", "help",
        "only", "sort", "close",
    ]  # fmt: skip
    words: str = ""


class Panel(NamedTuple):
    """Something for the tasting panel: the rest of the line as typed, from that column on."""

    text: str
    at: int


class Try(NamedTuple):
    """Something to try on the Line: the rest of the line as typed, from that column on."""

    text: str
    at: int


class Approve(NamedTuple):
    """Make today's checks of a bench approved bunches in a new version of the house book."""

    bench: str


class Initials(NamedTuple):
    """Whose initials this terminal's entries carry from here on."""

    who: str


class Chart(NamedTuple):
    """Open a bench's control chart, of one measure where it is told."""

    bench: str
    measure: Measure | None = None


Request = (
    OpenBench
    | Check
    | Begin
    | Reading
    | Done
    | Count
    | Hold
    | Fail
    | Leaf
    | Scrap
    | Sweepings
    | Receive
    | Stocktake
    | Roll
    | Moisture
    | Undo
    | Note
    | Reopen
    | Show
    | Panel
    | Try
    | Approve
    | Initials
    | Chart
)


class Parsed(NamedTuple):
    """A line that was read. `sure` when it ended in `!`: far-off weights are not asked about."""

    request: Request
    sure: bool = False


class Unread(NamedTuple):
    """A line that was not: what is wrong, and the column (from 0) where it is."""

    says: str
    at: int
