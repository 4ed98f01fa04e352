"""A checked house book as the records keep it, and back again without checking it anew.

Records are checksummed and were written by this program from a house that had passed every
rule, so reading one back only gives the values their types.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from core.house.model import (
    Approved,
    Bench,
    Blend,
    CoverLeaf,
    DialWindow,
    DrawWindow,
    Excise,
    FillerLeaf,
    HouseBook,
    HouseRules,
    Leaf,
    Part,
    Station,
    Tolerance,
    Vitola,
)

Stored = Mapping[str, Any]


def store(house: HouseBook) -> dict[str, Any]:
    """The house book as plain JSON values, defaults left out."""
    stored: dict[str, Any] = plain(house, defaults=False)
    return stored


def plain(value: object, *, defaults: bool = True) -> Any:
    """A house book, or anything in it, as JSON has it; with or without what is by default."""
    if not isinstance(value, tuple):
        return value
    names: tuple[str, ...] | None = getattr(value, "_fields", None)
    if names is None:
        return [plain(each, defaults=defaults) for each in value]
    usual: Mapping[str, object] = getattr(value, "_field_defaults", {})
    return {
        name: plain(field, defaults=defaults)
        for name, field in zip(names, value, strict=True)
        if defaults or name not in usual or field != usual[name]
    }


def restore(stored: Stored) -> HouseBook:
    """The house book that was stored.

    KeyError, TypeError, ValueError or AttributeError for another shape.
    """
    return HouseBook(
        house=_house_rules(stored["house"]),
        excise=Excise(**excise) if (excise := stored.get("excise")) else None,
        leaves=tuple(_leaf(leaf) for leaf in stored.get("leaves", ())),
        blends=tuple(_blend(blend) for blend in stored.get("blends", ())),
        vitolas=tuple(_vitola(vitola) for vitola in stored.get("vitolas", ())),
        approved=tuple(Approved(**each) for each in stored.get("approved", ())),
        benches=tuple(Bench(**bench) for bench in stored.get("benches", ())),
    )


def _house_rules(stored: Stored) -> HouseRules:
    fields = _with_tolerance(stored)
    if "rules" in fields:
        fields["rules"] = tuple(fields["rules"])
    return HouseRules(**fields)


def _with_tolerance(stored: Stored) -> dict[str, Any]:
    fields = dict(stored)
    if fields.get("tolerance") is not None:
        fields["tolerance"] = Tolerance(**fields["tolerance"])
    return fields


def _leaf(stored: Stored) -> Leaf:
    if "leaf_class" in stored:
        return FillerLeaf(**stored)
    return CoverLeaf(**stored)


def _blend(stored: Stored) -> Blend:
    parts = tuple(Part(**part) for part in stored["parts"])
    return Blend(**{**stored, "parts": parts})


def _vitola(stored: Stored) -> Vitola:
    fields = _with_tolerance(stored)
    fields["profile"] = tuple(Station(**s) for s in stored.get("profile", ()))
    if fields.get("draw") is not None:
        scale = DrawWindow if "low_mmh2o" in fields["draw"] else DialWindow
        fields["draw"] = scale(**fields["draw"])
    return Vitola(**fields)
