"""What the planned production needs of a blend's filler, and what of it is on hand."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from core.day.lots import lots
from core.desk.figures import fixed
from core.line.leaf_limits import Band
from core.line.plan import Plan
from core.say import Said, say
from core.stock.need import added, issued_for_one, known, loss_of, plans

if TYPE_CHECKING:
    from core.desk.today import Today

SHORT_G = 10.0
"""Less than this is not told: it would not show in the figures."""


class Stocked(NamedTuple):
    """The leaf there is for a blend's planned filler, standard grams.

    `planned_g` is the filler to be issued, None where nobody planned any. `on_hand_g` is empty
    where stock limits nothing; what other blends need for as long is not in it.
    """

    plan: Plan
    planned_g: float | None
    on_hand_g: Mapping[str, float]
    notes: tuple[Said, ...] = ()

    def within(self, band: Band) -> Band:
        """The band with the stock in it."""
        return band._replace(on_hand_g=self.on_hand_g, planned_g=self.planned_g)


def stocked(today: Today, blend: str, plan: Plan) -> Stocked:
    """The stock for a blend's plan; BadInput where no house book is loaded.

    A house that keeps no filler in lots is not limited by them. In one that does, leaf without
    a lot is used up, or never came.
    """
    own_g, others_g = _day_g(today, blend)
    planned_g = plan.days * own_g if plan.filler_g is None else plan.filler_g
    if not planned_g:
        none = plan.days and plan.filler_g is None
        return Stocked(plan, None, {}, (_unplanned(blend),) if none else ())
    kept = lots(today.ledger, today.day)
    filler = today.loaded.filler
    if not any(leaf in kept for leaf in filler):
        return Stocked(plan, planned_g, {})
    days = planned_g / own_g if own_g else 0.0
    on_hand_g = {
        leaf: max(
            0.0,
            math.fsum(lot.on_hand_g for lot in kept.get(leaf, ())) - days * others_g.get(leaf, 0.0),
        )
        for leaf in filler
    }
    return Stocked(plan, planned_g, on_hand_g)


def short(found: Stocked, shares: Mapping[str, float]) -> tuple[Said, ...]:
    """Of which leaf of a blend there is less than the plan needs, in words."""
    if found.planned_g is None:
        return ()
    needs_g = {leaf: share * found.planned_g for leaf, share in shares.items()}
    return tuple(
        say(
            "{leaf}: {here} kg on hand, the plan needs {needs} kg",
            leaf=leaf,
            here=fixed(found.on_hand_g[leaf] / 1000, 2),
            needs=fixed(need_g / 1000, 2),
        )
        for leaf, need_g in needs_g.items()
        if leaf in found.on_hand_g and need_g > found.on_hand_g[leaf] + SHORT_G
    )


def plan_says(found: Stocked) -> Said | None:
    """For how much production the stock is told; None where it is told for none."""
    if found.planned_g is None:
        return None
    kg = fixed(found.planned_g / 1000, 2)
    if found.plan.filler_g is not None:
        return say("the plan: {kg} kg of filler", kg=kg)
    if found.plan.days == 1:
        return say("the plan: a day of the quotas, {kg} kg of filler", kg=kg)
    days = f"{found.plan.days:g}"
    return say("the plan: {days} days of the quotas, {kg} kg of filler", days=days, kg=kg)


def _day_g(today: Today, blend: str) -> tuple[float, dict[str, float]]:
    """Filler that a day of the quotas takes in the blend, and leaf that it takes in others."""
    house, version = today.loaded, today.house_version
    own_g: dict[str, float] = {}
    others_g: dict[str, float] = {}
    for each in plans(today.ledger, house, version):
        rolls = known(today.card_of, each.blend, each.vitola) if each.quota else None
        if rolls is not None and each.quota is not None:
            needs = issued_for_one(rolls, loss_of(house))
            added(needs, each.quota, own_g if each.blend == blend else others_g)
    return math.fsum(g for leaf, g in own_g.items() if leaf in house.filler), others_g


def _unplanned(blend: str) -> Said:
    return say(
        "no bench that rolls {blend} has a quota, so stock limits nothing; tell the filler "
        "planned, as plan=80kg",
        blend=blend,
    )
