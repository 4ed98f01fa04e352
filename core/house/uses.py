"""What a leaf is for, in words."""

from __future__ import annotations

from collections.abc import Mapping

from core.say import Said, say

USES: Mapping[str, Said] = {
    "filler": say("filler"),
    "binder": say("binder"),
    "wrapper": say("wrapper"),
}
"""By what the house book calls it in a leaf's `use`."""
