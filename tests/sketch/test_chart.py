"""A chart's picture: what is in it, and how it is laid out."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from core.sketch.chart import Spot, picture, signed

GRAMS = st.floats(-2, 2).map(lambda grams: round(grams, 2))
SPOTS = st.lists(
    st.builds(
        lambda value, reach: Spot(value, -abs(reach) - 0.01, abs(reach) + 0.01), GRAMS, GRAMS
    ),
    max_size=60,
)


@given(SPOTS, st.floats(0.05, 1.5))
@settings(deadline=None, max_examples=60)
def test_every_line_is_in_the_range_and_every_mark(spots: list[Spot], half: float) -> None:
    drawn = picture(spots, window=(-half, half))
    lines = [0.0, -half, half, *(spot.low or 0 for spot in spots), *(s.high or 0 for s in spots)]
    assert drawn.bottom <= min(lines)
    assert max(lines) <= drawn.top
    assert len(drawn.marks) == len(spots)
    assert all(drawn.bottom <= mark.height <= drawn.top for mark in drawn.marks)
    assert all(drawn.bottom - 1e-6 <= tick <= drawn.top + 1e-6 for tick in drawn.ticks)
    assert 2 <= len(drawn.ticks) <= 10


def test_ticks_are_round_and_have_the_decimals_they_need() -> None:
    drawn = picture([Spot(0.1, -0.5, 0.5)], window=(-0.6, 0.6))
    assert drawn.ticks == (-0.6, -0.4, -0.2, 0.0, 0.2, 0.4, 0.6)
    assert drawn.places == 1
    assert picture([Spot(3, -60, 60)]).places == 0


def test_a_check_on_its_limit_is_within_and_one_past_it_is_out() -> None:
    spots = [Spot(0.5, -0.5, 0.5), Spot(0.51, -0.5, 0.5), Spot(-0.51, -0.5, 0.5)]
    assert [mark.place for mark in picture(spots).marks] == ["within", "above", "below"]
    assert picture([Spot(9.0, None, None)]).marks[0].place == "within"


def test_one_wild_check_does_not_flatten_the_others() -> None:
    drawn = picture([Spot(0.1, -0.5, 0.5), Spot(30.0, -0.5, 0.5)], window=(-0.6, 0.6))
    assert drawn.top == 0.6 + 0.25 * 1.2
    assert drawn.marks[1].height == drawn.top
    assert drawn.marks[1].place == "above"


def test_a_group_is_named_where_it_begins() -> None:
    spots = [Spot(0.0, None, None, group=day) for day in ("3 May", "3 May", "4 May")]
    assert picture(spots).groups == ((0, "3 May"), (2, "4 May"))


def test_nothing_at_all_is_a_picture_too() -> None:
    drawn = picture([])
    assert drawn.marks == ()
    assert drawn.bottom < drawn.centre < drawn.top


def test_a_rounded_nothing_has_no_sign() -> None:
    assert [signed(value, 1) for value in (0.34, -0.34, -0.04)] == ["+0.3", "-0.3", "0.0"]
