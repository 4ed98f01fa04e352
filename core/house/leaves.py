"""`[[leaf]]`: a kind of leaf as stocked, for the filler or to cover it."""

from __future__ import annotations

from core.house import amounts, limits
from core.house.codes import Known
from core.house.fields import LONGEST_NAME, Fields
from core.house.model import LAYING_ORDER, CoverLeaf, FillerLeaf, Leaf
from core.say import say

LEAF_KEYS = ("code", "name", "use", "moisture", "half_leaf", "price")
FILLER_KEYS = ("class", "piece", "strength")
COVER_KEYS = ("pieces", "build", "on_cigar", "overlap")


def read_leaf(table: Fields, known: Known) -> Leaf | None:
    """`[[leaf]]`; which keys it may have follows from its use."""
    use = table.choice("use", ("filler", "binder", "wrapper"), need=True)
    own, others = (FILLER_KEYS, COVER_KEYS) if use == "filler" else (COVER_KEYS, FILLER_KEYS)
    table.only((*LEAF_KEYS, *own, *others))
    if use is not None:
        for key in filter(table.has, others):
            table.wrong(
                say(
                    '{key} is not for a leaf of use "{use}"; that has {own}',
                    key=key,
                    use=use,
                    own=", ".join(own),
                )
            )
    common = {
        "code": table.code(known.leaf),
        "name": table.text("name", LONGEST_NAME),
        "moisture": table.amount("moisture", amounts.SHARE, limits.MOISTURE, need=True),
        "half_leaf_g": table.amount("half_leaf", amounts.WEIGHT, limits.HALF_LEAF_G, need=True),
        "price_per_kg": table.number("price", limits.MONEY),
    }
    if use == "filler":
        return table.make(
            FillerLeaf,
            **common,
            leaf_class=table.choice("class", LAYING_ORDER, need=True),
            piece=table.number("piece", limits.PIECE),
            strength=table.number("strength", limits.STRENGTH),
        )
    needs_cover = use is not None
    return table.make(
        CoverLeaf,
        **common,
        use=use,
        pieces=table.number("pieces", limits.PIECES),
        build_mm=table.amount("build", amounts.LENGTH, limits.BUILD_MM, need=needs_cover),
        on_cigar_g_per_m2=table.amount(
            "on_cigar", amounts.COVERING, limits.ON_CIGAR_G_PER_M2, need=needs_cover
        ),
        overlap=table.amount("overlap", amounts.SHARE, limits.OVERLAP),
    )
