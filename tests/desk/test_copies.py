"""Copies put back under an open desk, and what stays beside them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.audit import audit
from core.desk.copies import make_copy, restore_copy
from core.desk.desk import Desk
from core.desk.faces import Recorded
from core.problems import BadInput
from tests.desk.conftest import HOUSE_TOML, HandClock, load

MONDAY, TUESDAY = "days/2026-05-04.jsonl", "days/2026-05-05.jsonl"


@pytest.fixture
def copy(desk: Desk, clock: HandClock, tmp_path: Path) -> Path:
    """A copy made when Monday had two entries; the desk is still open."""
    for line in ("7 made 50", "7 good 40"):
        desk.enter(line, None)
    make_copy(desk.data_folder, tmp_path / "copy.zip", clock, "0.1.0")
    return tmp_path / "copy.zip"


def recorded(desk: Desk, line: str) -> int:
    outcome = desk.enter(line, None)
    assert isinstance(outcome, Recorded), outcome
    return outcome.entry


def test_an_open_desk_goes_on_with_what_was_put_back(
    desk: Desk, clock: HandClock, copy: Path
) -> None:
    recorded(desk, "7 roll corona")
    recorded(desk, "7 made 9")
    restore_copy(desk.data_folder, copy, clock, replace=True)
    assert "" in (desk.follow() or ())
    assert desk.card("7").vitola == "toro"
    assert len(desk.ledger.entries) == 2
    assert recorded(desk, "7 made 1") == 3
    assert audit(desk.data_folder).sound


def test_a_desk_that_has_not_looked_yet_records_in_the_book_put_back(
    desk: Desk, clock: HandClock, copy: Path
) -> None:
    recorded(desk, "7 made 9")
    restore_copy(desk.data_folder, copy, clock, replace=True)
    assert recorded(desk, "7 made 1") == 3
    assert audit(desk.data_folder).sound


def test_a_day_that_the_copy_has_not_begins_anew_under_an_open_desk(
    desk: Desk, clock: HandClock, copy: Path
) -> None:
    """What Monday's last roll carried into Tuesday is not in the copy."""
    recorded(desk, "7 roll corona")
    clock.forward(days=1)
    recorded(desk, "7 made 9")
    assert desk.card("7").vitola == "corona"
    restore_copy(desk.data_folder, copy, clock, replace=True)
    desk.follow()
    assert desk.card("7").vitola == "toro"
    assert recorded(desk, "7 made 1") == 1
    assert audit(desk.data_folder).sound


def test_a_house_book_put_back_is_in_force(desk: Desk, clock: HandClock, copy: Path) -> None:
    load(desk, HOUSE_TOML.replace('filler = "10.0 g"', 'filler = "12.0 g"'))
    assert desk.card("7").packing.filler_standard_g == pytest.approx(12.0)
    restore_copy(desk.data_folder, copy, clock, replace=True)
    desk.follow()
    assert desk.card("7").packing.filler_standard_g == pytest.approx(10.0)


def test_a_day_stays_beside_the_copy_where_it_fits(
    desk: Desk, clock: HandClock, copy: Path
) -> None:
    clock.forward(days=1)
    recorded(desk, "7 made 9")
    (desk.data_folder / MONDAY).unlink()
    done = restore_copy(desk.data_folder, copy, clock, replace=False)
    assert (done.restored.put, done.restored.stay) == ((MONDAY,), (TUESDAY,))
    assert audit(desk.data_folder).sound


def test_a_day_that_expects_more_than_the_copy_has_does_not_stay_unasked(
    desk: Desk, clock: HandClock, copy: Path
) -> None:
    data = desk.data_folder
    recorded(desk, "7 made 9")
    clock.forward(days=1)
    recorded(desk, "7 made 5")
    (data / MONDAY).unlink()
    with pytest.raises(BadInput, match=f"{MONDAY}: expected 5 lines or more, as the opening of"):
        restore_copy(data, copy, clock, replace=False)
    assert not (data / MONDAY).exists()
    restore_copy(data, copy, clock, replace=True)
    assert not (data / TUESDAY).exists()
    assert [path.name for path in data.glob("replaced-*/days/*")] == ["2026-05-05.jsonl"]
    assert audit(data).sound


def test_a_day_of_a_house_book_that_the_copy_has_not_does_not_stay_unasked(
    desk: Desk, desk_at: Callable[..., Desk], clock: HandClock, copy: Path
) -> None:
    data = desk.data_folder
    clock.forward(days=1)
    recorded(desk, "7 made 5")
    load(desk, HOUSE_TOML.replace('filler = "10.0 g"', 'filler = "12.0 g"'))
    recorded(desk_at(), "7 made 5")
    (data / "house.jsonl").unlink()
    with pytest.raises(BadInput, match=f"{TUESDAY}: is not in the copy, and names house book 2"):
        restore_copy(data, copy, clock, replace=False)
