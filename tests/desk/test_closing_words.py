"""The question before a day is closed says what is open, and fits in two rows."""

from __future__ import annotations

from typing import Any

import pytest

from core.day.report import LeafDay, Totals
from core.desk.closing import ROOM, closing_words
from core.desk.desk import Desk
from core.desk.faces import Recorded
from core.say import say, told
from core.stock.stock import LeafStock
from core.tongue import tongue_of
from floor.looks.spans import wrap
from tests.desk.conftest import MORNING, HandClock

ROW_CELLS, ROWS = 78, 2


def typed(desk: Desk, *lines: str) -> None:
    for line in lines:
        outcome = desk.enter(line, None, sure=True)
        assert isinstance(outcome, Recorded), outcome


def test_nothing_open_is_one_short_sentence(desk: Desk) -> None:
    typed(desk, "7 made 50", "7 good 50")
    assert desk.closing().startswith("good 50 of 300")
    assert "hold" not in desk.closing()
    assert "on benches" not in desk.closing()


def test_cigars_on_hold_are_told(desk: Desk) -> None:
    typed(desk, "7 made 50", "7 good 50", "7 hold 25 too wet")
    assert "25 on hold" in desk.closing()


def test_much_leaf_on_the_benches_is_told_and_little_is_not(desk: Desk) -> None:
    # 50 toros of the small house take 10 g of filler each, 6 parts SE-1 and 4 parts LI-1.
    typed(desk, "7 take SE-1 900", "7 take LI-1 205", "7 made 50", "7 good 50", "7 10 10 10")
    says = desk.closing()
    assert "on benches SE-1 600 g" in says
    assert "LI-1 5 g" not in says
    typed(desk, "7 back SE-1 590")
    assert "on benches" not in desk.closing()


def test_what_lies_on_the_benches_is_not_told_again_as_unexplained(desk: Desk) -> None:
    typed(desk, "7 take SE-1 900", "7 take LI-1 200", "7 made 50", "7 good 50", "7 10.8 10.8 10.8")
    assert "SE-1" not in desk.closing().partition("unexplained")[2]
    # 20 bunches that were made are neither good nor failed: their leaf is nowhere.
    typed(desk, "7 made 20")
    assert "unexplained SE-1" in desk.closing()


def test_a_weigh_in_that_is_late_names_its_bench(desk: Desk, clock: HandClock) -> None:
    typed(desk, "7 10.8 10.8 10.8")
    clock.forward(hours=3)
    assert "weigh-in late at 7" in desk.closing()


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("benches", [1, 5, 80, 300])
@pytest.mark.parametrize("leaves", [0, 1, 9])
def test_the_whole_question_fits_under_the_line(
    desk: Desk, language: str, benches: int, leaves: int
) -> None:
    board = [
        desk.bench_line("7")._replace(number=str(100 + n), due=MORNING, open=(1, 3), quota=120)
        for n in range(benches)
    ]
    codes = [f"LEAF-{n}" for n in range(leaves)]
    left = [_left(code, 12_345.0) for code in codes]
    lost = [_lost(f"MORE-{n}", -12_345.0) for n in range(leaves)]
    report = desk.report().model_copy(
        update={"totals": Totals(made=0, good=11_240, rejected=0, rework=0, held=1_250),
                "leaf": tuple(lost)}
    )  # fmt: skip
    says = closing_words(board, report, left, MORNING.replace(hour=12))
    assert len(says) <= ROOM
    for word in ("good 11240 of", "late", "open", "1250 on hold"):
        assert word in says
    assert ("on benches" in says, "unexplained" in says) == (leaves > 0, leaves > 0)
    asked = say("close the day? Enter yes, Esc no: {why}", why=says)
    assert len(wrap(told(asked, tongue_of(language)), ROW_CELLS)) <= ROWS


def _left(code: str, grams: float) -> LeafStock:
    return LeafStock(
        code, "seco", 0.13, None, (), None, 2 * grams, 0.0, grams, 0.0, 0.0, 0.0, None, None
    )


def _lost(code: str, grams: float) -> LeafDay:
    figures: dict[str, Any] = dict.fromkeys(
        ("issued_g", "returned_g", "used_standard_g", "in_good_g", "rejects_g", "heavy_g",
         "cuttings_g"), 0.0,
    )  # fmt: skip
    return LeafDay(
        leaf=code, leaf_class="seco", heavy_se_g=None, unexplained_g=grams, beyond=True, **figures
    )
