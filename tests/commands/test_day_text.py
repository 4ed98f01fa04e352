"""`day` as text: what usually happens to faults, who stands out, output, late corrections."""

from __future__ import annotations

import pytest

from tests.commands.conftest import Bunchbook, Ran

CLOSE, LATE = "2026-05-04 17:00", "2026-05-04 17:30"


def row(text: str, first: str) -> list[str]:
    """The cells of the only row that begins with that word."""
    (found,) = (line.split() for line in text.splitlines() if line.split()[:1] == [first])
    return found


@pytest.fixture
def worked(loaded: Bunchbook) -> Bunchbook:
    lines = (
        "7 take SE-1 600", "7 take LI-1 400", "7 made 100", "7 good 90", "7 fail torn 6 short 4",
        "8 take SE-1 600", "8 take LI-1 400", "8 made 100", "8 good 20", "8 fail torn 80",
        "7-A made 30", "7-A good 30", "7 10.8 10.8 10.8", "8 10.8 10.8 10.8",
    )  # fmt: skip
    assert loaded("enter", *(f"{line}!" for line in lines)).code == 0
    return loaded


def corrected(worked: Bunchbook) -> Ran:
    for words in (["close"], ["reopen", "bundle found"]):
        assert worked(*words, at=CLOSE).code == 0
    assert worked("enter", "7 good 3!", "undo", "7 good 4!", at=LATE).code == 0
    return worked("day", at=LATE)


def test_each_fault_says_what_usually_happens_to_it(worked: Bunchbook) -> None:
    said = worked("day").out
    assert row(said, "torn") == ["torn", "86", "usually", "re-wrapped"]
    assert row(said, "short") == ["short", "4", "usually", "scrapped"]


def test_a_bench_that_stands_out_says_why(worked: Bunchbook) -> None:
    said = worked("day").out
    assert "bench 8 stands out: passed first time 20.0 %, the house 60.9 %, of 100" in said
    assert "bench 7 stands out" not in said
    assert "bench 7-A stands out" not in said
    assert worked("close").code == 0
    assert "bench 7-A stands out: no check all day of 30 bunches" in worked("day").out


def test_output_is_told_by_vitola_and_by_buncher(worked: Bunchbook) -> None:
    said = worked("day").out
    assert row(said, "toro") == ["toro", "200", "110", "90", "0", "55.0", "%"]
    assert row(said, "corona") == ["corona", "30", "30", "0", "0", "100.0", "%"]
    assert row(said, "P-07") == ["P-07", "100", "90", "10", "0", "90.0", "%"]
    assert "kg/1,000" not in said


def test_filler_for_a_thousand_is_in_kilograms_and_pounds_once_the_day_is_closed(
    worked: Bunchbook,
) -> None:
    assert worked("close").code == 0
    said = worked("day").out
    # 1 kg is 2.20462 lb (international pound, 0.45359237 kg exactly): 1,000 g over 90 and 20 good.
    assert row(said, "P-07")[-4:] == ["11.11", "24.50", "10.00", "22.05"]
    assert row(said, "toro")[-4:] == ["18.18", "40.08", "10.00", "22.05"]
    # 10 g in each of 110 toros and 6 g in each of 30 coronas.
    assert "standard 9.14 kg (20.16 lb)" in said


def test_a_day_opened_again_says_how_often_and_what_was_recorded_since(worked: Bunchbook) -> None:
    said = corrected(worked).out
    assert "opened again once, 3 entries after the first close:" in said
    since = said.partition("first close:\n")[2]
    assert "day opened again: bundle found" in since
    assert "3 cigars good (void by " in since
    assert "4 cigars good" in since
    assert "90 cigars good" not in since
    for _ in range(2):
        assert worked("close", at=LATE).code == 0
        assert worked("reopen", "another", at=LATE).code == 0
    assert "opened again 3 times" in worked("day", at=LATE).out


def test_a_day_never_opened_again_has_no_such_part(worked: Bunchbook) -> None:
    assert "opened again" not in worked("day").out
    assert worked("close").code == 0
    assert "opened again" not in worked("day").out


def test_a_close_after_a_late_correction_tells_of_the_day_that_has_begun(
    worked: Bunchbook,
) -> None:
    assert worked("enter", "receive LI-1 24-118 2kg!").code == 0
    assert worked("close", at=CLOSE).code == 0
    assert worked("enter", "7 made 5", at="2026-05-05 08:00").code == 0
    assert worked("reopen", "a take was not typed", at=CLOSE).code == 0
    assert worked("enter", "7 take LI-1 450!", at=LATE).code == 0
    closed = worked("close", "2026-05-04", at="2026-05-05 09:00")
    assert closed.code == 0
    assert "2026-05-05 began with 450 g more of LI-1 24-118: set it right" in closed.out
