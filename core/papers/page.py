"""One page of HTML that stands alone: no script, nothing from outside."""

from __future__ import annotations

from html import escape

from core.papers.blocks import Blocks, Tickets
from core.papers.markup import markup
from core.papers.style import CARDS, STYLE


def html_page(title: str, blocks: Blocks, language: str) -> str:
    """The blocks under their title as one HTML document; the same blocks make the same text."""
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
