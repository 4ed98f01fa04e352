"""Filler against ring in cells: the law rises to the right, the band holds it, points lie on it."""

from __future__ import annotations

from core.sketch.filler import CurvePoint, FillerSpot, filler_picture
from floor.looks.spans import text_of, width_of
from floor.screens.line_plot import BAND, LAW, MARGIN, OTHER, OWN, TRIED, TRIED_LAW, filler_plot

CURVE = [CurvePoint(ring, ring / 4, ring / 4 - 1, ring / 4 + 1, ring / 5) for ring in (40, 50, 60)]
SPOTS = [FillerSpot(40, 10.0, "A"), FillerSpot(60, 15.0, "B", own=False)]


def _rows(curve: list[CurvePoint] = CURVE) -> list[str]:
    lines = filler_plot(filler_picture(curve, SPOTS), (60, 15))
    assert len(lines) == 15
    assert max(map(width_of, lines)) <= 60
    return [text_of(line) for line in lines]


def test_the_law_rises_and_its_band_lies_about_it() -> None:
    rows = _rows()
    heights = [
        next((y for y, row in enumerate(rows) if row[x : x + 1] == LAW), None)
        for x in range(MARGIN + 1, 60)
    ]
    law = [y for y in heights if y is not None]
    assert len(law) > 40
    assert law == sorted(law, reverse=True)
    middle = MARGIN + 1 + 26
    column = "".join(row[middle : middle + 1] for row in rows)
    assert f"{BAND}{LAW}{BAND}" in column


def test_approved_bunches_of_another_size_have_another_sign() -> None:
    rows = _rows()
    own = next(row for row in rows if OWN in row)
    other = next(row for row in rows if OTHER in row)
    assert own.index(OWN) == MARGIN + 1
    assert other.rstrip().endswith(OTHER)


def test_without_an_error_there_is_no_band() -> None:
    bare = [point._replace(low_g=None, high_g=None) for point in CURVE]
    assert BAND not in "".join(_rows(bare))


def test_rings_stand_below_and_grams_at_the_side() -> None:
    rows = _rows()
    assert {"40", "50", "60"} & set(rows[-1].split())
    assert any(row[:MARGIN].strip() == "10" for row in rows)


def test_what_is_tried_has_marks_of_its_own() -> None:
    longer = [point._replace(law_g=point.law_g + 2) for point in CURVE]
    shown = filler_picture(CURVE, SPOTS, longer, [FillerSpot(50, 14.5, "B")])
    rows = [text_of(line) for line in filler_plot(shown, (60, 15))]
    assert sum(row.count(TRIED) for row in rows) == 1
    assert sum(row.count(TRIED_LAW) for row in rows) > 30
    assert sum(row.count(LAW) for row in rows) > 30
