"""Every colour that is shown stands out from its ground: floor, browser page, papers, charts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from core.papers.style import CARDS, STYLE
from floor.looks.ink import LEAF, inks
from floor.looks.spans import Ink
from floor.serve.assets import PAGE
from tests.contrast import FIGURES, SHAPES, TEXT, Rgb, contrast, over, rgb
from tests.floor.rooms import ALL, Rooms, go, settle
from tests.floor.terminal import Terminal

ROOT = Path(__file__).parents[2]
HEX = re.compile(r"#[0-9a-fA-F]{3,8}\b")
WARNS: tuple[Ink, ...] = ("wrong", "mixed", "heavy", "light", "big", "strong", "plain", "faint")
"""Inks that figures, or words to be heeded, are in."""


# W3C, ACT Rule afw4f7 "Text has minimum contrast", its examples; the two decimals of the fourth
# and all of the others are cut off there, not rounded.
@pytest.mark.parametrize(
    ("text", "ground", "published"),
    [
        ("#000", "#fff", 21.0),
        ("#333", "#fff", 12.6),
        ("#aaa", "#fff", 2.3),
        ("#0000ee", "#fff", 9.39),
        ("#777", "#eee", 3.85),
        ("#000", "#666", 3.6),
    ],
)
def test_the_ratio_is_the_published_one(text: str, ground: str, published: float) -> None:
    assert published <= contrast(text, ground) < published + 0.1
    assert contrast(ground, text) == contrast(text, ground)


def test_a_colour_that_covers_half_is_between() -> None:
    assert over(rgb("#fff"), 0.5, rgb("#000")) == (127.5, 127.5, 127.5)
    # W3C, ACT Rule afw4f7, failed example 4: black with 30 % alpha on white is 2.1:1.
    assert contrast(over(rgb("#000"), 0.3, rgb("#fff")), "#fff") == pytest.approx(2.1, abs=0.05)


def test_every_ink_stands_out_from_both_grounds() -> None:
    for ink, style in inks("full").items():
        text = style.color.triplet.hex if style.color and style.color.triplet else LEAF.foreground
        own = style.bgcolor.triplet.hex if style.bgcolor and style.bgcolor.triplet else None
        assert text is not None
        for ground in (own,) if own else (LEAF.background, LEAF.surface):
            assert ground is not None
            assert contrast(text, ground) >= (FIGURES if ink in WARNS else TEXT), (ink, ground)


def seen(terminal: Terminal) -> dict[tuple[str, str], str]:
    """The pairs of colours on the screen, text and ground, with the signs shown in each."""
    pairs: dict[tuple[str, str], str] = {}
    for y, row in enumerate(terminal.rows):
        for x in range(len(row)):
            cell = terminal.cell(x, y)
            if cell.data.strip():
                pair = (cell.bg, cell.fg) if cell.reverse else (cell.fg, cell.bg)
                pairs[pair] = pairs.get(pair, "") + cell.data
    return pairs


@pytest.mark.parametrize("deep", [{"COLORTERM": "truecolor"}, {}], ids=["16 million", "256"])
def test_all_that_is_drawn_on_any_page_stands_out(rooms: Rooms, deep: dict[str, str]) -> None:
    """Whatever draws it: the pages, the bars, the cursors, a part of the library's own.

    With 256 colours the nearest ones are shown, which are not the same.
    """
    with rooms.floor("en", (132, 43), **deep) as terminal:
        shown: dict[tuple[str, str], str] = {}
        for room in ALL["en"]:
            go(terminal, room)
            settle(terminal)
            shown |= seen(terminal)
        terminal.type("7 99")
        terminal.wait_for("▸ 7 99")
        settle(terminal)
        shown |= seen(terminal)
    assert len(shown) > 5
    for (text, ground), signs in shown.items():
        least = FIGURES if any(sign.isdecimal() for sign in signs) else TEXT
        assert contrast(text, ground) >= least, (text, ground, signs[:80])


# -- the page in the browser ------------------------------------------------------------------

RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
SHARED = re.compile(r"rgb\((\d+) (\d+) (\d+) / (\d+)%\)")


def declared(css: str) -> dict[str, dict[str, str]]:
    """What each selector of a style sheet declares."""
    return {" ".join(selector.split()): _pairs(body) for selector, body in RULE.findall(css)}


def _pairs(body: str) -> dict[str, str]:
    parts = (each.partition(":") for each in body.split(";") if ":" in each)
    return {name.strip(): value.strip() for name, _, value in parts}


def test_the_page_in_the_browser_stands_out_from_its_grounds() -> None:
    rules = declared((PAGE / "page.css").read_text(encoding="utf-8"))
    body = rules["html, body"]
    assert contrast(body["color"], body["background"]) >= FIGURES
    # What is said at the end lies over the last picture, whatever colours that had.
    red, green, blue, share = map(int, SHARED.fullmatch(rules[".ended"]["background"]).groups())  # type: ignore[union-attr]
    for behind in ("#000", "#fff"):
        ground: Rgb = over((red, green, blue), share / 100, rgb(behind))
        assert contrast(rgb(body["color"]), ground) >= FIGURES
        ring = rules[".ended button:focus-visible"]["outline"].split()[-1]
        assert contrast(rgb(ring), ground) >= SHAPES
    button = rules[".ended button"]
    assert contrast(button["color"], button["background"]) >= FIGURES
    told = {selector for selector, says in rules.items() if {"color", "background"} & says.keys()}
    assert told == {"html, body", ".ended", ".ended button"}
    assert rules["#terminal .xterm-viewport"]["background-color"].split()[0] == LEAF.background
    assert (body["color"], body["background"]) == (LEAF.foreground, LEAF.background)


# -- papers and charts ------------------------------------------------------------------------


def test_papers_are_black_on_white() -> None:
    style = STYLE + CARDS
    assert "color:#000;background:#fff" in STYLE
    assert set(HEX.findall(style)) == {"#000", "#fff"}
    assert not re.search(r"rgb|hsl|opacity|gray|grey|silver", style)
    assert contrast("#000", "#fff") >= FIGURES


@pytest.mark.parametrize(
    "file", ["sketch/strokes.py", "sketch/svg.py", "sketch/filler_svg.py", "papers/bars.py"]
)
def test_charts_are_black_on_white_or_on_a_light_band_with_an_edge(file: str) -> None:
    drawn = (ROOT / "core" / file).read_text(encoding="utf-8")
    bands = set(HEX.findall(drawn)) - {"#000", "#fff"}
    assert not re.search(r"opacity|rgb\(|hsl\(", drawn)
    for band in bands:
        assert contrast("#000", band) >= FIGURES
        # The band itself hardly shows on white, so it has an edge.
        assert all(
            'stroke="#000"' in line for line in drawn.splitlines() if f'fill="{band}"' in line
        )
