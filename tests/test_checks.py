"""Windows, places and verdicts of checks."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.checks import Window, draw_scale, judge, mean_and_spread, outside, place, window
from core.house.model import Approved, DialWindow, DrawWindow, HouseBook, Tolerance, Vitola
from core.measure import DrawRises, DrawScale, Measure
from core.recipe.card import recipe_card
from tests.recipe.workshop import RULES, workshop

TORO = Vitola(code="toro", ring=52, length_mm=152.4, draw=DrawWindow(low_mmh2o=40, high_mmh2o=90))
BUNCH = Window(15.2, 15.2 - 0.6, 15.2 + 0.6)


def house(vitola: Vitola = TORO) -> HouseBook:
    return workshop(
        vitola,
        approved=[Approved(vitola="toro", filler_g=15.0)],
        rules=RULES._replace(bundle_tolerance=0.025),
    )


def asked(measure: Measure, of: int = 1, vitola: Vitola = TORO) -> Window | None:
    card = recipe_card(house(vitola), blend="B1", vitola="toro", moistures={})
    return window(card, vitola, house(vitola), measure, of)


# -- windows ----------------------------------------------------------------------------


@pytest.mark.parametrize("measure", ["filler", "bunch", "cigar"])
def test_weights_have_the_cards_own_windows(measure: Measure) -> None:
    card = recipe_card(house(), blend="B1", vitola="toro", moistures={})
    target = card.targets[measure]
    assert asked(measure) == (target.target_g, target.low_g, target.high_g)


@pytest.mark.parametrize("of", [25, 50])
def test_a_bundle_is_so_many_cigars_within_the_bundle_tolerance(of: int) -> None:
    cigar, bundle = asked("cigar"), asked("bundle", of)
    assert cigar is not None
    assert bundle is not None
    assert bundle.target == pytest.approx(of * cigar.target)
    assert bundle.low == pytest.approx(bundle.target * 0.975)
    assert bundle.high == pytest.approx(bundle.target * 1.025)


def test_ring_and_length_as_the_trade_takes_them() -> None:
    """Ring ± 1, length ± 1.5 mm: common practice, no source."""
    assert asked("ring") == (52, 51, 53)
    assert asked("length") == pytest.approx((152.4, 150.9, 153.9))


def test_draw_has_the_houses_window_or_none() -> None:
    assert asked("draw") == (65, 40, 90)
    assert asked("draw", vitola=TORO._replace(draw=None)) is None


def test_ring_and_length_as_the_house_wants_them() -> None:
    strict = house().house._replace(ring_tolerance=0.5, length_tolerance_mm=2.0)
    book = house()._replace(house=strict)
    card = recipe_card(book, blend="B1", vitola="toro", moistures={})
    assert window(card, TORO, book, "ring") == (52, 51.5, 52.5)
    assert window(card, TORO, book, "length") == pytest.approx((152.4, 150.4, 154.4))


@pytest.mark.parametrize(("of_house", "of_vitola"), [("looser", None), ("tighter", "looser")])
def test_a_dial_goes_the_way_its_house_says_or_the_vitola(
    of_house: DrawRises, of_vitola: DrawRises | None
) -> None:
    dial = TORO._replace(draw=DialWindow(low=3, high=7), draw_rises=of_vitola)
    book = house(dial)._replace(house=RULES._replace(draw_rises=of_house))
    assert asked("draw", vitola=dial) == (5, 3, 7)
    assert draw_scale(dial, book) == DrawScale("dial", "looser")
    assert draw_scale(TORO, book) == DrawScale("mmH2O", "tighter")
    assert draw_scale(TORO._replace(draw=None), book) is None


def portion(leaf: str, tolerance: Tolerance) -> Window | None:
    """The window of a portion where 15 g of filler are parted 3 : 5 : 2."""
    book = house(TORO._replace(tolerance=tolerance))
    card = recipe_card(book, blend="B1", vitola="toro", moistures={})
    return window(card, book.vitola["toro"], book, "portion", leaf=leaf)


def test_a_portion_has_the_bunchs_tolerance_as_a_share_of_its_own_grams() -> None:
    card = recipe_card(house(), blend="B1", vitola="toro", moistures={})
    grams = {row.leaf: row.g for row in card.classes}
    seco = grams["SE-1"]
    assert portion("SE-1", Tolerance(share=0.05)) == pytest.approx((seco, 0.95 * seco, 1.05 * seco))
    each = 0.8 / card.targets["bunch"].target_g * seco
    assert portion("SE-1", Tolerance(grams=0.8)) == pytest.approx((seco, seco - each, seco + each))


def test_a_portion_may_always_be_off_by_one_division_of_the_scale() -> None:
    """2 % of some 3 g is less than the 0.1 g that the scale shows."""
    found = portion("LI-1", Tolerance(share=0.02))
    assert found is not None
    assert found.high - found.target == pytest.approx(0.1)
    assert found.target - found.low == pytest.approx(0.1)


def test_leaf_that_is_not_on_the_card_has_no_window() -> None:
    assert portion("LI-9", Tolerance(share=0.05)) is None


# -- places -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("reading", "where"),
    [
        (15.8, "within"),
        (14.6, "within"),
        (15.81, "heavy"),
        (14.59, "light"),
        (15.8001, "heavy"),
        (15.2, "within"),
    ],
)
def test_on_a_limit_is_within(reading: float, where: str) -> None:
    """15.2 ± 0.6 on a scale that shows 15.8, though in binary 15.2 + 0.6 is a hair less."""
    assert 15.2 + 0.6 < 15.8
    assert place(reading, BUNCH) == where


@settings(deadline=None, max_examples=100)
@given(st.integers(50, 3000), st.integers(1, 100))
def test_limits_in_tenths_are_within_and_the_next_tenth_is_not(target: int, each: int) -> None:
    tenths = Window(target / 10, target / 10 - each / 10, target / 10 + each / 10)
    assert place((target + each) / 10, tenths) == "within"
    assert place((target - each) / 10, tenths) == "within"
    assert place((target + each + 1) / 10, tenths) == "heavy"
    assert place((target - each - 1) / 10, tenths) == "light"


# -- verdicts ---------------------------------------------------------------------------


def test_a_check_within_and_steady() -> None:
    """Mean 15.3; deviations −.1 0 .1, so s = .1, under .3."""
    verdict = judge([15.2, 15.3, 15.4], BUNCH)
    assert verdict.places == ("within", "within", "within")
    assert verdict.mean == pytest.approx(15.3)
    assert verdict.deviation == pytest.approx(0.1)
    assert verdict.spread == pytest.approx(0.1)
    assert (verdict.mean_place, verdict.steady, verdict.state) == ("within", True, "within")


def test_a_mean_within_can_hide_a_light_and_a_heavy_bunch() -> None:
    verdict = judge([14.4, 15.2, 16.0], BUNCH)
    assert verdict.places == ("light", "within", "heavy")
    assert (verdict.mean_place, verdict.steady, verdict.state) == ("within", False, "out")


@pytest.mark.parametrize(
    ("readings", "state"),
    [([15.5], "within"), ([14.9], "within"), ([15.51], "near"), ([14.89], "near"), ([15.9], "out")],
)
def test_near_is_a_mean_beyond_half_the_tolerance(readings: list[float], state: str) -> None:
    assert judge(readings, BUNCH).state == state


@pytest.mark.parametrize(("apart", "steady"), [(0.3, True), (0.301, False)])
def test_steady_is_a_spread_of_half_the_tolerance_at_most(apart: float, steady: bool) -> None:
    """Two readings r apart have s = r / √2."""
    readings = [15.2 - apart / 2**0.5, 15.2 + apart / 2**0.5]
    verdict = judge(readings, BUNCH)
    assert verdict.spread == pytest.approx(apart)
    assert verdict.steady is steady


def test_one_reading_has_no_spread() -> None:
    verdict = judge([15.9], BUNCH)
    assert (verdict.spread, verdict.steady, verdict.mean_place) == (None, None, "heavy")


@pytest.mark.parametrize(
    ("readings", "out"), [([15.2, 15.8], False), ([15.2, 15.9], True), ([14.5, 15.2], True)]
)
def test_outside_is_any_reading_out(readings: list[float], out: bool) -> None:
    assert outside(readings, BUNCH) is out
    assert (judge(readings, BUNCH).state == "out") is out


def test_mean_and_spread_numacc1() -> None:
    """NIST StRD, NumAcc1: mean 10000002, standard deviation 1."""
    assert mean_and_spread([10000001, 10000003, 10000002]) == (10000002, 1)


def test_mean_and_spread_numacc3() -> None:
    """NIST StRD, NumAcc3: mean 1000000.2, standard deviation 0.1."""
    mean, spread = mean_and_spread([1000000.2] + [1000000.1, 1000000.3] * 500)
    assert mean == pytest.approx(1000000.2, abs=1e-9)
    assert spread == pytest.approx(0.1, abs=1e-9)
