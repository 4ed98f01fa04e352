"""What a house packs: the law from its approved bunches, and what it tells of other sizes."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from core.house.model import Approved, HouseBook, Leaf, Station, Vitola
from core.problems import BadInput
from core.recipe.law import EXACT_FIT
from core.recipe.packing import Packed, fit, packed
from core.units import ring_mm
from tests.recipe.workshop import (
    BINDER,
    BLEND,
    FIVE_BY_FIFTY,
    LB_PER_1000,
    LIGERO,
    RULES,
    SECO,
    SIX_BY_SIXTY,
    VOLADO,
    WRAPPER,
    bare,
    workshop,
)

NO_COVERS: tuple[Leaf, ...] = (VOLADO, SECO, LIGERO, bare(BINDER), bare(WRAPPER))
SMALL_G, LARGE_G = 34.5 * LB_PER_1000, 70 * LB_PER_1000


def approved(
    vitola: Vitola, filler_g: float, bunches: int = 1, blend: str | None = None
) -> Approved:
    return Approved(vitola=vitola.code, filler_g=filler_g, bunches=bunches, blend=blend)


def pack(house: HouseBook, vitola: Vitola) -> Packed:
    return packed(house, "B1", vitola, fit(house, "B1"))


def parejo(ring: float, length_mm: float = 150) -> Vitola:
    return Vitola(code=f"{ring:g}x{length_mm:g}", ring=ring, length_mm=length_mm)


def torpedo(ring: float, length_mm: float = 150) -> Vitola:
    stations = (
        Station(at_mm=0, ring=ring * 0.8),
        Station(at_mm=length_mm / 4, ring=ring),
        Station(at_mm=length_mm, ring=ring * 0.3),
    )
    return Vitola(
        code=f"t{ring:g}x{length_mm:g}",
        ring=ring,
        length_mm=length_mm,
        shape="figurado",
        profile=stations,
    )


# -- the two filler figures of the trade (common practice, no source): 34 to 35 lb per 1,000
# -- for 5 in x 50, 70 lb for 6 in x 60


def test_plain_volume_from_the_first_falls_short_of_the_second() -> None:
    house = workshop(
        FIVE_BY_FIFTY, SIX_BY_SIXTY, approved=[approved(FIVE_BY_FIFTY, SMALL_G)], leaves=NO_COVERS
    )
    law = fit(house, "B1")
    assert (law.fitted, law.p) == ("a", 2)
    found = pack(house, SIX_BY_SIXTY)
    assert found.source == "law"
    assert found.law_g / SMALL_G == pytest.approx(1.728)
    assert 1 - found.law_g / LARGE_G == pytest.approx(0.15, abs=0.005)


@pytest.mark.parametrize(
    ("leaves", "p"),
    [
        (NO_COVERS, 2.8807),
        # the workshop's own covers: 0.35 + 0.25 mm, a core 1.2 mm under the outside
        ((VOLADO, SECO, LIGERO, BINDER, WRAPPER), 2.7214),
    ],
)
def test_a_law_fitted_to_both_returns_both(leaves: Sequence[Leaf], p: float) -> None:
    both = [approved(FIVE_BY_FIFTY, SMALL_G), approved(SIX_BY_SIXTY, LARGE_G)]
    house = workshop(FIVE_BY_FIFTY, SIX_BY_SIXTY, approved=both, leaves=leaves)
    law = fit(house, "B1")
    assert law.p == pytest.approx(p, abs=5e-5)
    assert pack(house, FIVE_BY_FIFTY).law_g == pytest.approx(SMALL_G, rel=1e-12)
    assert pack(house, SIX_BY_SIXTY).law_g == pytest.approx(LARGE_G, rel=1e-12)
    assert law.fitted == "a and p"
    assert (law.dof, law.residual_sd, law.t) == (0, None, None)
    assert law.warnings == (EXACT_FIT,)


# -- the fit ----------------------------------------------------------------------------

SIZES = [parejo(38), torpedo(54, 140), parejo(46, 125), parejo(52), torpedo(44), parejo(60)]
FILLER_G = [7.6, 11.2, 9.7, 15.9, 7.4, 22.8]
BUNCHES = [20, 10, 30, 45, 5, 12]


def mixed_house(*more: Vitola) -> HouseBook:
    entries = [approved(*each) for each in zip(SIZES, FILLER_G, BUNCHES, strict=True)]
    return workshop(*SIZES, *more, approved=entries)


def core_integral(vitola: Vitola, p: float) -> float:
    """By quadrature, from the definition, 1.2 mm of covers off the diameter."""
    stations = vitola.profile or (
        Station(at_mm=0, ring=vitola.ring),
        Station(at_mm=vitola.length_mm, ring=vitola.ring),
    )
    places = [s.at_mm for s in stations]
    outside = [ring_mm(s.ring) for s in stations]

    def power(x: float) -> float:
        return float(max(np.interp(x, places, outside) - 1.2, 0.0) ** p)

    return float(quad(power, 0, vitola.length_mm, points=places[1:-1], epsrel=1e-12, limit=200)[0])


def test_least_squares_found_by_a_general_minimiser() -> None:
    house = mixed_house()
    law = fit(house, "B1")
    logs, weights = np.log(FILLER_G), np.array(BUNCHES) * 6 / sum(BUNCHES)

    def squares(p: float) -> float:
        rest = logs - np.log([core_integral(v, p) for v in SIZES])
        return float(np.sum(weights * (rest - np.average(rest, weights=weights)) ** 2))

    best = minimize_scalar(squares, bounds=(0.5, 6), method="bounded", options={"xatol": 1e-10})
    assert law.p == pytest.approx(best.x, abs=1e-6)
    rest = logs - np.log([core_integral(v, best.x) for v in SIZES])
    assert law.a == pytest.approx(math.exp(np.average(rest, weights=weights)), rel=1e-5)
    assert law.residual_sd == pytest.approx(math.sqrt(squares(best.x) / 4), rel=1e-6)
    assert (law.ring_low, law.ring_high) == (38, 60)


def test_prediction_interval_has_the_leverage_of_both_parameters() -> None:
    """Draper & Smith, Applied Regression Analysis: x0' (X'WX)^-1 x0, X linearised at p."""
    far = parejo(64, 160)
    house = mixed_house(far)
    law, found = fit(house, "B1"), pack(house, far)

    def slope(vitola: Vitola) -> float:
        up, down = (math.log(core_integral(vitola, law.p + h)) for h in (1e-4, -1e-4))
        return (up - down) / 2e-4

    design = np.array([[1, slope(v)] for v in SIZES])
    weights = np.diag(np.array(BUNCHES) * 6 / sum(BUNCHES))
    x0 = np.array([1, slope(far)])
    leverage = x0 @ np.linalg.inv(design.T @ weights @ design) @ x0
    assert law.residual_sd is not None
    half = stats.t.ppf(0.975, 4) * law.residual_sd * math.sqrt(1 + leverage)
    assert found.law_g == pytest.approx(law.a * core_integral(far, law.p))
    assert found.low_g == pytest.approx(found.law_g * math.exp(-half), rel=1e-5)
    assert found.high_g == pytest.approx(found.law_g * math.exp(half), rel=1e-5)


def test_the_interval_of_one_size_is_that_of_a_mean() -> None:
    """p is not fitted there, so four entries leave three to spare: mean ± t s √(1 + 1/4)."""
    toro, logs = parejo(52), [2.70, 2.76, 2.73, 2.81]
    house = workshop(toro, approved=[approved(toro, math.exp(log), 7) for log in logs])
    law, found = fit(house, "B1"), pack(house, toro)
    half = stats.t.ppf(0.975, 3) * np.std(logs, ddof=1) * math.sqrt(1 + 1 / 4)
    assert (law.fitted, law.p, law.dof) == ("a", 2, 3)
    assert law.residual_sd == pytest.approx(np.std(logs, ddof=1))
    assert found.low_g == pytest.approx(math.exp(np.mean(logs) - half))
    assert found.high_g == pytest.approx(math.exp(np.mean(logs) + half))


@pytest.mark.parametrize(
    ("entries", "spread_told", "interval_told"),
    [(2, False, False), (3, True, False), (4, True, False), (5, True, True)],
)
def test_what_the_entries_to_spare_can_tell(
    entries: int, spread_told: bool, interval_told: bool
) -> None:
    chosen = [parejo(38), parejo(46), parejo(52), parejo(56), parejo(60)][:entries]
    grams = [7.6, 11.9, 16.2, 18.6, 22.5][:entries]
    house = workshop(*chosen, approved=map_approved(chosen, grams))
    law, found = fit(house, "B1"), pack(house, chosen[0])
    assert law.entries == entries
    assert (law.residual_sd is not None) is spread_told
    assert (found.low_g is not None, found.high_g is not None) == (interval_told, interval_told)
    assert (EXACT_FIT in law.warnings) is (entries == 2)


def map_approved(vitolas: Sequence[Vitola], grams: Sequence[float]) -> list[Approved]:
    return [approved(v, g) for v, g in zip(vitolas, grams, strict=True)]


def test_many_bunches_weigh_as_many_and_the_spread_stays_a_typical_entrys() -> None:
    few = mixed_house()
    tenfold = few._replace(approved=tuple(e._replace(bunches=e.bunches * 10) for e in few.approved))
    assert fit(tenfold, "B1").residual_sd == pytest.approx(fit(few, "B1").residual_sd)
    assert fit(tenfold, "B1").p == pytest.approx(fit(few, "B1").p)


@settings(deadline=None, max_examples=40)
@given(st.floats(1.6, 3.4), st.floats(1e-6, 1e-3))
def test_bunches_that_follow_a_law_give_it_back(p: float, a: float) -> None:
    sizes = [parejo(40), torpedo(58), torpedo(47, 170), parejo(55, 130)]
    grams = [a * core_integral(v, p) for v in sizes]
    law = fit(workshop(*sizes, approved=map_approved(sizes, grams)), "B1")
    assert law.p == pytest.approx(p, abs=1e-5)
    assert law.a == pytest.approx(a, rel=1e-4)


def test_bunches_that_disagree_about_size_are_warned_of() -> None:
    thin, thick = parejo(42), parejo(54)
    house = workshop(thin, thick, approved=[approved(thin, 14), approved(thick, 14.2)])
    law = fit(house, "B1")
    assert law.p < 1.5
    assert any("disagree about size" in says for says in law.warnings)


def test_two_sizes_of_nearly_one_ring_do_not_run_away() -> None:
    near, same = parejo(50), parejo(50.001, 151)
    law = fit(workshop(near, same, approved=[approved(near, 5), approved(same, 25)]), "B1")
    assert law.p == 10
    assert math.isfinite(law.a)
    assert any("disagree about size" in says for says in law.warnings)


# -- which entries ----------------------------------------------------------------------


def test_entries_naming_the_blend_stand_alone() -> None:
    toro = parejo(52)
    general, own = approved(toro, 12.0, 100), approved(toro, 15.0, 10, blend="B1")
    house = workshop(toro, approved=[general, own])
    assert pack(house, toro).filler_standard_g == 15.0
    assert pack(workshop(toro, approved=[general]), toro).filler_standard_g == 12.0


def test_entries_of_another_blend_do_not_count() -> None:
    toro = parejo(52)
    house = workshop(toro, approved=[approved(toro, 15.0, blend="B2")])
    with pytest.raises(BadInput, match="weigh approved bunches"):
        fit(house, "B1")


def test_an_approved_vitola_is_packed_to_its_own_mean() -> None:
    """15.0 of 10 bunches and 15.6 of 20: 15.4; the law of all three entries lies elsewhere."""
    toro, corona = parejo(52), parejo(42)
    entries = [approved(toro, 15.0, 10), approved(toro, 15.6, 20), approved(corona, 9.0, 10)]
    found = pack(workshop(toro, corona, approved=entries), toro)
    assert found.source == "approved"
    assert found.approved_g == found.filler_standard_g == pytest.approx(15.4)
    assert found.gap == pytest.approx(15.4 / found.law_g - 1)
    assert found.beyond is False


def test_a_size_packed_ten_percent_over_the_law_of_its_fellows() -> None:
    """Weighted so heavily that the fellows alone set the law: their gap is 0, its gap 10 %."""
    fellows, firm = [parejo(42), parejo(50), parejo(58)], parejo(54)
    grams = [3e-5 * core_integral(v, 2.5) for v in (*fellows, firm)]
    entries = [approved(v, g, 1_000_000) for v, g in zip(fellows, grams[:3], strict=True)]
    house = workshop(*fellows, firm, approved=[*entries, approved(firm, grams[3] * 1.1)])
    assert pack(house, firm).gap == pytest.approx(0.10, abs=1e-5)
    assert pack(house, fellows[0]).gap == pytest.approx(0, abs=1e-5)


@pytest.mark.parametrize(("ring", "beyond"), [(41, True), (42, False), (52, False), (53, True)])
def test_sizes_beyond_the_approved_rings(ring: float, beyond: bool) -> None:
    thin, thick, asked = parejo(42), parejo(52), parejo(ring, 133)
    entries = [approved(thin, 9.0), approved(thick, 15.4)]
    assert pack(workshop(thin, thick, asked, approved=entries), asked).beyond is beyond


# -- without any ------------------------------------------------------------------------


def test_an_assumed_packing_fills_the_core() -> None:
    """0.30 g/cm³ in a core of 18.64375 mm by 127 mm: 34.6709 cm³, 10.4013 g."""
    rules = RULES._replace(packing_g_per_cm3=0.30)
    house = workshop(FIVE_BY_FIFTY, rules=rules)
    law, found = fit(house, "B1"), pack(house, FIVE_BY_FIFTY)
    assert (law.fitted, found.source, found.beyond) == ("assumed", "assumed", False)
    assert found.filler_standard_g == pytest.approx(
        0.30 * math.pi / 4 * 1.864375**2 * 12.7, rel=1e-12
    )
    assert "assumed" in law.warnings[0]


def test_nothing_to_say_how_full_is_a_problem() -> None:
    with pytest.raises(BadInput, match="weigh approved bunches") as found:
        fit(workshop(FIVE_BY_FIFTY), "B1")
    assert found.value.problems[0].place == '[[blend]] "B1"'


def test_an_approved_size_without_a_core_is_a_problem() -> None:
    sliver = parejo(3)
    with pytest.raises(BadInput, match="leaves no core"):
        fit(workshop(sliver, approved=[approved(sliver, 1.0)]), "B1")


def test_an_unknown_blend_names_those_there_are() -> None:
    with pytest.raises(BadInput, match=f"no blend B9; it has {BLEND.code}"):
        fit(workshop(FIVE_BY_FIFTY), "B9")


@settings(deadline=None, max_examples=150)
@given(
    st.lists(
        st.tuples(
            st.floats(16, 100),
            st.floats(30, 400),
            st.floats(0.01, 200),
            st.integers(1, 100_000),
            st.booleans(),
        ),
        min_size=1,
        max_size=7,
    ),
    st.floats(0, 10),
)
def test_any_approved_bunches_give_finite_figures_or_a_problem(
    sizes: list[tuple[float, float, float, int, bool]], build_mm: float
) -> None:
    vitolas = [
        (torpedo if pointed else parejo)(ring, length)._replace(code=f"v{i}")
        for i, (ring, length, _, _, pointed) in enumerate(sizes)
    ]
    entries = [approved(v, s[2], s[3]) for v, s in zip(vitolas, sizes, strict=True)]
    thick = BINDER._replace(build_mm=build_mm)
    asked = parejo(100, 400)
    house = workshop(
        *vitolas, asked, approved=entries, leaves=(VOLADO, SECO, LIGERO, thick, WRAPPER)
    )
    try:
        law = fit(house, "B1")
    except BadInput:
        return
    for vitola in (*vitolas, asked):
        found = packed(house, "B1", vitola, law)
        figures = [found.filler_standard_g, found.law_g, found.gap, found.low_g, found.high_g]
        assert all(math.isfinite(figure) for figure in figures if figure is not None)
        assert found.law_g > 0
