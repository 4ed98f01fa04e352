"""How much each approved entry decides of a packing law, and what the law is without it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from core.house.model import Approved, HouseBook
from core.recipe.cover import build_mm
from core.recipe.known import known_blend
from core.recipe.law import STARTS, Law, entries_used, entry_weights, fit_to
from core.recipe.packing import leverage
from core.recipe.size import Taper, core_of, integral, outer

DECIDES = 1.0
"""A Cook's distance beyond this: the entry decides the law (Cook & Weisberg 1982, 3.5)."""
NO_ERROR = 1e-9
"""A residual spread below this is what rounding leaves of an exact fit."""
ALONE = 1 - 1e-9
"""A hat value beyond this: the law goes through the entry whatever it weighs."""
FEW = 6
"""Without one of so few entries the best p of shaped sizes can lie elsewhere; without one of more
it was near the law's own in each of 2,100 random lines."""


class Influence(NamedTuple):
    """One approved entry in a blend's law. Grams are standard, of the entry's own vitola.

    `hat` is its share in its own fitted value, `cook` its Cook's distance, both on the log of
    the filler; `cook` is None where the law is an exact fit or goes through the entry. The
    figures without it are those of the law of the other entries, None where there is no other.
    """

    vitola: str
    blend: str | None
    bunches: int
    filler_g: float
    law_g: float
    off: float
    hat: float
    cook: float | None
    a_without: float | None
    p_without: float | None
    law_g_without: float | None
    decides: bool

    @property
    def moves_g(self) -> float | None:
        """What it adds to the law's filler of its own vitola, grams."""
        return None if self.law_g_without is None else self.law_g - self.law_g_without


def influences(house: HouseBook, blend_code: str, law: Law) -> tuple[Influence, ...]:
    """Each approved entry behind the blend's `law`, in the house book's order.

    Raises BadInput for an unknown blend.
    """
    blend = known_blend(house, blend_code)
    used = entries_used(house, blend_code)
    build = build_mm(house, blend)
    cores = [core_of(outer(house.vitola[entry.vitola]), build) for entry in used]
    weights = entry_weights(used)
    return tuple(
        _influence(entry, core, weight, law, _without(house, blend_code, law, used, place))
        for place, (entry, core, weight) in enumerate(zip(used, cores, weights, strict=True))
    )


def _without(
    house: HouseBook, blend: str, law: Law, used: Sequence[Approved], place: int
) -> Law | None:
    others = (*used[:place], *used[place + 1 :])
    if not others:
        return None
    return fit_to(house, blend, others, STARTS if len(used) <= FEW else (law.p,))


def _influence(
    entry: Approved, core: Sequence[Taper], weight: float, law: Law, without: Law | None
) -> Influence:
    law_g = law.a * integral(core, law.p)
    residual = math.log(entry.filler_g / law_g)
    hat = min(1.0, weight * leverage(core, law))
    cook = _cook(residual, weight, hat, law)
    return Influence(
        vitola=entry.vitola,
        blend=entry.blend,
        bunches=entry.bunches,
        filler_g=entry.filler_g,
        law_g=law_g,
        off=entry.filler_g / law_g - 1,
        hat=hat,
        cook=cook,
        a_without=without.a if without else None,
        p_without=without.p if without else None,
        law_g_without=without.a * integral(core, without.p) if without else None,
        decides=hat > ALONE or (cook is not None and cook > DECIDES),
    )


def _cook(residual: float, weight: float, hat: float, law: Law) -> float | None:
    """Cook's w e² h / (k s² (1 − h)²), k the parameters fitted (Cook & Weisberg 1982, 3.5)."""
    if law.residual_sd is None or law.residual_sd < NO_ERROR or hat > ALONE:
        return None
    parameters = law.entries - law.dof
    scaled = residual / (law.residual_sd * (1 - hat))
    return weight * scaled * scaled * hat / parameters
