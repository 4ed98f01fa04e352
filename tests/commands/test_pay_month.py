"""`pay`, `month` and weeks of `days`, as whole commands."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from tests.commands.conftest import Bunchbook
from tests.commands.test_days import closed

__all__ = ["closed"]


def test_days_by_week(closed: Bunchbook) -> None:
    trend = closed("days", "2026", "--json", at=None).json
    assert [(w["week"], w["days"], w["made"]) for w in trend["weeks"]] == [
        ("2026-W19", 2, 90),
        ("2026-W23", 1, 30),
    ]
    text = closed("days", "2026", "--by", "week", at=None).out
    assert "2026-W19" in text
    assert max(map(len, text.splitlines())) <= 80
    table = csv.DictReader(
        io.StringIO(closed("days", "2026", "--csv", "--by", "week", at=None).out)
    )
    assert [row["good"] for row in table] == ["83", "30"]


def test_pay_counts_accepted_cigars_and_decides_nothing(closed: Bunchbook) -> None:
    told = closed("pay", "2026", "--json", at=None).json
    assert sum(line["accepted"] for line in told["lines"]) == 113
    assert told["faults"][0]["n"] == 4
    ran = closed("pay", "2026", at=None)
    assert "nothing is decided" in ran.out
    assert "2026-06-02" in ran.err
    rows = list(csv.DictReader(io.StringIO(closed("pay", "2026", "--csv", at=None).out)))
    assert len(rows) == len(told["lines"])


def test_the_month_names_what_is_missing_and_by_when(closed: Bunchbook) -> None:
    ran = closed("month", "2026-06", at=None)
    assert "2026-06-02 is not closed; to be entered by the close of 2026-06-03" in ran.err
    assert "27 CFR 40.181" in ran.out
    told = closed("month", "2026-05", "--json", at=None).json
    assert told["totals"]["manufactured_thousands"] == pytest.approx(0.083)
    assert told["totals"]["removed_thousands"] is None
    assert told["missing"] == []


@pytest.mark.parametrize("words", [["2026"], ["2026-05-04"], ["2026-13"], ["may"]])
def test_what_is_no_month_is_a_sentence(closed: Bunchbook, words: list[str]) -> None:
    ran = closed("month", *words, at=None)
    assert (ran.code, ran.out) == (2, "")
    assert "2026-05" in ran.err


@pytest.mark.parametrize("command", ["days", "month"])
def test_as_a_page_that_stands_alone(closed: Bunchbook, tmp_path: Path, command: str) -> None:
    file = tmp_path / "page.html"
    assert closed(command, "2026-05", "--html", str(file), at=None).code == 0
    page = file.read_text("utf-8")
    assert "2026-05-04" in page
    assert "http" not in page
    assert closed(command, "2026-05", "--html", str(file), at=None).code == 2
