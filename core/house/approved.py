"""`[[approved]]`: bunches weighed and found right, which the house packs to."""

from __future__ import annotations

from core.house import amounts, limits
from core.house.codes import Known
from core.house.fields import Fields
from core.house.model import Approved
from core.say import say

APPROVED_KEYS = ("blend", "vitola", "filler", "bunches", "spread")


def read_approved(table: Fields, known: Known) -> Approved | None:
    """`[[approved]]`."""
    table.only(APPROVED_KEYS)
    filler = table.amount("filler", amounts.WEIGHT, limits.FILLER_G, need=True)
    spread = table.amount("spread", amounts.WEIGHT, limits.SPREAD_G)
    if filler is not None and spread is not None and spread > filler:
        table.wrong(
            say(
                "spread {spread:g} g is more than the filler itself, {filler:g} g",
                spread=spread,
                filler=filler,
            )
        )
    return table.make(
        Approved,
        blend=table.reference("blend", known.blend, "blend", need=False),
        vitola=table.reference("vitola", known.vitola, "vitola"),
        filler_g=filler,
        bunches=table.whole("bunches", limits.BUNCHES),
        spread_g=spread,
    )
