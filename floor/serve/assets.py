"""The files the page is made of: ours, and the library's terminal with our fonts.

Nothing served names an address elsewhere: not even a comment, so that this can be tested.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

import textual_serve

PAGE = Path(__file__).parent / "page"
LIBRARY = Path(textual_serve.__file__).parent / "static"
FONT = "'Roboto Mono', Monaco, 'Courier New', monospace"
"""What the library's terminal asks for; it takes no other as a setting."""

OUR_FONT = "'DejaVu Sans Mono', Menlo, Consolas, 'Liberation Mono', monospace"
ADDRESS = re.compile(r"https?://[^\s*\"')]+")


class Asset(NamedTuple):
    """A file as it is served."""

    text: str
    content_type: str


def assets() -> Mapping[str, Asset]:
    """Every file there is beside the page, by name."""
    return {
        "page.css": Asset(_read(PAGE / "page.css"), "text/css"),
        "page.js": Asset(_read(PAGE / "page.js"), "text/javascript"),
        "terminal.css": Asset(ADDRESS.sub("-", _read(LIBRARY / "css/xterm.css")), "text/css"),
        "terminal.js": Asset(
            _read(LIBRARY / "js/textual.js").replace(FONT, OUR_FONT), "text/javascript"
        ),
    }


def _read(file: Path) -> str:
    return file.read_text(encoding="utf-8")
