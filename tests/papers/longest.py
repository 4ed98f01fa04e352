"""A card as long as one may get: the longest codes, many leaves, a batch, every warning."""

from __future__ import annotations

from pathlib import Path

from core.house.read import read_house
from core.recipe.card import Card, recipe_card
from core.recipe.portions import BatchCard, BatchRow
from core.say import joined

HOUSE = Path(__file__).parent.parent / "desk" / "house.toml"
WARNINGS = (
    "packing is assumed (0.34 g/cm³), not weighed: weigh approved bunches of LIGA-LARGA-WWWWW",
    (
        "the approved bunches disagree about size: p is 3.41, outside 1.00 to 3.00; weigh them "
        "again or approve more sizes"
    ),
    (
        "the scale (0.01 g) is too coarse for this vitola: even 60 bunches together leave "
        "MEDIO-TIEMPO-WWW off by 12.3 %, over 2 %"
    ),
)


def longest(leaves: int) -> Card:
    """A card of so many leaves."""
    house = read_house(HOUSE.read_text(), HOUSE.name).house
    assert house is not None
    moistures = {code: leaf.moisture for code, leaf in house.leaf.items()}
    blend, vitola = next(iter(house.blend)), next(iter(house.vitola))
    card = recipe_card(house, blend=blend, vitola=vitola, moistures=moistures, bench="1234-WW")
    row = card.classes[0]
    codes = [f"MEDIO-TIEMPO-W{n:02d}" for n in range(leaves)]
    return card._replace(
        blend="LIGA-LARGA-WWWWW",
        vitola="PIRAMIDE-WWWWWWW",
        classes=tuple(
            row._replace(leaf=code, leaf_class="medio tiempo", g=12.34, half_leaves=11.75)
            for code in codes
        ),
        batch=BatchCard(60, tuple(BatchRow(code, 1234.56) for code in codes), 9876.54),
        binder=card.binder._replace(leaf="CAPOTE-WWWWWWWWW"),
        wrapper=card.wrapper._replace(leaf="CAPA-WWWWWWWWWWW"),
        warnings=tuple(joined("", (text,)) for text in WARNINGS),
    )
