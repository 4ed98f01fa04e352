"""What the line would do, in the same words once it is saved and in the log."""

from __future__ import annotations

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded

BEFORE = ("receive LI-1 L8 36kg 15%", "7 good 100", "7 hold 40", "7 take LI-1 450")


@pytest.fixture
def at_work(desk: Desk) -> Desk:
    for line in BEFORE:
        assert isinstance(desk.enter(line, None), Recorded)
    return desk


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("7 second 3", "bench 7, toro: 3 cigars sold as seconds"),
        ("7 second 1", "bench 7, toro: 1 cigar sold as seconds"),
        ("7 hold 25 too wet", "bench 7, toro: 25 cigars good but on hold: too wet"),
        ("7 retiene 25", "bench 7, toro: 25 cigars good but on hold"),
        ("7 release 40", "bench 7, toro: 40 cigars on hold let go"),
        ("7 workers 4", "bench 7, toro: 4 cigars given to the workers"),
        ("7 panel 5", "bench 7, toro: 5 cigars kept for the panel"),
        ("7 take LI-1 450", "bench 7, LI-1, lot L8: 450 g issued, at 13.0 % moisture"),
        ("7 take SE-1 450", "bench 7, SE-1: 450 g issued, at 13.0 % moisture"),
        ("7 back LI-1 60 lot l8", "bench 7, LI-1, lot L8: 60 g returned, at 13.0 % moisture"),
        ("7 stem 12", "bench 7, stem: 12 g"),
        ("7 vena LI-1 12,5", "bench 7, stem of LI-1: 12.5 g"),
        ("7 scrap LI-1 35", "bench 7, cuttings of LI-1: 35 g"),
        ("sweepings 140", "sweepings: 140 g"),
        ("barrido LI-1 20", "sweepings of LI-1: 20 g"),
        ("receive LI-1 L9 36.25kg", "LI-1, lot L9: 36.25 kg at 13.0 % moisture received"),
        (
            "receive LI-1 L9 36.2kg 13.5% crop 2023 bales 3 price 24",
            "LI-1, lot L9: 36.20 kg at 13.5 % moisture received, crop 2023, 3 bales, 24.00 a kg",
        ),
        (
            "recibe LI-1 L9 800g pacas 1 precio 24,5",
            "LI-1, lot L9: 0.80 kg at 13.0 % moisture received, 1 bale, 24.50 a kg",
        ),
        ("stock LI-1 l8 34.8kg", "LI-1, lot L8: 34.80 kg at 13.0 % moisture found on hand"),
    ],
)
def test_the_same_is_said_before_it_is_saved_then_and_in_the_log(
    at_work: Desk, line: str, words: str
) -> None:
    meaning = at_work.meaning(line, None)
    assert (meaning.says, meaning.ok) == (words, True)
    saved = at_work.enter(line, None)
    assert isinstance(saved, Recorded)
    assert saved.says == f"saved, entry {len(BEFORE) + 1}: {words}"
    assert at_work.log(1)[0].says == words


def test_what_is_undone_says_what_it_was(at_work: Desk) -> None:
    undone = at_work.enter("undo 3 other bench", None)
    assert isinstance(undone, Recorded)
    assert undone.says == (
        "saved, entry 5: entry 3 void (bench 7, toro: 40 cigars good but on hold): other bench"
    )
    hold = next(line for line in at_work.log() if line.id == 3)
    assert (hold.voided_by, hold.void_reason) == (5, "other bench")


@pytest.mark.parametrize(
    ("line", "where"), [("leaf", "the Leaf"), ("hoja", "the Leaf"), ("días", "the Days")]
)
def test_a_screen_is_named_before_it_is_gone_to(at_work: Desk, line: str, where: str) -> None:
    assert f"go to {where}" in at_work.meaning(line, None).says
