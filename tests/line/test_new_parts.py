"""A change of leaf: the linear programme, its answer, and which limit binds."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.house.model import LAYING_ORDER, Blend, FillerLeaf, HouseBook, Part
from core.line.leaf_limits import Band
from core.line.new_parts import NewParts, NoParts, new_parts
from core.line.programme import Limit, least, least_change
from core.problems import BadInput
from tests.recipe.workshop import BINDER, WRAPPER, workshop


def test_a_published_blending_problem() -> None:
    """PuLP documentation, "A Blending Problem" (from memory): a 100 g can of cat food, at least
    8 g of protein and 6 g of fat, at most 2 g of fibre and 0.4 g of salt, at the least cost.
    60 % beef and 40 % gel, 0.52 a can.
    """
    #          chicken beef   mutton rice   wheat  gel
    cost = [0.013, 0.008, 0.010, 0.002, 0.005, 0.001]
    protein = [0.100, 0.200, 0.150, 0.000, 0.040, 0.000]
    fat = [0.080, 0.100, 0.110, 0.010, 0.010, 0.000]
    fibre = [0.001, 0.005, 0.003, 0.100, 0.150, 0.000]
    salt = [0.002, 0.005, 0.007, 0.002, 0.008, 0.000]
    rows = [[-each for each in protein], [-each for each in fat], fibre, salt]
    found = least(cost, rows, [-0.08, -0.06, 0.02, 0.004], 6)
    assert found == pytest.approx([0, 0.6, 0, 0, 0, 0.4], abs=1e-9)
    assert found is not None
    assert 100 * math.fsum(c * x for c, x in zip(cost, found, strict=True)) == pytest.approx(0.52)


def leaf(code: str, place: int, strength: float | None) -> FillerLeaf:
    return FillerLeaf(
        code=code,
        leaf_class=LAYING_ORDER[place],
        moisture=0.14,
        half_leaf_g=2.0,
        strength=strength,
    )


SECO, SECO_2, SECO_3 = leaf("SE-1", 1, 3.0), leaf("SE-2", 1, 3.5), leaf("SE-3", 1, 2.0)
LIGERO, LIGERO_2 = leaf("LI-1", 3, 8.0), leaf("LI-2", 3, 7.0)


def house(*more: FillerLeaf, parts: tuple[float, float] = (6, 4)) -> HouseBook:
    """Six parts of SE-1 to four of LI-1: strength 5."""
    blend = Blend(
        code="B1",
        parts=(Part(leaf="SE-1", parts=parts[0]), Part(leaf="LI-1", parts=parts[1])),
        binder="BI-1",
        wrapper="CA-1",
    )
    return workshop(blend=blend, leaves=(SECO, LIGERO, *more, BINDER, WRAPPER))


def found(of: HouseBook, without: list[str], band: Band | None = None) -> NewParts:
    answer = new_parts(of, "B1", without, band)
    assert isinstance(answer, NewParts), answer
    return answer


def binds(of: HouseBook, without: list[str], band: Band | None = None) -> NoParts:
    answer = new_parts(of, "B1", without, band)
    assert isinstance(answer, NoParts), answer
    return answer


def by_leaf(answer: NewParts) -> dict[str, float]:
    return {part.leaf: part.parts for part in answer.parts}


def test_a_leaf_like_it_takes_its_place() -> None:
    twin = leaf("LI-3", 3, 8.0)
    answer = found(house(twin), ["LI-1"])
    assert by_leaf(answer) == pytest.approx({"SE-1": 6, "LI-1": 0, "LI-3": 4})
    assert answer.moved == pytest.approx(8)
    assert answer.strength == pytest.approx(5.0)


def test_least_change_worked_by_hand() -> None:
    """Without LI-1, LI-2 of strength 7: with share l, strength is 3 + 4 l, within 0.2 of 5 from
    l = 0.45; that is also all the class may take (0.4 + 0.05). So 5.5 parts to 4.5.
    """
    answer = found(house(LIGERO_2), ["LI-1"])
    assert by_leaf(answer) == pytest.approx({"SE-1": 5.5, "LI-1": 0, "LI-2": 4.5})
    assert answer.strength == pytest.approx(4.8)
    assert set(answer.at_limit) == {"strength", "seco", "ligero"}
    assert [change.said for change in answer.changes()] == ["SE-1=5.5", "LI-1=0", "LI-2=4.5"]


def test_several_leaves_out_at_once() -> None:
    answer = found(house(SECO_2, LIGERO_2), ["SE-1", "LI-1"])
    parts = by_leaf(answer)
    assert (parts["SE-1"], parts["LI-1"]) == (0, 0)
    assert parts["SE-2"] + parts["LI-2"] == pytest.approx(10)
    assert answer.strength == pytest.approx(5.0, abs=0.2 + 1e-6)


def test_stock_on_hand_is_a_limit() -> None:
    """30 kg of filler planned, 6 kg of the best seco: a fifth at most, the rest from the other."""
    band = Band(on_hand_g={"SE-2": 6_000}, planned_g=30_000)
    answer = found(house(SECO_2, SECO_3), ["SE-1"], band)
    needed = {part.leaf: part.needed_g for part in answer.parts}
    assert {part.leaf: part.on_hand_g for part in answer.parts}["SE-2"] == 6_000
    assert answer.notes == ("SE-2: 6.00 kg on hand, all of it goes into the plan",)
    assert needed["SE-2"] is not None
    assert needed["SE-2"] <= 6_000 * (1 + 1e-6)
    assert needed["SE-2"] == pytest.approx(6_000)
    assert needed["SE-3"] is not None
    assert needed["SE-3"] >= 10_000


def test_stock_enough_is_no_limit() -> None:
    """Without SE-1, SE-2 of strength 3.5: 3.5 + 4.5 l is within 0.2 of 5 up to l = 0.3778."""
    band = Band(on_hand_g={"SE-2": 20_000}, planned_g=30_000)
    answer = found(house(SECO_2), ["SE-1"], band)
    assert by_leaf(answer)["SE-2"] == pytest.approx(10 * (1 - 1.7 / 4.5))
    assert "stock of SE-2" not in answer.at_limit


def test_leaf_of_which_there_is_none_is_not_used_and_limits_nothing_that_is() -> None:
    """A twin of LI-1 would be nearest, but there is none of it."""
    band = Band(on_hand_g={"LI-3": 0.0, "LI-2": 50_000}, planned_g=30_000)
    answer = found(house(LIGERO_2, leaf("LI-3", 3, 8.0)), ["LI-1"], band)
    assert by_leaf(answer) == pytest.approx({"SE-1": 5.5, "LI-1": 0, "LI-2": 4.5})
    assert not [limit for limit in answer.at_limit if limit.startswith("stock")]


def test_too_little_stock_binds_alone() -> None:
    """A class may fall from 60 to 55 %: of 30 kg that is 16.5 kg, and 6 are on hand."""
    band = Band(strength_within=10, on_hand_g={"SE-2": 6_000}, planned_g=30_000)
    answer = binds(house(SECO_2, LIGERO_2), ["SE-1"], band)
    stock = next(bound for bound in answer.binds if bound.limit == "stock of SE-2")
    assert stock.alone
    assert stock.says == "SE-2: 6.00 kg on hand, the plan needs 16.50 kg"


def test_strength_that_binds_is_told_with_what_would_do() -> None:
    """Only a mild ligero is left: at 45 % of the filler, 3 + 0.45 (5 − 3) = 3.9, 1.1 off."""
    answer = binds(house(leaf("LI-4", 3, 5.0)), ["LI-1"])
    strength = answer.binds[0]
    assert (strength.limit, strength.alone) == ("strength", True)
    assert strength.says == "strength: within 0.2 of 5.00 cannot be kept; within 1.10 can"


def test_a_class_without_leaf_binds_by_name() -> None:
    answer = binds(house(), ["LI-1"], Band(strength_within=10))
    says = {bound.limit: bound.says for bound in answer.binds}
    assert says["ligero"] == (
        "ligero: within 5 % of 40.0 % of the filler cannot be kept with no leaf; within 40.0 % can"
    )
    assert "seco" in says
    assert not any(bound.alone for bound in answer.binds)


def test_what_binds_would_do_when_let_go() -> None:
    answer = binds(house(leaf("LI-4", 3, 5.0)), ["LI-1"])
    assert answer.binds[0].alone
    found(house(leaf("LI-4", 3, 5.0)), ["LI-1"], Band(strength_within=1.1001))
    binds(house(leaf("LI-4", 3, 5.0)), ["LI-1"], Band(strength_within=1.0999))


@settings(deadline=None, max_examples=40)
@given(st.floats(3.1, 7.4), st.floats(0, 0.3))
def test_the_strength_told_will_do_as_it_is_written(mild: float, class_within: float) -> None:
    """The figure is rounded up: who types it as it stands gets parts."""
    of, band = house(leaf("LI-4", 3, mild)), Band(strength_within=0, class_within=class_within)
    answer = new_parts(of, "B1", ["LI-1"], band)
    if isinstance(answer, NoParts):
        bound = next(each for each in answer.binds if each.limit == "strength")
        assert bound.alone
        told = float(bound.says.split("; within ")[1].removesuffix(" can"))
        found(of, ["LI-1"], band._replace(strength_within=told))


@settings(deadline=None, max_examples=40)
@given(st.floats(100, 15_000), st.floats(20_000, 40_000))
def test_the_stock_told_is_enough_as_it_is_written(on_hand_g: float, planned_g: float) -> None:
    of = house(SECO_2)
    band = Band(strength_within=10, on_hand_g={"SE-2": on_hand_g}, planned_g=planned_g)
    answer = new_parts(of, "B1", ["SE-1"], band)
    if isinstance(answer, NoParts):
        bound = next(each for each in answer.binds if each.limit == "stock of SE-2")
        told = float(bound.says.split("the plan needs ")[1].removesuffix(" kg"))
        found(of, ["SE-1"], band._replace(on_hand_g={"SE-2": 1000 * told}))


def test_leaf_without_a_strength_is_not_used() -> None:
    answer = found(house(leaf("LI-0", 3, None), LIGERO_2), ["LI-1"])
    assert "LI-0" not in by_leaf(answer)
    assert answer.notes == ("not used, for want of a strength: LI-0",)


def test_a_blend_without_a_strength_keeps_its_classes() -> None:
    of = house(LIGERO_2, leaf("SE-0", 1, None))
    of = of._replace(
        leaves=tuple(
            each._replace(strength=None)
            if isinstance(each, FillerLeaf) and each.code == "LI-1"
            else each
            for each in of.leaves
        )
    )
    answer = found(of, ["LI-1"])
    assert by_leaf(answer) == pytest.approx({"SE-1": 6, "LI-1": 0, "LI-2": 4})
    assert answer.notes == ("strength is not kept: the house book gives none for LI-1",)
    assert answer.strength_before is None
    assert answer.strength == pytest.approx(4.6)


@pytest.mark.parametrize(
    ("without", "band", "says"),
    [
        (["LI-9"], None, "blend B1 has no LI-9; its leaf: SE-1, LI-1"),
        (["LI-2"], None, "blend B1 has no LI-2"),
        (["SE-1", "LI-1"], None, "no other filler leaf is left"),
        (["LI-1"], Band(on_hand_g={"SE-1": 1.0}), "say how much filler is planned"),
    ],
)
def test_what_cannot_be_asked(without: list[str], band: Band | None, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        new_parts(house(), "B1", without, band)


shares = st.lists(st.floats(0.05, 1), min_size=4, max_size=4).map(
    lambda given: [each / sum(given) for each in given]
)


@settings(deadline=None, max_examples=60)
@given(shares, shares, st.lists(st.floats(-1, 1), min_size=4, max_size=4))
def test_no_shares_within_the_limits_change_less(
    before: list[float], other: list[float], weights: list[float]
) -> None:
    """Any shares that keep a limit drawn through them are no nearer than the programme's."""
    most = math.fsum(w * s for w, s in zip(weights, other, strict=True))
    answer = least_change(before, [Limit("drawn", tuple(weights), most)])
    assert answer is not None
    assert math.fsum(answer) == pytest.approx(1)
    assert math.fsum(w * s for w, s in zip(weights, answer, strict=True)) <= most + 1e-6

    def moved(to: tuple[float, ...] | list[float]) -> float:
        return math.fsum(abs(a - b) for a, b in zip(before, to, strict=True))

    assert moved(answer) <= moved(other) + 1e-6


def test_of_changes_as_small_the_one_nearest_in_class_and_strength() -> None:
    """Four parts of LI-1 could go to SE-1 and LI-3 alike; a twin of LI-1 is nearest."""
    answer = found(house(leaf("VI-1", 2, 5.0), leaf("LI-3", 3, 8.0)), ["LI-1"])
    assert by_leaf(answer) == pytest.approx({"SE-1": 6, "LI-1": 0, "LI-3": 4})


def test_stock_of_several_leaves_is_bought_together() -> None:
    band = Band(on_hand_g={"SE-1": 1_000, "LI-2": 1_000}, planned_g=30_000, strength_within=1)
    answer = binds(house(LIGERO_2), ["LI-1"], band)
    assert [(bound.limit, bound.alone) for bound in answer.binds] == [
        ("stock of SE-1 and stock of LI-2", True)
    ]
