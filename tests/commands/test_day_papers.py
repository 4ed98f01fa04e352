"""`day --html`, `day --csv` and `cards` as whole commands."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from floor.commands.spreadsheet import csv_text
from tests.commands.conftest import HOUSE, Bunchbook

LINES = (
    "7 take SE-1 900", "7 made 50", "7 good 45", "7 fail torn 2", "7 11.0 11.2", "8 12.9 12.9",
    "note =1+1 <b>late</b>",
)  # fmt: skip


@pytest.fixture
def worked(loaded: Bunchbook) -> Bunchbook:
    assert loaded("enter", *(f"{line}!" if line[0] != "n" else line for line in LINES)).code == 0
    return loaded


def parsed(path: Path) -> ElementTree.Element:
    return ElementTree.fromstring(path.read_text().replace("<!DOCTYPE html>", ""))


def table(path: Path) -> list[dict[str, Any]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def test_the_page_says_what_the_report_says(worked: Bunchbook, tmp_path: Path) -> None:
    page = tmp_path / "day.html"
    assert worked("day", "--html", str(page)).code == 0
    said = " ".join(parsed(page).itertext())
    for words in ("Where the leaf went", "torn", "usually re-wrapped", "<b>late</b>", "Cautions"):
        assert words in said
    assert "control" in said or "bench 8" in said
    again = worked("day", "--html", str(page))
    assert (again.code, again.out) == (2, "")


def test_in_a_spanish_house_the_page_is_spanish(bunchbook: Bunchbook, tmp_path: Path) -> None:
    house = tmp_path / "es.toml"
    text = HOUSE.read_text()
    assert "[house]" in text
    lines = [line for line in text.splitlines() if not line.startswith("language")]
    house.write_text("\n".join(lines).replace("[house]", '[house]\nlanguage = "es"', 1))
    assert bunchbook("house", "load", str(house)).code == 0
    assert bunchbook("enter", "7 fail torn 2").code == 0
    page, cards = tmp_path / "day.html", tmp_path / "cards.html"
    assert bunchbook("day", "--html", str(page)).code == 0
    assert parsed(page).get("lang") == "es"
    said = " ".join(parsed(page).itertext())
    assert "Rechazos por falla" in said
    assert "roto" in said
    assert bunchbook("cards", "--html", str(cards)).code == 0
    assert "medias hojas" in cards.read_text()


def test_what_was_recorded_after_the_close_is_marked(worked: Bunchbook, tmp_path: Path) -> None:
    page = tmp_path / "day.html"
    worked("close")
    worked("reopen", "bundle found")
    worked("enter", "7 good 5")
    assert worked("day", "--html", str(page)).code == 0
    said = " ".join(parsed(page).itertext())
    assert "Late corrections" in said
    assert "bundle found" in said


def test_the_tables_are_the_report(worked: Bunchbook, tmp_path: Path) -> None:
    folder = tmp_path / "tables"
    assert worked("day", "--csv", str(folder)).code == 0
    report = worked("day", "--json").json
    (totals,) = table(folder / "totals.csv")
    assert {key: int(totals[key]) for key in ("made", "good", "rejected")} == {
        key: report["totals"][key] for key in ("made", "good", "rejected")
    }
    for row, leaf in zip(table(folder / "leaf.csv"), report["leaf"], strict=True):
        assert row["leaf"] == leaf["leaf"]
        assert float(row["used_g_standard"]) == pytest.approx(leaf["used_standard_g"])
        assert float(row["unexplained_g_standard"]) == pytest.approx(leaf["unexplained_g"])
    assert [row["bench"] for row in table(folder / "benches.csv")] == [
        str(bench["bench"]) for bench in report["benches"]
    ]
    assert sum(int(row["pieces"]) for row in table(folder / "faults.csv")) == 2
    assert len(table(folder / "checks.csv")) == 2
    assert [row["text"] for row in table(folder / "notes.csv")] == ["'=1+1 <b>late</b>"]
    assert all(path.read_bytes().startswith(b"\xef\xbb\xbf") for path in folder.iterdir())


def test_a_folder_with_files_is_refused_and_an_empty_one_is_not(
    worked: Bunchbook, tmp_path: Path
) -> None:
    empty, full = tmp_path / "empty", tmp_path / "full"
    empty.mkdir()
    full.mkdir()
    (full / "mine.txt").write_text("mine")
    assert worked("day", "--csv", str(empty)).code == 0
    ran = worked("day", "--csv", str(full))
    assert (ran.code, ran.out) == (2, "")
    assert "not empty" in ran.err
    assert [path.name for path in full.iterdir()] == ["mine.txt"]
    assert worked("day", "--csv", str(tmp_path / "no" / "x")).code == 3
    assert not list(tmp_path.glob(".*.part"))


def test_one_form_at_a_time(worked: Bunchbook, tmp_path: Path) -> None:
    ran = worked("day", "--json", "--html", str(tmp_path / "x.html"))
    assert (ran.code, ran.out) == (2, "")


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        (" =1", "' =1"), ("＝1", "'＝1"), ("a;=1", "a;'=1"), ("see; -5 g", "see; '-5 g"),
        ("\ufeff@x", "'\ufeff@x"), ("a-b", "a-b"), ("B1; ok", "B1; ok"),
    ],
)  # fmt: skip
def test_no_cell_runs_whatever_parts_the_cells(text: str, cell: str) -> None:
    assert csv_text([[text]]) == f"{cell}\n"


def test_cards_as_text_and_as_a_page(loaded: Bunchbook, tmp_path: Path) -> None:
    told = loaded("cards")
    assert told.code == 0
    assert "B07-2026-05-04" in told.out
    assert "B07-A-2026-05-04" in told.out
    page = tmp_path / "cards.html"
    assert loaded("cards", "--html", str(page)).code == 0
    card = loaded("card", "7", "--json").json
    said = " ".join(parsed(page).itertext())
    for row in card["classes"]:
        assert f"{row['class']} {row['leaf']}" in said
    assert "B07-2026-05-04" in said
