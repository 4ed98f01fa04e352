"""What was tried as JSON keys: changes beside today's sheet, and new parts without a leaf."""

from __future__ import annotations

from core.line.new_parts import NewParts, NoParts
from core.line.whatif import WhatIf
from core.line.written import line_json


def whatif_json(tried: WhatIf) -> dict[str, object]:
    """The keys of `try --json`: both sheets as `line --json` has them, and what differs."""
    return {
        "blend": tried.today.blend,
        "changes": [
            {"field": each.field, "code": each.code, "value": each.value, "said": each.said}
            for each in tried.changes
        ],
        "differences": [each._asdict() for each in tried.differences],
        "notes": list(tried.notes),
        "today": line_json(tried.today),
        "changed": line_json(tried.changed),
    }


def new_parts_json(found: NewParts | NoParts) -> dict[str, object]:
    """The key `without` of `try --json`: new parts, or the limits that bind."""
    if isinstance(found, NoParts):
        return {
            "leaf": list(found.without),
            "found": False,
            "binds": [each._asdict() for each in found.binds],
            "notes": list(found.notes),
        }
    return {
        "leaf": list(found.without),
        "found": True,
        "parts": [_part(each._asdict()) for each in found.parts],
        "moved": found.moved,
        "strength": {"before": found.strength_before, "after": found.strength},
        "at_limit": list(found.at_limit),
        "notes": list(found.notes),
    }


def _part(fields: dict[str, object]) -> dict[str, object]:
    return {"leaf": fields.pop("leaf"), "class": fields.pop("leaf_class"), **fields}
