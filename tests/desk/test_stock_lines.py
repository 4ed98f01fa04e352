"""Two working days of stock and set-aside cigars on disk, as typed at the entry line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from core.day.lots import lots
from core.desk.audit import audit
from core.desk.desk import Desk
from core.desk.faces import Mistake, Question, Recorded
from tests.desk.conftest import HandClock

# The small house keeps and weighs its leaf at 13 %: grams on the scale are standard grams.


def says(desk: Desk, line: str) -> str:
    outcome = desk.enter(line, None)
    assert isinstance(outcome, Recorded), outcome
    return outcome.says


def asked(desk: Desk, line: str) -> str:
    """The question about a line, which is not recorded until it is answered."""
    before = len(desk.ledger.entries)
    outcome = desk.enter(line, None)
    assert isinstance(outcome, Question), outcome
    assert len(desk.ledger.entries) == before
    return outcome.says


def refused(desk: Desk, line: str) -> str:
    outcome = desk.enter(line, None)
    assert isinstance(outcome, Mistake), outcome
    return outcome.says


def on_hand(desk: Desk, leaf: str = "LI-1") -> dict[str, float]:
    """Grams by lot, the oldest first."""
    states = lots(desk.ledger, desk.day).get(leaf, ())
    return {state.lot: round(state.on_hand_g, 3) for state in states}


def with_two_lots(desk: Desk) -> Desk:
    says(desk, "receive LI-1 L1 2kg 13% crop 2022 bales 1 price 30")
    says(desk, "receive LI-1 L2 5kg 13% crop 2023 bales 2 price 32")
    return desk


def test_a_lot_comes_in_with_all_that_is_told_of_it(desk: Desk) -> None:
    says(desk, "receive LI-1 L1 36.2kg 13.5% crop 2022 bales 3 price 24")
    (lot,) = lots(desk.ledger, desk.day)["LI-1"]
    assert (lot.received, lot.crop, lot.bales, lot.price_per_kg) == (desk.day, 2022, 3, 24.0)
    assert lot.on_hand_g == pytest.approx(36_200 * (1 - 0.135) / (1 - 0.13))


def test_the_oldest_lot_is_proposed_until_it_is_used_up(desk: Desk) -> None:
    with_two_lots(desk)
    assert "lot L1" in says(desk, "7 take LI-1 1500")
    assert "lot L1" in says(desk, "8 take LI-1 500")
    assert on_hand(desk) == {"L1": 0.0, "L2": 5000.0}
    assert "lot L2" in says(desk, "7 take LI-1 300")
    assert on_hand(desk) == {"L1": 0.0, "L2": 4700.0}


def test_a_lot_by_name_comes_before_its_turn(desk: Desk) -> None:
    with_two_lots(desk)
    assert "lot L2" in says(desk, "7 take LI-1 300 lot l2")
    assert "lot L1" in says(desk, "8 take LI-1 300")
    assert "in stock are L1, L2" in refused(desk, "7 take LI-1 300 lot L9")


def test_stock_goes_below_nothing_only_when_it_is_meant(desk: Desk) -> None:
    with_two_lots(desk)
    says(desk, "7 take LI-1 1500")
    question = asked(desk, "8 take LI-1 800")
    assert question.startswith("lot L1: by the records only 500 g are on hand; there is more in L2")
    says(desk, "8 take LI-1 800!")
    assert on_hand(desk) == {"L1": -300.0, "L2": 5000.0}
    assert "lot L2" in says(desk, "7 take LI-1 100")


def test_what_comes_back_goes_to_the_lot_that_the_bench_took_last(desk: Desk) -> None:
    with_two_lots(desk)
    says(desk, "7 take LI-1 1000 lot L2")
    says(desk, "8 take LI-1 1000")
    assert "lot L2" in says(desk, "7 back LI-1 60")
    assert "lot L1" in says(desk, "8 back LI-1 40")
    assert "lot L1" in says(desk, "7 back LI-1 10 lot L1")
    assert on_hand(desk) == {"L1": 1050.0, "L2": 4060.0}


def test_a_receipt_undone_is_as_if_it_had_never_come(desk: Desk) -> None:
    with_two_lots(desk)
    says(desk, "undo wrong leaf")
    assert on_hand(desk) == {"L1": 2000.0}
    assert "no lot L2" in refused(desk, "7 take LI-1 100 lot L2")


def test_undoing_a_receipt_of_leaf_that_was_issued_since_is_asked_about(desk: Desk) -> None:
    with_two_lots(desk)
    says(desk, "7 take LI-1 1500")
    assert "lot L1 was issued since" in asked(desk, "undo 1")
    says(desk, "undo 1!")
    assert on_hand(desk) == {"L2": 5000.0, "L1": -1500.0}


def test_more_of_a_lot_is_asked_about_and_adds_to_it(desk: Desk) -> None:
    with_two_lots(desk)
    assert "lot L1 is in stock already" in asked(desk, "receive LI-1 L1 1kg")
    says(desk, "receive LI-1 L1 1kg price 36!")
    (lot, _) = lots(desk.ledger, desk.day)["LI-1"]
    assert (lot.on_hand_g, lot.price_per_kg) == (3000.0, 32.0)  # (2 × 30 + 1 × 36) ÷ 3


def test_stock_goes_on_from_what_was_counted(desk: Desk) -> None:
    with_two_lots(desk)
    says(desk, "stock LI-1 L1 1.95kg")
    assert "1.0 kg less" in asked(desk, "stock LI-1 L2 4kg")
    says(desk, "stock LI-1 L2 4kg!")
    says(desk, "7 take LI-1 150")
    assert on_hand(desk) == {"L1": 1800.0, "L2": 4000.0}
    assert [round(lot.adjusted_g) for lot in lots(desk.ledger, desk.day)["LI-1"]] == [-50, -1000]


def test_the_same_words_in_spanish_record_the_same(
    desk_at: Callable[..., Desk], desk: Desk
) -> None:
    for line in (
        "recibe LI-1 L1 2kg 13% cosecha 2022 pacas 1 precio 30",
        "7 toma LI-1 500 lote L1",
        "7 devuelve LI-1 100",
        "existencia LI-1 L1 1,55kg",
        "7 bueno 100",
        "7 segunda 3",
        "7 retiene 25 húmedos",
        "7 libera 5",
        "7 fuma 4",
        "7 cata 5",
        "7 vena 12",
        "barrido 40",
    ):
        says(desk, line)
    assert [entry["kind"] for entry in desk.ledger.entries.values()] == [
        "receive", "take", "back", "stocktake", "good", "second", "hold", "release", "workers",
        "panel", "stem", "sweepings",
    ]  # fmt: skip
    assert on_hand(desk) == {"L1": 1550.0}
    assert on_hand(desk_at("T2")) == {"L1": 1550.0}


def test_two_days_on_disk(
    desk: Desk, desk_at: Callable[..., Desk], clock: HandClock, tmp_path: Path
) -> None:
    with_two_lots(desk)
    for line in (
        "receive SE-1 S1 9kg 13%",
        "7 take LI-1 1200",
        "7 take SE-1 1800",
        "7 made 290",
        "7 good 280",
        "7 second 3",
        "7 fail torn 7",
        "7 hold 25 too wet",
        "7 workers 4",
        "7 panel 5",
        "7 stem 12",
        "7 back LI-1 30",
        "7 back SE-1 40",
        "sweepings 20",
    ):
        says(desk, line)
    assert desk.bench_line("7").good == 280
    desk.close_day()
    clock.forward(days=1)
    desk = desk_at()
    assert not desk.ledger.entries
    # The next day begins with what was on hand and on hold, before anything is typed in it.
    assert on_hand(desk) == {"L1": 830.0, "L2": 5000.0}
    assert desk.ledger.held("7") == 25
    assert "lot L1" in says(desk, "7 take LI-1 830")
    assert "lot L2" in says(desk, "7 take LI-1 170")
    assert desk.ledger.opening["held"] == {"7": 25}
    assert [(lot["lot"], lot["received"]) for lot in desk.ledger.opening["lots"]] == [
        ("L1", "2026-05-04"),
        ("L2", "2026-05-04"),
        ("S1", "2026-05-04"),
    ]
    assert "more than the 25 on hold" in asked(desk, "7 release 30")
    says(desk, "7 release 20")
    assert desk.ledger.held("7") == 5
    says(desk, "stock LI-1 L2 4.8kg")
    says(desk, "receive LI-1 L3 6kg")
    says(desk, "undo")
    assert on_hand(desk) == {"L1": 0.0, "L2": 4800.0}
    desk.close_day()
    clock.forward(days=1)
    third = desk_at()
    says(third, "7 take LI-1 300")
    # A lot that is used up is carried for a day after its last move, and then no more.
    assert on_hand(third) == {"L1": 0.0, "L2": 4500.0}
    assert third.ledger.held("7") == 5
    found = audit(tmp_path / "data")
    assert found.sound, found
    assert found.days == 3
