"""A small house and entries for it, written as short as they can be read."""

from __future__ import annotations

from typing import Any, cast

from core.day.entries import Entry
from core.day.ledger import Ledger
from core.house.model import (
    Approved,
    Bench,
    Blend,
    CoverLeaf,
    FillerLeaf,
    HouseBook,
    HouseRules,
    Part,
    Vitola,
)

HOUSE = HouseBook(
    house=HouseRules(name="Test house", standard_moisture=0.13, scale_division_g=0.1),
    leaves=(
        FillerLeaf(code="SE-1", leaf_class="seco", moisture=0.13, half_leaf_g=2.0, strength=3.0),
        FillerLeaf(code="LI-1", leaf_class="ligero", moisture=0.13, half_leaf_g=3.0, strength=8.0),
        FillerLeaf(code="LI-9", leaf_class="ligero", moisture=0.13, half_leaf_g=3.0),
        CoverLeaf(
            code="BI-1", use="binder", moisture=0.13, half_leaf_g=2.4, pieces=2,
            build_mm=0.3, on_cigar_g_per_m2=60.0,
        ),
        CoverLeaf(
            code="WR-1", use="wrapper", moisture=0.13, half_leaf_g=2.0, pieces=1,
            build_mm=0.2, on_cigar_g_per_m2=50.0,
        ),
    ),
    blends=(
        Blend(
            code="B1", parts=(Part(leaf="SE-1", parts=6), Part(leaf="LI-1", parts=4)),
            binder="BI-1", wrapper="WR-1",
        ),
    ),
    vitolas=(
        Vitola(code="toro", ring=52, length_mm=152.4),
        Vitola(code="corona", ring=42, length_mm=140.0),
    ),
    approved=(
        Approved(vitola="toro", filler_g=10.0, bunches=30),
        Approved(vitola="corona", filler_g=6.0, bunches=30),
    ),
    benches=(
        Bench(number="7", buncher="P-07", roller="R-07", blend="B1", vitola="toro", quota=300),
        Bench(number="8", blend="B1", vitola="toro"),
        Bench(number="9", blend="B1", vitola="corona"),
    ),
)  # fmt: skip


_OF_THE_ROOM = frozenset(
    {"sweepings", "receive", "stocktake", "moisture", "undo", "note", "close", "reopen"}
)


class Writer:
    """Writes entries into a ledger by hand, one call a line."""

    def __init__(self, house: HouseBook = HOUSE) -> None:
        self.ledger = Ledger({1: house})

    def __call__(self, kind: str, bench: str = "7", **fields: Any) -> int:
        number = len(self.ledger.entries) + 1
        entry: dict[str, Any] = {
            "id": number,
            "kind": kind,
            "at": f"2026-05-04T{8 + number // 60:02d}:{number % 60:02d}:00.000Z",
            "offset": 0,
            "event": f"{number:016x}",
            "terminal": fields.pop("terminal", "T1"),
            "house": 1,
        }
        if kind not in _OF_THE_ROOM:
            book = self.ledger.houses[1].bench.get(bench)
            entry |= {"bench": bench, "blend": "B1", "vitola": book.vitola if book else "toro"}
        self.ledger.add(cast(Entry, entry | fields))
        return number

    def check(self, *readings: float, bench: str = "7", target: float = 12.0) -> int:
        """A bunch check with a window of ± 0.6 g, judged at standard moisture."""
        return self(
            "check", bench, measure="bunch", readings=list(readings), target=target,
            low=target - 0.6, high=target + 0.6, standard=1.0,
        )  # fmt: skip
