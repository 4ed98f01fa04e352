"""Leaf on hand and the planned production, beside what is tried on the Line."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake
from core.desk.line import LineShown
from core.desk.line_stock import stocked
from core.line.new_parts import NewParts, NoParts
from core.line.plan import Plan, read_plan
from core.problems import BadInput
from tests.desk.conftest import HOUSE_TOML, load

LIGEROS = """
[[leaf]]
code = "LI-3"
use = "filler"
class = "ligero"
moisture = "13 %"
half_leaf = "3.0 g"
strength = 8.0

[[leaf]]
code = "LI-4"
use = "filler"
class = "ligero"
moisture = "13 %"
half_leaf = "3.0 g"
strength = 7.8
"""


@pytest.fixture
def stocked_desk(desk_at: Callable[..., Desk]) -> Desk:
    """Plenty of seco, a little of LI-3, more of LI-4; the day's quotas take some kilograms."""
    desk = desk_at()
    load(desk, HOUSE_TOML + LIGEROS)
    for lot in ("SE-1 S-1 500kg", "LI-1 L-1 1kg", "LI-3 L-3 2kg", "LI-4 L-4 90kg"):
        desk.enter(f"receive {lot}", None, sure=True)
    return desk


def _sought(desk: Desk, line: str) -> LineShown:
    desk.enter(line, None)
    trial = desk.line.shown().trial
    assert trial is not None
    desk.line.settle(trial, trial.seek())
    return desk.line.shown()


def test_a_day_of_the_quotas_is_what_the_blend_packs_and_loses(stocked_desk: Desk) -> None:
    house = stocked_desk.loaded
    grams = sum(
        (bench.quota or 0) * stocked_desk.card(bench.number).packing.filler_standard_g
        for bench in house.benches
    )
    found = stocked(stocked_desk, "B1", Plan())
    assert found.planned_g == pytest.approx(grams / (1 - house.house.loss_allowance))
    assert found.on_hand_g["LI-3"] == pytest.approx(2000)
    three = stocked(stocked_desk, "B1", Plan(days=3))
    assert three.planned_g == pytest.approx(3 * (found.planned_g or 0))


def test_the_page_finds_new_parts_within_the_stock(stocked_desk: Desk) -> None:
    """LI-3 is the twin of LI-1, and two kilograms are all there is of it."""
    shown = _sought(stocked_desk, "try without LI-1 plan=30kg")
    assert isinstance(shown.found, NewParts)
    needed = {part.leaf: part.needed_g or 0.0 for part in shown.found.parts}
    assert needed["LI-3"] == pytest.approx(2000)
    assert needed["LI-4"] > 8000
    assert "LI-3: 2.00 kg on hand, all of it goes into the plan" in shown.found.notes
    assert shown.plan == "the plan: 30.00 kg of filler"
    assert shown.short == ()


def test_too_little_on_hand_is_what_binds(stocked_desk: Desk) -> None:
    shown = _sought(stocked_desk, "try without LI-1 plan=900kg")
    assert isinstance(shown.found, NoParts)
    (bound,) = shown.found.binds
    assert "SE-1: 500.00 kg on hand, the plan needs " in bound.says
    assert shown.short == ()


def test_the_sheet_says_of_which_leaf_there_is_too_little(stocked_desk: Desk) -> None:
    (short,) = stocked_desk.line.shown().short
    assert short.startswith("LI-1: 1.00 kg on hand, the plan needs ")
    stocked_desk.enter("try LI-1=0 LI-4=4", None)
    assert stocked_desk.line.shown().short == ()
    stocked_desk.enter("try plan=0", None)
    assert (stocked_desk.line.shown().plan, stocked_desk.line.shown().short) == (None, ())


def test_leaf_without_a_lot_is_none_where_filler_is_kept_in_lots(stocked_desk: Desk) -> None:
    other = LIGEROS.replace("LI-3", "LI-8").replace("LI-4", "LI-9")
    load(stocked_desk, HOUSE_TOML + LIGEROS + other)
    assert stocked(stocked_desk, "B1", Plan()).on_hand_g["LI-9"] == 0


def test_a_house_without_lots_is_not_limited(desk: Desk) -> None:
    assert stocked(desk, "B1", Plan()).on_hand_g == {}
    assert desk.line.shown().short == ()


def test_without_a_quota_stock_limits_nothing_and_that_is_said(
    desk_at: Callable[..., Desk],
) -> None:
    desk = desk_at()
    lines = [row for row in (HOUSE_TOML + LIGEROS).splitlines() if not row.startswith("quota")]
    load(desk, "\n".join(lines))
    shown = _sought(desk, "try without LI-1")
    assert isinstance(shown.found, NewParts)
    assert "no bench that rolls B1 has a quota" in " ".join(shown.found.notes)


@pytest.mark.parametrize("plan", ["plan=-1", "plan=4d", "plan=", "plan=401", "plan=2 plan=3"])
def test_a_plan_that_cannot_be_read_is_a_sentence(stocked_desk: Desk, plan: str) -> None:
    refused = stocked_desk.enter(f"try without LI-1 {plan}", None)
    assert isinstance(refused, Mistake)
    assert "plan" in refused.says


def test_a_plan_is_told_in_days_or_by_weight() -> None:
    assert read_plan(["LI-1=2", "plan=2,5"]) == (("LI-1=2",), Plan(days=2.5))
    assert read_plan(["PLAN=80kg"]) == ((), Plan(filler_g=80_000))
    assert read_plan(["LI-1=2"]) == (("LI-1=2",), Plan())
    with pytest.raises(BadInput, match="told twice"):
        read_plan(["plan=1", "plan=2kg"])
