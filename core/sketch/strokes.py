"""The few elements of SVG that pictures are drawn with: black on white, text as text."""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape

TEXT = 12
"""Height of the text."""


def document(width: int, height: int, title: str, description: str, body: Iterable[str]) -> str:
    """A whole SVG document on white, with its title and what it says in words."""
    size = f'viewBox="0 0 {width} {height}" width="{width}" height="{height}"'
    font = f'font-family="sans-serif" font-size="{TEXT}"'
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" {font}>',
            f"<title>{escape(title)}</title>",
            f"<desc>{escape(description)}</desc>",
            f'<rect width="{width}" height="{height}" fill="#fff"/>',
            *body,
            "</svg>\n",
        ]
    )


def text(x: float, y: float, says: str, anchor: str = "start") -> str:
    """A line of text whose anchor is at x, its foot at y."""
    return f'<text x="{x:g}" y="{y:g}" text-anchor="{anchor}">{escape(says)}</text>'


def line(x1: float, y1: float, x2: float, y2: float, style: str) -> str:
    """A straight black line."""
    return f'<line x1="{x1:g}" y1="{y1:g}" x2="{x2:g}" y2="{y2:g}" stroke="#000" {style}/>'
