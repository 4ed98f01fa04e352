"""`[[blend]]`: filler leaf in parts by weight, a binder and a wrapper."""

from __future__ import annotations

from collections.abc import Mapping

from core.house import limits
from core.house.codes import Holders, Known, code_key
from core.house.fields import LONGEST_NAME, Fields
from core.house.model import Blend, Part
from core.house.shown import shown

BLEND_KEYS = ("code", "name", "parts", "binder", "wrapper")
USES = ("filler", "binder", "wrapper")
"""A leaf whose own use is none of these has a problem of its own, and no second one here."""


def read_blend(table: Fields, known: Known) -> Blend | None:
    """`[[blend]]`."""
    table.only(BLEND_KEYS)
    return table.make(
        Blend,
        code=table.code(known.blend),
        name=table.text("name", LONGEST_NAME),
        parts=_parts(table, known.leaf),
        binder=_leaf_of_use(table, "binder", known.leaf),
        wrapper=_leaf_of_use(table, "wrapper", known.leaf),
    )


def _parts(table: Fields, leaves: Holders) -> tuple[Part, ...]:
    value = table.raw("parts", need=True, like='a table such as { "LEAF" = 3 }')
    if value is None:
        return ()
    if not isinstance(value, Mapping) or not value:
        found_there = "an empty one" if value == {} else shown(value)
        table.wrong(f'parts must be a table such as {{ "LEAF" = 3 }}, not {found_there}')
        return ()
    found: dict[str, Part] = {}
    for code, parts in value.items():
        holder = table.as_reference("parts:", code, leaves, "leaf")
        number = table.as_number(f"parts of {shown(code)}", parts, limits.PARTS)
        if holder is None or number is None:
            continue
        if holder.use in {"binder", "wrapper"}:
            table.wrong(f"parts: {shown(code)} is a {holder.use} leaf; parts are of filler leaf")
        if holder.code in found:
            table.wrong(f"parts: {shown(code)} is there twice")
        found[holder.code] = Part(leaf=holder.code, parts=number)
    return tuple(found.values())


def _leaf_of_use(table: Fields, use: str, leaves: Holders) -> str | None:
    code = table.reference(use, leaves, "leaf")
    if code is not None:
        found = leaves[code_key(code)].use
        if found in USES and found != use:
            table.wrong(f'{use} {shown(code)}: that leaf is of use "{found}"')
    return code
