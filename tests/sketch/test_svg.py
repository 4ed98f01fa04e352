"""The chart as SVG: whole, the same each time, and readable without a screen."""

from __future__ import annotations

from itertools import pairwise
from xml.etree import ElementTree

from core.sketch.chart import Spot, picture
from core.sketch.svg import HEIGHT, WIDTH, Labels, svg

NS = "{http://www.w3.org/2000/svg}"
LABELS = Labels(
    title="bench 7 <toro>",
    description="4 checks of bunches, one beyond its limit",
    target="target",
    limit="limit",
    window="tolerance",
    unit="g",
)
SPOTS = [
    Spot(0.10, -0.50, 0.50, group="3 May"),
    Spot(-0.20, -0.50, 0.50, group="3 May"),
    Spot(0.61, -0.45, 0.45, "A", "4 May"),
    Spot(0.20, None, None, group="4 May"),
]


def drawn() -> ElementTree.Element:
    return ElementTree.fromstring(svg(picture(SPOTS, window=(-0.6, 0.6)), LABELS))


def test_it_is_the_same_each_time_and_asks_for_nothing_outside() -> None:
    text = svg(picture(SPOTS, window=(-0.6, 0.6)), LABELS)
    assert text == svg(picture(SPOTS, window=(-0.6, 0.6)), LABELS)
    assert "script" not in text
    assert "href" not in text
    assert "url(" not in text
    assert text.count("http") == 1


def test_it_says_what_it_shows() -> None:
    root = drawn()
    assert root.findtext(f"{NS}title") == LABELS.title
    assert root.findtext(f"{NS}desc") == LABELS.description
    texts = [node.text for node in root.iter(f"{NS}text")]
    assert texts[0] == "bench 7 <toro>, g"
    for words in ("target", "tolerance +0.6", "tolerance -0.6", "3 May", "4 May", "A"):
        assert words in texts


def test_a_check_that_is_out_has_another_shape_than_one_within() -> None:
    root = drawn()
    assert len(root.findall(f"{NS}circle")) == 3
    assert len(root.findall(f"{NS}polygon")) == 1


def test_everything_is_on_the_sheet_and_the_lines_names_do_not_touch() -> None:
    root = drawn()
    for node in root.iter():
        for name, most in (("x", WIDTH), ("x1", WIDTH), ("cx", WIDTH), ("y", HEIGHT)):
            assert 0 <= float(node.get(name, "0")) <= most
    names = [node for node in root.iter(f"{NS}text") if float(node.get("x", "0")) > 604]
    heights = sorted(float(node.get("y", "0")) for node in names)
    assert all(b - a >= 13 for a, b in pairwise(heights))


def test_limits_are_drawn_as_far_as_there_are_any() -> None:
    paths = [node.get("d", "") for node in drawn().iter(f"{NS}path")]
    assert len(paths) == 2
    assert all(path.startswith("M") and path.count("H") == 3 for path in paths)
    assert not [*ElementTree.fromstring(svg(picture([]), LABELS)).iter(f"{NS}path")]
