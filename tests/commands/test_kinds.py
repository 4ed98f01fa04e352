"""Checks of every kind through `enter`, and what `verify` makes of them afterwards."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.conftest import HOUSE, Bunchbook


def test_a_portion_is_recorded_with_its_leaf_and_judged(loaded: Bunchbook) -> None:
    (row,) = loaded("enter", "7 porción li-1 4,3 4,1", "--json").lines
    assert (row["ok"], row["kind"], row["measure"], row["verdict"]) == (
        *(True, "check", "portion", "within"),
    )
    assert (row["mean_g"], row["target_g"]) == (pytest.approx(4.2), 4.0)
    assert row["places"] == ["heavy", "within"]
    assert "ligero LI-1 portion, 2 readings, mean 4.2 g" in row["says"]
    assert loaded("verify").code == 0


def test_a_portion_out_of_its_window_is_told_by_the_exit_code(loaded: Bunchbook) -> None:
    assert loaded("enter", "7 portion LI-1 4.5", "--strict").code == 1
    assert loaded("enter", "7 portion LI-1 5.5").code == 2


def test_the_kind_alone_records_nothing_from_the_shell(loaded: Bunchbook) -> None:
    ran = loaded("enter", "7 portion LI-1")
    assert (ran.code, ran.out) == (2, "")
    assert "a whole line" in ran.err


def test_draw_on_a_dial_is_kept_with_its_unit_and_direction(
    bunchbook: Bunchbook, tmp_path: Path
) -> None:
    size = 'ring = 52\nlength = "6 in"'
    text = HOUSE.read_text("utf-8").replace(size, f'{size}\ndraw = ["3 dial", "7 dial"]')
    book = tmp_path / "dial.toml"
    book.write_text(text.replace("readings = 3", 'readings = 3\ndraw_rises = "looser"'), "utf-8")
    assert bunchbook("house", "load", str(book)).code == 0
    assert "draw, 7.5 dial, target 5.0 ± 2.0: loose" in bunchbook("enter", "7 draw 7.5").out
    assert "expected draw in dial" in bunchbook("enter", "7 draw 62 mmH2O").err
    assert bunchbook("verify").code == 0
    # Another house book says something else now; what was recorded stays as it was read.
    assert bunchbook("house", "load", str(HOUSE)).code == 0
    assert "draw, 7.5 dial, target 5.0 ± 2.0: loose" in bunchbook("enter", "undo 1").out
