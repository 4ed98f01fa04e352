"""What is due on 1,000 pieces, by the house's own `[excise]`: an aid, the law decides."""

from __future__ import annotations

from core.house.model import Excise


def excise_due(excise: Excise | None, price: float | None, piece_g: float) -> float | None:
    """Money per 1,000 pieces of that price and finished weight (standard grams of one).

    None without an `[excise]`, without a price, and for a piece that is not above the weight
    the rate is for: another rate may hold, which the house has not given.
    """
    if excise is None or price is None or piece_g <= excise.above_g:
        return None
    due = excise.rate * price
    return due if excise.cap_per_1000 is None else min(due, excise.cap_per_1000)
