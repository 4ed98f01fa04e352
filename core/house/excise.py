"""`[excise]`: what is due on the price of a piece, as the house's adviser gives it."""

from __future__ import annotations

from core.house import amounts, limits
from core.house.fields import Fields
from core.house.model import Excise

EXCISE_KEYS = ("rate", "cap", "above")


def read_excise(table: Fields) -> Excise | None:
    """`[excise]`; there is no rate to fall back on."""
    table.only(EXCISE_KEYS)
    return table.make(
        Excise,
        rate=table.amount("rate", amounts.SHARE, limits.EXCISE_RATE, need=True),
        cap_per_1000=table.number("cap", limits.PRICE),
        above_g=table.amount("above", amounts.WEIGHT, limits.EXCISE_ABOVE_G),
    )
