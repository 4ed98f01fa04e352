"""A checked house book as the records keep it, and back again without checking it anew.

Records are checksummed and were written by this program from a house that had passed every
rule, so reading one back only gives the values their types: a card from the shell must not
wait for validators to be built that have nothing left to say.
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
    return house.model_dump(mode="json", exclude_defaults=True)


def restore(stored: Stored) -> HouseBook:
    """The house book that was stored. KeyError, TypeError or AttributeError for another shape."""
    return HouseBook.model_construct(
        house=_house_rules(stored["house"]),
        excise=Excise.model_construct(**excise) if (excise := stored.get("excise")) else None,
        leaves=tuple(_leaf(leaf) for leaf in stored.get("leaves", ())),
        blends=tuple(_blend(blend) for blend in stored.get("blends", ())),
        vitolas=tuple(_vitola(vitola) for vitola in stored.get("vitolas", ())),
        approved=tuple(Approved.model_construct(**each) for each in stored.get("approved", ())),
        benches=tuple(Bench.model_construct(**bench) for bench in stored.get("benches", ())),
    )


def _house_rules(stored: Stored) -> HouseRules:
    fields = _with_tolerance(stored)
    if "rules" in fields:
        fields["rules"] = tuple(fields["rules"])
    return HouseRules.model_construct(**fields)


def _with_tolerance(stored: Stored) -> dict[str, Any]:
    fields = dict(stored)
    if fields.get("tolerance") is not None:
        fields["tolerance"] = Tolerance.model_construct(**fields["tolerance"])
    return fields


def _leaf(stored: Stored) -> Leaf:
    if "leaf_class" in stored:
        return FillerLeaf.model_construct(**stored)
    return CoverLeaf.model_construct(**stored)


def _blend(stored: Stored) -> Blend:
    parts = tuple(Part.model_construct(**part) for part in stored["parts"])
    return Blend.model_construct(**{**stored, "parts": parts})


def _vitola(stored: Stored) -> Vitola:
    fields = _with_tolerance(stored)
    fields["profile"] = tuple(Station.model_construct(**s) for s in stored.get("profile", ()))
    if fields.get("draw") is not None:
        scale = DrawWindow if "low_mmh2o" in fields["draw"] else DialWindow
        fields["draw"] = scale.model_construct(**fields["draw"])
    return Vitola.model_construct(**fields)
