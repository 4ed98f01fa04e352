"""Where the day's leaf went, as bars and tables: of the house, by bench, by vitola; its lots."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from core.day.lots import LotState
from core.day.report import LeafDay, LeafPart
from core.day.yields import COVERS
from core.papers.blocks import Bar, Bars, Beside, Block, Column, Heading, Para, Table
from core.papers.figures import NONE, thousands
from core.papers.words import Words

_ISSUED = ("issued_g", "returned_g", "used_standard_g", "in_good_g")
_ERROR = "heavy_se_g"
_LOST = (
    *("in_seconds_g", "rejects_g", "heavy_g", _ERROR),
    *("cuttings_g", "stem_g", "sweepings_g", "unexplained_g"),
)
_SPLIT = ("used_standard_g", "in_good_g", *_LOST)
_BY_LEAF = tuple(key for key in _SPLIT if key != _ERROR)
NO_BENCH = "–"


def leaf(rows: Sequence[LeafDay], words: Words, *, closed: bool) -> Iterator[Block]:
    """Bars of what is not in good cigars, all leaves on one scale; then every figure."""
    names, parts = words.columns, words.parts_of(closed=closed)
    yield Heading(words.leaf)
    yield Para(words.leaf_note, "small")
    values = [getattr(row, part) for row in rows for part in parts]
    low, high = min(0.0, *values), max(0.0, *values)
    yield Beside(tuple(_bars(row, low, high, parts, words) for row in rows))
    # All the figures of a leaf are wider than the paper.
    yield Table(
        NONE,
        (Column(names["leaf"]), Column(names["class"]), *_columns(_ISSUED, names)),
        tuple((r.leaf, class_of(r.leaf_class, words), *_cells(r, _ISSUED)) for r in rows),
    )
    yield Table(
        NONE,
        (Column(names["leaf"]), *_columns(_LOST, {**names, **parts}), Column(names["told"])),
        tuple((row.leaf, *_cells(row, _LOST), _told(row, words)) for row in rows),
    )


def class_of(leaf_class: str, words: Words) -> str:
    """A leaf's class, or its use as binder or wrapper, in the words' language."""
    return words.covers.get(leaf_class, leaf_class)


def _told(row: LeafDay, words: Words) -> str:
    if row.heavy_se_g is None:
        return NONE
    return words.beyond if row.beyond else words.within


def _bars(row: LeafDay, low: float, high: float, parts: Mapping[str, str], words: Words) -> Bars:
    bars = tuple(
        Bar(name, getattr(row, part), f"{thousands(getattr(row, part))} g")
        for part, name in parts.items()
    )
    title = words.leaf_of.format(leaf=row.leaf, used=thousands(row.used_standard_g))
    return Bars(title, bars, low, high, narrow=True)


def split(parts: Sequence[LeafPart], words: Words, *, closed: bool) -> Iterator[Block]:
    """The filler of each bench and vitola, and each leaf of each vitola over all benches."""
    names = {**words.columns, **words.parts_of(closed=closed)}
    filler: dict[tuple[str, str], list[LeafPart]] = {}
    leaves: dict[str, dict[str, list[LeafPart]]] = {}
    for part in parts:
        bench = NO_BENCH if part.bench is None else str(part.bench)
        if part.leaf_class not in COVERS:
            filler.setdefault((bench, part.vitola), []).append(part)
        leaves.setdefault(part.vitola, {}).setdefault(part.leaf, []).append(part)
    yield Heading(words.split)
    yield Para(words.split_note if closed else words.split_open, "small")
    if filler:
        whole = _together([part for mine in filler.values() for part in mine])
        yield Table(
            NONE,
            (Column(names["bench"]), Column(names["vitola"]), *_columns(_SPLIT, names)),
            tuple((*at, *_cells(_together(mine), _SPLIT)) for at, mine in filler.items()),
            ((words.total, NONE, *_cells(whole._replace(heavy_se_g=None), _SPLIT)),),
        )
    yield Heading(words.by_leaf)
    yield Table(
        NONE,
        (Column(names["vitola"]), Column(names["leaf"]), *_columns(_BY_LEAF, names)),
        tuple(
            (vitola or NO_BENCH, code, *_cells(_together(mine), _BY_LEAF))
            for vitola, of_leaf in leaves.items()
            for code, mine in of_leaf.items()
        ),
    )


def _columns(keys: Sequence[str], names: Mapping[str, str]) -> Iterator[Column]:
    """Names without the unit, which is said above: the tables are as wide as the paper."""
    return (Column(names[key], right=True) for key in keys)


def _cells(row: LeafDay | LeafPart, keys: Sequence[str]) -> Iterator[str]:
    """Grams under those names; of the standard error twice it."""
    for key in keys:
        grams: float | None = getattr(row, key)
        if grams is None:
            yield NONE
        else:
            yield thousands(2 * grams if key == _ERROR else grams)


def _together(parts: Sequence[LeafPart]) -> LeafPart:
    """The parts added up; their error is known where they are of one bench and vitola.

    Leaves of one blend err together, by the same checks; those of another by others.
    """
    sums: dict[str, Any] = {
        key: math.fsum(getattr(part, key) for part in parts) for key in _BY_LEAF
    }
    of_blend: dict[str, float] = {}
    for part in parts:
        if part.heavy_se_g is not None:
            of_blend[part.blend] = of_blend.get(part.blend, 0.0) + part.heavy_se_g
    error = math.hypot(*of_blend.values()) if of_blend else None
    return parts[0]._replace(heavy_se_g=error, **sums)


_LOT_GRAMS = ("received_g", "issued_g", "returned_g", "adjusted_g", "on_hand_g")


def lots(moved: Sequence[LotState], words: Words) -> Iterator[Block]:
    """The lots that the day touched, in kilograms."""
    names = words.columns
    yield Heading(words.lots)
    yield Para(words.lots_note, "small")
    yield Table(
        NONE,
        (
            *(Column(names["leaf"]), Column(names["lot"])),
            *(Column(names[key], "kg", right=True) for key in _LOT_GRAMS),
        ),
        tuple(
            (*(lot.leaf, lot.lot), *(_kg(getattr(lot, key)) for key in _LOT_GRAMS)) for lot in moved
        ),
    )


def _kg(grams: float) -> str:
    return thousands(grams / 1000, 3)
