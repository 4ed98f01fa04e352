"""The leaf as both front ends ask for it: the stock, the issue sheet, the lots of a card."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from core.day.lots import in_use, lots, opening_lots

if TYPE_CHECKING:
    from core.day.entries import LeafEntry
    from core.day.ledger import Ledger
    from core.desk.today import Today
    from core.stock.issue import IssueSheet
    from core.stock.stock import Stock


class CardLot(NamedTuple):
    """The lot of a card's leaf to be issued now; `had` is the bench's, where it took another.

    `new`: the house began the day with another lot of this leaf, or with none.
    """

    leaf: str
    lot: str
    had: str | None
    new: bool

    @property
    def changed(self) -> bool:
        """Whether the card is to say so."""
        return self.new or self.had is not None


def stock_of(today: Today) -> Stock:
    """The leaf of the house as of now; BadInput where no house book is loaded."""
    from core.stock.stock import stock  # noqa: PLC0415 - a card asks for none

    return stock(
        today.ledger, today.loaded, today.house_version, today.card_of, today.day, today.now()
    )


def issue_of(today: Today) -> IssueSheet:
    """The issue sheet of today's quotas; BadInput where no house book is loaded."""
    from core.stock.benches import had_today  # noqa: PLC0415 - a card asks for none
    from core.stock.issue import issue_sheet  # noqa: PLC0415
    from core.stock.need import plans  # noqa: PLC0415

    house, ledger = today.loaded, today.ledger
    return issue_sheet(
        plans(ledger, house, today.house_version),
        house,
        today.card_of,
        today.moistures(),
        lots(ledger, today.day),
        had_today(ledger),
    )


def card_lots(today: Today, number: str) -> tuple[CardLot, ...]:
    """The lots to be issued for the bench's card, in its order; none of leaf kept in no lots."""
    number = today.bench_number(number)
    ledger = today.ledger
    kept = lots(ledger, today.day)
    if not kept:
        return ()
    card = today.card(number)
    leaves = (*(row.leaf for row in card.classes), card.binder.leaf, card.wrapper.leaf)
    taken = _taken(ledger, number)
    began = {leaf: in_use(states) for leaf, states in opening_lots(ledger).items()}
    found: list[CardLot] = []
    for leaf in dict.fromkeys(leaves):
        now = in_use(kept.get(leaf, ()))
        if now is not None:
            had = taken.get(leaf)
            first = began.get(leaf)
            new = first is None or first.lot != now.lot
            found.append(CardLot(leaf, now.lot, had if had != now.lot else None, new))
    return tuple(found)


def _taken(ledger: Ledger, number: str) -> dict[str, str]:
    """The lot the bench last took of each leaf today."""
    takes: list[LeafEntry] = [e for e in ledger.bench(number).leaf if e["kind"] == "take"]
    return {entry["leaf"]: entry["lot"] for entry in takes if "lot" in entry}
