"""A bench's checks of today become approved bunches of a new version of the house book."""

from __future__ import annotations

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake, Question, Recorded


def _target(desk: Desk) -> float:
    return desk.card("7").targets["bunch"].target_g


def test_the_mean_filler_at_standard_moisture_is_approved_after_one_question(desk: Desk) -> None:
    target = _target(desk)
    desk.enter(f"7 {target + 0.2:.2f} {target + 0.3:.2f} {target + 0.4:.2f}", None)
    question = desk.enter("aprueba 7", None)
    assert isinstance(question, Question)
    assert "approve 3 bunches of bench 7, toro in B1: filler 10.3" in question.says
    assert isinstance(desk.enter(question.line, None, sure=True), Recorded)
    desk.follow()
    entry = desk.loaded.approved[-1]
    assert (entry.blend, entry.vitola, entry.bunches) == ("B1", "toro", 3)
    # The covers' exact target and the readings' two decimals: to within a hundredth.
    assert entry.filler_g == pytest.approx(10.3, abs=0.01)
    assert entry.spread_g == pytest.approx(0.1, abs=0.01)
    assert "# bench 7, 2026-05-04" in desk.shelf.source(desk.house_version)["toml"]


def test_wet_filler_is_brought_to_standard_moisture(desk: Desk) -> None:
    for leaf in ("SE-1", "LI-1"):
        assert isinstance(desk.enter(f"{leaf} 20%!", None), Recorded)
    wet_g = 10.0 * (1 - 0.13) / (1 - 0.20)
    desk.enter(f"7 filler {wet_g:.3f} {wet_g:.3f}", None)
    meaning = desk.meaning("approve 7", None)
    assert meaning.ok
    assert "2 bunches" in meaning.says
    assert "filler 10.00 g" in meaning.says


def test_the_same_checks_are_not_approved_twice(desk: Desk) -> None:
    target = _target(desk)
    desk.enter(f"7 {target:.2f} {target + 0.1:.2f} {target:.2f}", None)
    assert isinstance(desk.enter("approve 7", None, sure=True), Recorded)
    desk.follow()
    assert isinstance(desk.enter("approve 7", None, sure=True), Mistake)


@pytest.mark.parametrize("line", ["approve 7", "approve 9", "approve"])
def test_without_checks_or_a_bench_nothing_is_approved(desk: Desk, line: str) -> None:
    assert isinstance(desk.enter(line, None, sure=True), Mistake)
    assert desk.house_version == 1


def test_a_yes_after_another_check_is_asked_again_with_that_check(desk: Desk) -> None:
    target = _target(desk)
    desk.enter(f"7 {target:.2f} {target + 0.1:.2f}!", None)
    question = desk.enter("approve 7", None)
    assert isinstance(question, Question)
    desk.enter(f"7 {target:.2f} {target + 0.2:.2f}!", None)
    again = desk.enter(question.line, None, sure=True)
    assert isinstance(again, Question)
    assert "approve 4 bunches" in again.says
    assert isinstance(desk.enter(question.line, None, sure=True), Recorded)


def test_bunches_further_apart_than_their_filler_are_not_approved(desk: Desk) -> None:
    desk.enter("7 filler 10 11 185!", None)
    refused = desk.enter("approve 7", None)
    assert isinstance(refused, Mistake)
    assert "the bunches of bench 7 lie 100.75 g apart, more than the filler of one" in refused.says
    assert "house.toml" not in refused.says
    desk.enter("undo 1", None)
    desk.enter("7 filler 10 11 10.5", None)
    assert isinstance(desk.enter("approve 7", None), Question)
