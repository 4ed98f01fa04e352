"""Filler by ring gauge, and its picture."""

from __future__ import annotations

import math
from xml.etree import ElementTree

import pytest

from core.house.model import Approved, HouseBook, Vitola
from core.line.change import read_changes
from core.line.curve import filler_curve, filler_drawn, plain_a
from core.line.drawn import line_svg
from core.line.sheet import line_sheet
from core.line.whatif import what_if
from core.recipe.law import fit
from core.sketch.filler import CurvePoint, FillerSpot, filler_picture
from tests.recipe.workshop import RULES, workshop

NS = "{http://www.w3.org/2000/svg}"
SIZES = [
    Vitola(code=f"r{ring}", ring=ring, length_mm=length)
    for ring, length in ((42, 140), (46, 142), (50, 127), (54, 152), (60, 152))
]
GRAMS = (8.9, 11.3, 12.8, 18.9, 25.2)


def house(entries: int = 5) -> HouseBook:
    approved = [Approved(vitola=s.code, filler_g=g) for s, g in zip(SIZES, GRAMS, strict=True)]
    return workshop(*SIZES, approved=approved[:entries])


def test_the_curve_is_the_sheets_law_and_band() -> None:
    of = house()
    for row in line_sheet(of, "B1", {}).vitolas:
        (point,) = filler_curve(of, "B1", fit(of, "B1"), row.length_mm, [row.ring])
        assert point.law_g == pytest.approx(row.law_g)
        assert point.low_g == pytest.approx(row.low_g)
        assert point.high_g == pytest.approx(row.high_g)


def test_the_band_widens_away_from_the_approved_sizes() -> None:
    of = house()
    curve = filler_curve(of, "B1", fit(of, "B1"), 140, (30, 49, 70))
    wide = [math.log((p.high_g or 0) / (p.low_g or 1)) for p in curve]
    assert wide[1] < wide[0]
    assert wide[1] < wide[2]


def test_plain_volume_is_the_law_where_p_is_two() -> None:
    """Fitted to one size alone, the law is plain volume."""
    of = house(entries=1)
    law = fit(of, "B1")
    assert plain_a(of, "B1", law) == pytest.approx(law.a)
    (point,) = filler_curve(of, "B1", law, 140, [50])
    assert point.plain_g == pytest.approx(point.law_g)
    assert (point.low_g, point.high_g) == (None, None)


def test_an_assumed_packing_is_plain_volume() -> None:
    of = workshop(*SIZES, rules=RULES._replace(packing_g_per_cm3=0.3))
    (point,) = filler_curve(of, "B1", fit(of, "B1"), 140, [50])
    assert point.plain_g == point.law_g


def test_no_curve_where_the_covers_leave_no_core() -> None:
    of = house()
    assert [p.ring for p in filler_curve(of, "B1", fit(of, "B1"), 140, (2, 3, 4))] == [4]


def test_bunches_of_another_length_keep_their_distance_from_the_law() -> None:
    of = house()
    sheet = line_sheet(of, "B1", {}, reference="r54")
    drawn = filler_drawn(of, sheet)
    assert drawn.length_mm == 152
    spots = {spot.name: spot for spot in drawn.picture.spots}
    assert [name for name, spot in spots.items() if spot.own] == ["r54", "r60"]
    assert spots["r54"].filler_g == pytest.approx(18.9)
    for row in sheet.vitolas:
        spot = spots[row.vitola]
        (here,) = filler_curve(of, "B1", sheet.law, 152, [row.ring])
        assert row.gap is not None
        assert spot.filler_g / here.law_g == pytest.approx(1 + row.gap)


def test_a_wild_band_does_not_flatten_the_curve() -> None:
    curve = [CurvePoint(ring, ring / 4, 0.001, 900.0, ring / 4) for ring in (40, 50, 60)]
    found = filler_picture(curve, [FillerSpot(50, 12.0, "a")])
    assert [found.up.low, found.up.high] == pytest.approx([9.25, 15.75])
    assert [(p.low_g, p.high_g) for p in found.curve] == [(found.up.low, found.up.high)] * 3
    assert all(found.up.low <= tick <= found.up.high for tick in found.up.ticks)


def test_the_svg_is_whole_and_names_what_it_shows() -> None:
    of = house()
    sheet = line_sheet(of, "B1", {})
    drawn = line_svg(of, sheet)
    assert drawn == line_svg(of, sheet)
    root = ElementTree.fromstring(drawn)
    assert len(root.findall(f"{NS}circle")) == 5
    assert len(root.findall(f"{NS}polygon")) == 1
    said = [element.text for element in root.findall(f"{NS}text")]
    assert {"19 in 20", "plain volume, p 2", "r42", "r60"} <= set(said)
    assert "href" not in drawn
    assert drawn.count("http") == 1


def test_an_exact_fit_has_no_band_to_draw() -> None:
    of = house(entries=2)
    root = ElementTree.fromstring(line_svg(of, line_sheet(of, "B1", {})))
    assert root.findall(f"{NS}polygon") == []


def test_what_is_tried_is_drawn_beside_today_with_words_at_its_marks() -> None:
    of = house()
    changes = read_changes(["r54.ring=57", "r54.length=160"], of)
    tried = what_if(of, "B1", changes, {}, reference="r54")
    drawn = filler_drawn(of, tried.today, tried.changed)
    (spot,) = drawn.picture.tried_spots
    (row,) = (row for row in tried.changed.vitolas if row.vitola == "r54")
    assert spot.ring == 57
    assert spot.filler_g == pytest.approx(row.filler_standard_g)
    assert [p.ring for p in drawn.picture.tried] == [p.ring for p in drawn.picture.curve]
    assert all(
        tried.law_g > today.law_g
        for tried, today in zip(drawn.picture.tried, drawn.picture.curve, strict=True)
    )
    root = ElementTree.fromstring(line_svg(of, tried.today, tried))
    said = [element.text for element in root.findall(f"{NS}text")]
    assert {"r54", "r54 as tried", "law, as tried"} <= set(said)
    desc = root.findtext(f"{NS}desc") or ""
    assert f"triangles: as tried, r54 ring 57, 160.0 mm: {row.filler_standard_g:.2f} g" in desc
    assert "dotted: the law as tried, for 160.0 mm" in desc


def test_other_parts_leave_the_filler_and_the_picture_says_so() -> None:
    of = house()
    tried = what_if(of, "B1", read_changes(["LI-1=1"], of), {})
    drawn = filler_drawn(of, tried.today, tried.changed)
    assert (drawn.picture.tried, drawn.picture.tried_spots) == ((), ())
    assert "leaves the filler of every size as it is" in line_svg(of, tried.today, tried)
