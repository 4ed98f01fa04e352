"""`[house]`: what holds for every bench."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import get_args

from core.house import amounts, limits
from core.house.fields import LONGEST_NAME, Fields
from core.house.language import LANGUAGES
from core.house.model import HouseRules, RunRule
from core.house.pin import kept_pin
from core.house.shown import shown
from core.measure import DrawRises
from core.nearest import nearest
from core.say import Said, say

HOUSE_KEYS = (
    *("name", "language", "currency", "standard_moisture", "scale_division", "tolerance"),
    *("bundle_tolerance", "rounding_limit", "portion_limit", "weigh_every", "readings"),
    *("packing", "day_begins", "rules", "ring_tolerance", "length_tolerance", "draw_rises"),
    *("loss_allowance", "hours", "spread_chart", "pin"),
)
RUN_RULES: Mapping[str, RunRule] = {
    "beyond": "beyond",
    "2 of 3": "two_of_three",
    "4 of 5": "four_of_five",
    "8 on one side": "one_side",
    "6 in a row": "run",
}
"""The run rules by what a house book calls them."""
DRAW_RISES: tuple[DrawRises, ...] = get_args(DrawRises)
_TIME = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])")


def read_house_rules(table: Fields) -> HouseRules | None:
    """`[house]`."""
    table.only(HOUSE_KEYS)
    share = amounts.SHARE
    return table.make(
        HouseRules,
        name=table.text("name", LONGEST_NAME, need=True),
        language=table.choice("language", LANGUAGES),
        currency=table.text("currency", 8),
        standard_moisture=table.amount("standard_moisture", share, limits.MOISTURE, need=True),
        scale_division_g=table.amount(
            "scale_division", amounts.WEIGHT, limits.SCALE_DIVISION_G, need=True
        ),
        tolerance=table.tolerance("tolerance"),
        bundle_tolerance=table.amount("bundle_tolerance", share, limits.SMALL_SHARE),
        ring_tolerance=table.number("ring_tolerance", limits.RING_TOLERANCE),
        length_tolerance_mm=table.amount(
            "length_tolerance", amounts.LENGTH, limits.LENGTH_TOLERANCE_MM
        ),
        draw_rises=table.choice("draw_rises", DRAW_RISES),
        rounding_limit=table.amount("rounding_limit", share, limits.SMALL_SHARE),
        portion_limit=table.amount("portion_limit", share, limits.PORTION),
        loss_allowance=table.amount("loss_allowance", share, limits.LOSS_ALLOWANCE),
        hours_min=table.amount("hours", amounts.TIME, limits.HOURS_MIN),
        weigh_every_min=table.amount("weigh_every", amounts.TIME, limits.WEIGH_EVERY_MIN),
        readings=table.whole("readings", limits.READINGS),
        packing_g_per_cm3=table.amount("packing", amounts.DENSITY, limits.PACKING_G_PER_CM3),
        day_begins=_time_of_day(table, "day_begins"),
        spread_chart=table.choice("spread_chart", ("deviation", "range")),
        rules=_run_rules(table, "rules"),
        pin=_pin(table, "pin"),
    )


def _pin(table: Fields, key: str) -> str | None:
    """The house's PIN, hashed. What stands there otherwise is not shown: it may be the PIN."""
    value = table.raw(key)
    if value is None or (isinstance(value, str) and kept_pin(value) is not None):
        return value
    table.wrong(
        say(
            "{key} must be as the program wrote it, scrypt:N:R:P:SALT:HASH; take the line out, "
            "load, and set a PIN with: bunchbook pin",
            key=key,
        )
    )
    return None


def _time_of_day(table: Fields, key: str) -> str | None:
    value = table.raw(key)
    if value is None:
        return None
    found = _TIME.fullmatch(value) if isinstance(value, str) else None
    if found is None:
        table.wrong(
            say(
                '{key} must be a time such as "06:00" in quotes, not {found}',
                key=key,
                found=shown(value),
            )
        )
        return None
    return f"{int(found[1]):02d}:{found[2]}"


def _run_rules(table: Fields, key: str) -> tuple[RunRule, ...] | None:
    """The run rules named, in their own order; an empty list is none of them."""
    value = table.raw(key)
    if value is None:
        return None
    listed = ", ".join(f'"{name}"' for name in RUN_RULES)
    if not isinstance(value, list):
        table.wrong(
            say(
                "{key} must be a list of some of {known}, not {found}",
                key=key,
                known=listed,
                found=shown(value),
            )
        )
        return None
    for name in value:
        if not isinstance(name, str) or name not in RUN_RULES:
            near = nearest(name, RUN_RULES) if isinstance(name, str) else None
            table.wrong(_no_run_rule(key, shown(name), near, listed))
    return tuple(rule for name, rule in RUN_RULES.items() if name in value)


def _no_run_rule(key: str, name: str, near: str | None, known: str) -> Said:
    if near:
        return say(
            "{key} {name} is no run rule; did you mean {near}?",
            key=key,
            name=name,
            near=shown(near),
        )
    return say("{key} {name} is no run rule; known are {known}", key=key, name=name, known=known)
