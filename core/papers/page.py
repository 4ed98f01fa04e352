"""One page of HTML that stands alone: no script, nothing from outside."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Any

from core.papers.blocks import Blocks, Tickets
from core.papers.markup import markup
from core.papers.style import CARDS, STYLE
from core.say import told
from core.tongue import tongue_of

if TYPE_CHECKING:
    from core.say import Tongue


def html_page(title: str, blocks: Blocks, language: str) -> str:
    """The blocks under their title as one HTML document, told in the language.

    The same blocks make the same text.
    """
    tongue = tongue_of(language)
    title, blocks = _told((title, tuple(blocks)), tongue)
    style = STYLE + (CARDS if any(isinstance(block, Tickets) for block in blocks) else "")
    return "\n".join(
        [
            "<!DOCTYPE html>",
            f'<html lang="{escape(language)}"><head><meta charset="utf-8"/>',
            '<meta name="viewport" content="width=device-width"/>',
            f"<title>{escape(title)}</title><style>{style}</style></head><body>",
            f"<h1>{escape(title)}</h1>",
            *map(markup, blocks),
            "</body></html>\n",
        ]
    )


def _told(part: Any, tongue: Tongue | None) -> Any:
    """Every text of a block, and of the blocks and cells within it."""
    if isinstance(part, str):
        return told(part, tongue)
    if isinstance(part, tuple):
        parts = [_told(each, tongue) for each in part]
        return type(part)(*parts) if hasattr(part, "_fields") else tuple(parts)
    return part
