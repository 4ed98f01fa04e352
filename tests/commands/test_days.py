"""`days`: the trend over closed days, as a whole command."""

from __future__ import annotations

import csv
import io
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from core.desk.summaries import SUMMARIES
from core.records.folder import Folder
from floor.commands.spreadsheet import csv_text
from tests.commands.conftest import Bunchbook

DAYS = {
    "2026-05-04": ("7 take SE-1 900", "7 made 50", "7 good 45", "7 fail torn 2", "7 11.0 11.2"),
    "2026-05-05": ("8 made 40", "8 good 38", "8 fail plugged 4", "8 rework 2", "8 11.4 11.3"),
    "2026-06-01": ("7-A made 30", "7-A good 30", "7-A 6.9 7.0"),
}


@pytest.fixture
def closed(loaded: Bunchbook) -> Bunchbook:
    """Three closed days in two months, and one that is not closed."""
    for date, lines in DAYS.items():
        assert loaded("enter", *(f"{line}!" for line in lines), at=f"{date} 09:00").code == 0
        assert loaded("close", at=f"{date} 17:00").code == 0
    assert loaded("enter", "7 made 5", at="2026-06-02 09:00").code == 0
    return loaded


def rows(trend: Any) -> dict[str, Any]:
    return {day["date"]: day for day in trend["days"]}


def test_each_days_figures_are_those_of_day(closed: Bunchbook) -> None:
    trend = closed("days", "2026", "--json", at=None).json
    assert list(rows(trend)) == [*DAYS, "2026-06-02"]
    for date in DAYS:
        report = closed("day", date, "--json", at=None).json
        row = rows(trend)[date]
        for key in ("made", "good", "rejected", "rework", "first_pass_yield"):
            assert row[key] == pytest.approx(report["totals"][key])
        assert row["checks"] == sum(bench["checks"] for bench in report["benches"])
        assert row["out"] == sum(bench["out"] for bench in report["benches"])
        (off,) = (b["mean_deviation_g"] for b in report["benches"] if b["checks"])
        assert row["mean_deviation_g"] == pytest.approx(off, abs=1e-4)
        filler = [leaf for leaf in report["leaf"] if leaf["class"] not in ("binder", "wrapper")]
        used_g = sum(leaf["used_standard_g"] for leaf in filler)
        assert row["filler_used_kg"] == pytest.approx(used_g / 1000, abs=1e-4)
        unexplained_g = sum(leaf["unexplained_g"] for leaf in filler)
        assert row["unexplained_g"] == pytest.approx(unexplained_g, abs=0.02)


def test_the_span_by_vitola_and_by_bench(closed: Bunchbook) -> None:
    trend = closed("days", "2026", "--json", at=None).json
    assert (trend["from"], trend["to"], trend["closed"]) == ("2026-01-01", "2026-12-31", 3)
    assert (trend["totals"]["made"], trend["totals"]["good"]) == (120, 113)
    assert trend["totals"]["filler_kg_per_1000_good"] == pytest.approx(900 / 45)  # of that day
    assert {row["vitola"]: row["made"] for row in trend["by_vitola"]} == {"toro": 90, "corona": 30}
    assert {row["bench"]: row["good"] for row in trend["by_bench"]} == {7: 45, "7-A": 30, 8: 38}


@pytest.mark.parametrize(
    ("words", "first", "last", "days"),
    [
        (["2026-05-05"], "2026-05-05", "2026-05-05", ["2026-05-05"]),
        (["2026-05"], "2026-05-01", "2026-05-31", ["2026-05-04", "2026-05-05"]),
        (["2026-05-05", "2026-06"], "2026-05-05", "2026-06-30",
         ["2026-05-05", "2026-06-01", "2026-06-02"]),
        (["2024-02"], "2024-02-01", "2024-02-29", []),
        (["2025", "2026-05-04"], "2025-01-01", "2026-05-04", ["2026-05-04"]),
    ],
)  # fmt: skip
def test_a_day_a_month_or_a_year(
    closed: Bunchbook, words: list[str], first: str, last: str, days: list[str]
) -> None:
    trend = closed("days", *words, "--json", at=None).json
    assert (trend["from"], trend["to"], list(rows(trend))) == (first, last, days)


@pytest.mark.parametrize(
    "words",
    [
        ["2026-05-05", "2026-05-04"], ["2026", "2025"], ["yesterday"], ["2026-13"], ["2026-02-30"],
        ["26"], [""], ["2026", "x"], ["9999-12"], ["2026", "--json", "--csv"],
    ],
)  # fmt: skip
def test_what_is_no_span_is_a_sentence(closed: Bunchbook, words: list[str]) -> None:
    ran = closed("days", *words, at=None)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.count("\n") == 1


def test_a_span_without_a_day_says_so(closed: Bunchbook) -> None:
    ran = closed("days", "2019", at=None)
    assert (ran.code, ran.out) == (0, "")
    assert "no day was recorded from 2019-01-01 to 2019-12-31" in ran.err
    assert closed("days", "2019", "--json", at=None).json["totals"] is None


def test_a_day_that_is_not_closed_is_named_with_what_to_do(closed: Bunchbook) -> None:
    ran = closed("days", "2026-06", at=None)
    assert "2026-06-02  not closed" in ran.out
    assert "2026-06-02" in ran.err
    assert "bunchbook close DATE" in ran.err
    assert closed("close", "2026-06-02", at=None).code == 0
    assert closed("days", "2026-06", at=None).err == ""


def test_a_correction_is_marked_and_an_open_day_shows_no_figures(closed: Bunchbook) -> None:
    closed("reopen", "bundle found", "2026-05-04", at="2026-05-05 08:00")
    ran = closed("days", "2026-05", at=None)
    assert "2026-05-04  open again since 2026-05-05 08:00: bundle found" in ran.out
    row = rows(closed("days", "2026-05", "--json", at=None).json)["2026-05-04"]
    assert (row["state"], row["made"], row["reason"]) == ("open again", None, "bundle found")
    assert closed("enter", "7 made 25", at="2026-05-04 09:30").code == 0
    assert closed("close", "2026-05-04", at=None).code == 0
    ran = closed("days", "2026-05", at=None)
    assert "corrected after it was closed: 2026-05-04 (1 ×)" in ran.out
    row = rows(closed("days", "2026-05", "--json", at=None).json)["2026-05-04"]
    assert (row["state"], row["corrected"], row["made"]) == ("closed", 1, 75)


def test_a_lost_summary_is_made_up_for_by_close(closed: Bunchbook, tmp_path: Path) -> None:
    before = closed("days", "2026", "--json", at=None).json
    (tmp_path / "data" / "years" / "2026.jsonl").unlink()
    assert closed("days", "2026", at=None).err.count("2026-05-04") == 1
    for date in DAYS:
        ran = closed("close", date, at=None)
        assert ran.code == 0
        assert "kept now" in ran.out
        assert closed("close", date, at=None).code == 2
    assert closed("days", "2026", "--json", at=None).json == before


def test_the_table_fits_80_columns_for_the_largest_room(closed: Bunchbook, tmp_path: Path) -> None:
    from tests.bench.year import keep, year

    keep(tmp_path / "year", list(year(days=40, benches=300)))
    for folder, language in product((tmp_path / "year", tmp_path / "data"), ("en", "es")):
        words = ("days", "2026", "--data", str(folder), "--lang", language)
        assert max(map(len, closed(*words, at=None).out.splitlines())) <= 80


def test_as_csv_a_row_a_day(closed: Bunchbook) -> None:
    closed("reopen", "=1+1, found", "2026-05-05", at="2026-05-06 08:00")
    text = closed("days", "2026", "--csv", at=None).out
    table = list(csv.DictReader(io.StringIO(text)))
    assert [row["date"] for row in table] == [*DAYS, "2026-06-02"]
    assert table[0]["made"] == "50"
    assert table[0]["filler_used_kg"] == "0.9"
    assert table[1]["reason"] == "'=1+1, found"
    assert (table[3]["state"], table[3]["made"]) == ("not closed", "")


@pytest.mark.parametrize("text", ["=1", "+1", "-1", "@x", "\tx", "\rx", "=cmd'!A0"])
def test_text_that_a_spreadsheet_would_run_is_made_text(text: str) -> None:
    # Python 3.13 puts quotes round a carriage return, earlier ones do not.
    assert csv_text([[text]]) in (f"'{text}\n", f'"\'{text}"\n')


def test_negative_numbers_stay_numbers() -> None:
    assert csv_text([[-1.5, -2, None, "a-b"]]) == "-1.5,-2,,a-b\n"


def test_as_of_a_time_only_what_was_closed_by_then(closed: Bunchbook) -> None:
    trend = closed("days", "2026", "--json", at="2026-05-05 12:00").json
    states = {date: row["state"] for date, row in rows(trend).items()}
    assert states == {"2026-05-04": "closed", "2026-05-05": "not closed"}


def test_a_damaged_line_of_a_years_book_is_told(closed: Bunchbook, tmp_path: Path) -> None:
    path = tmp_path / "data" / "years" / "2026.jsonl"
    lines = path.read_bytes().splitlines(keepends=True)
    lines[2] = lines[2].replace(b'"good":38', b'"good":99')
    path.write_bytes(b"".join(lines))
    ran = closed("days", "2026", at=None)
    assert ran.code == 0
    assert "1 damaged line" in ran.err
    assert "2026-05-05  not closed" in ran.out


def test_a_newer_summary_is_refused(closed: Bunchbook, tmp_path: Path) -> None:
    newer = {"summary": 99, "date": "2026-05-06"}
    Folder(tmp_path / "data").year(2026).append(SUMMARIES, lambda _number: dict(newer))
    ran = closed("days", "2026", at=None)
    assert (ran.code, ran.out) == (3, "")
    assert "update this program" in ran.err
