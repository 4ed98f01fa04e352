"""A day corrected later: opened again on another day, entered as of then."""

from __future__ import annotations

from tests.commands.conftest import Bunchbook


def test_a_day_opened_again_on_the_next_takes_entries_as_of_then(loaded: Bunchbook) -> None:
    loaded("enter", "7 made 50", "7 good 48")
    loaded("close", "2026-05-04")
    refused = loaded("enter", "7 good 2", at="2026-05-04 16:00")
    assert (refused.code, "the day is closed" in refused.err) == (2, True)
    reopened = loaded("reopen", "bundle found", "2026-05-04", at="2026-05-05 08:00")
    assert reopened.code == 0
    assert loaded("enter", "7 good 2", at="2026-05-04 16:00").code == 0
    assert loaded("close", "2026-05-04", at="2026-05-05 08:05").code == 0
    day = loaded("day", "2026-05-04", "--json", at="2026-05-05 08:10").json
    assert (day["totals"]["good"], day["closed"], day["late"]) == (50, True, 1)
    again = loaded("enter", "7 good 2", at="2026-05-04 16:30")
    assert (again.code, "the day is closed" in again.err) == (2, True)
