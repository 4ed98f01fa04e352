"""`[house]`: what holds for every bench."""

from __future__ import annotations

import re

from core.house import amounts, limits
from core.house.fields import LONGEST_NAME, Fields
from core.house.model import HouseRules
from core.house.shown import shown

HOUSE_KEYS = (
    *("name", "language", "currency", "standard_moisture", "scale_division", "tolerance"),
    *("bundle_tolerance", "rounding_limit", "portion_limit", "weigh_every", "readings"),
    *("packing", "day_begins"),
)
_TIME = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])")


def read_house_rules(table: Fields) -> HouseRules | None:
    """`[house]`."""
    table.only(HOUSE_KEYS)
    share = amounts.SHARE
    return table.make(
        HouseRules,
        name=table.text("name", LONGEST_NAME, need=True),
        language=table.choice("language", ("en", "es")),
        currency=table.text("currency", 8),
        standard_moisture=table.amount("standard_moisture", share, limits.MOISTURE, need=True),
        scale_division_g=table.amount(
            "scale_division", amounts.WEIGHT, limits.SCALE_DIVISION_G, need=True
        ),
        tolerance=table.tolerance("tolerance"),
        bundle_tolerance=table.amount("bundle_tolerance", share, limits.SMALL_SHARE),
        rounding_limit=table.amount("rounding_limit", share, limits.SMALL_SHARE),
        portion_limit=table.amount("portion_limit", share, limits.PORTION),
        weigh_every_min=table.amount("weigh_every", amounts.TIME, limits.WEIGH_EVERY_MIN),
        readings=table.whole("readings", limits.READINGS),
        packing_g_per_cm3=table.amount("packing", amounts.DENSITY, limits.PACKING_G_PER_CM3),
        day_begins=_time_of_day(table, "day_begins"),
    )


def _time_of_day(table: Fields, key: str) -> str | None:
    value = table.raw(key)
    if value is None:
        return None
    found = _TIME.fullmatch(value) if isinstance(value, str) else None
    if found is None:
        table.wrong(f'{key} must be a time such as "06:00" in quotes, not {shown(value)}')
        return None
    return f"{int(found[1]):02d}:{found[2]}"
