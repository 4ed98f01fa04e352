"""`[[blend]]`: filler leaf in parts by weight, a binder and a wrapper."""

from __future__ import annotations

from collections.abc import Mapping

from core.house import limits
from core.house.codes import Holders, Known, code_key
from core.house.fields import LONGEST_NAME, Fields
from core.house.model import Blend, Part
from core.house.shown import shown
from core.house.uses import USES
from core.say import say

BLEND_KEYS = ("code", "name", "parts", "binder", "wrapper")
EXAMPLE = '{ "LEAF" = 3 }'
PARTS_LIKE = say("a table such as {example}", example=EXAMPLE)


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
    value = table.raw("parts", need=True, like=PARTS_LIKE)
    if value is None:
        return ()
    if not isinstance(value, Mapping) or not value:
        found_there = say("an empty one") if value == {} else shown(value)
        table.wrong(
            say(
                "parts must be a table such as {example}, not {found}",
                example=EXAMPLE,
                found=found_there,
            )
        )
        return ()
    found: dict[str, Part] = {}
    for code, parts in value.items():
        holder = table.as_reference("parts:", code, leaves, "leaf")
        number = table.as_number(say("parts of {leaf}", leaf=shown(code)), parts, limits.PARTS)
        if holder is None or number is None:
            continue
        if holder.use in {"binder", "wrapper"}:
            table.wrong(
                say(
                    "parts: {leaf} is a {use} leaf; parts are of filler leaf",
                    leaf=shown(code),
                    use=USES[holder.use],
                )
            )
        if holder.code in found:
            table.wrong(say("parts: {leaf} is there twice", leaf=shown(code)))
        found[holder.code] = Part(leaf=holder.code, parts=number)
    return tuple(found.values())


def _leaf_of_use(table: Fields, use: str, leaves: Holders) -> str | None:
    code = table.reference(use, leaves, "leaf")
    if code is not None:
        found = leaves[code_key(code)].use
        # A leaf of any other use has a problem of its own, and no second one here.
        if found in USES and found != use:
            table.wrong(
                say(
                    '{key} {leaf}: that leaf is of use "{use}"',
                    key=use,
                    leaf=shown(code),
                    use=found,
                )
            )
    return code
