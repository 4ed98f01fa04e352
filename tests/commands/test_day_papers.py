"""`day --html`, `day --csv` and `cards` as whole commands."""

from __future__ import annotations

import csv
import errno
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any, BinaryIO
from xml.etree import ElementTree

import pytest

from core.problems import StoreUnusable
from core.records.newfile import new_file
from floor.commands import written
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


def test_what_was_late_and_undone_is_marked_void(worked: Bunchbook, tmp_path: Path) -> None:
    page = tmp_path / "day.html"
    worked("close")
    worked("reopen", "bundle found")
    worked("enter", "7 good 5", "undo")
    assert worked("day", "--html", str(page)).code == 0
    said = " ".join(parsed(page).itertext())
    assert "Corrected after it was first closed: 2 entries" in said
    assert "bundle found" in said
    assert "(void by " in said


def test_a_bench_that_stands_out_has_its_reason_and_its_chart(
    worked: Bunchbook, tmp_path: Path
) -> None:
    page = tmp_path / "day.html"
    worked("enter", "8 12.9 13.0 12.9 13.0 12.9!", "8 made 40!", "8 good 10!", "8 fail torn 30!")
    worked("enter", "9 made 200!", "9 good 200!")
    assert worked("day", "--html", str(page)).code == 0
    (whole,) = (
        each
        for each in parsed(page).iter("section")
        if each.get("class") == "whole" and each[0].text == "bench 8"
    )
    said = " ".join(whole.itertext())
    assert "passed first time" in said
    assert "checks out of their window" in said
    assert "bench 8, " in said
    assert any(each.tag.endswith("svg") for each in whole.iter())


def test_the_tables_have_the_lots(loaded: Bunchbook, tmp_path: Path) -> None:
    folder, page = tmp_path / "tables", tmp_path / "day.html"
    came = "receive SE-1 24-118 9kg 13% crop 2023 bales 3 price 24"
    assert loaded("enter", came, "7 take SE-1 900", "7 second 3!", "7 workers 2!").code == 0
    assert loaded("day", "--csv", str(folder)).code == 0
    (lot,) = table(folder / "lots.csv")
    assert (lot["leaf"], lot["lot"], lot["crop"], lot["bales"]) == ("SE-1", "24-118", "2023", "3")
    moved = {key: round(float(lot[f"{key}_g_standard"])) for key in ("received", "issued")}
    assert moved == {"received": 9000, "issued": 900}
    (totals,) = table(folder / "totals.csv")
    assert (totals["second"], totals["workers"], totals["panel"]) == ("3", "2", "0")
    parts = table(folder / "leaf_by_bench.csv")
    told = loaded("day", "--json").json["split"]
    assert len(parts) == len(told)
    for row, part in zip(parts, told, strict=True):
        assert (row["bench"], row["leaf"]) == (str(part["bench"]), part["leaf"])
        assert float(row["used_g_standard"]) == pytest.approx(part["used_standard_g"])
    assert loaded("day", "--html", str(page)).code == 0
    said = " ".join(parsed(page).itertext())
    assert "Lots of leaf that moved" in said
    assert "24-118" in said


def test_the_issue_sheet_to_print_is_the_issue_sheet(loaded: Bunchbook, tmp_path: Path) -> None:
    page = tmp_path / "issue.html"
    assert loaded("enter", "receive SE-1 24-118 1kg 13%").code == 0
    assert loaded("leaf", "--issue", "--html", str(page)).code == 0
    told = loaded("leaf", "--issue", "--json").json
    said = " ".join(parsed(page).itertext()).replace("\u00a0", "")
    for bench in told["benches"]:
        assert f"bench {bench['bench']} · " in said
        assert f"{bench['quota']} cigars" in said
        for leaf in bench["leaf"]:
            assert f" {leaf['leaf']} " in said
            assert f" {leaf['g']:.0f} " in said
    for total in told["totals"]:
        assert f"{total['g']:.0f}" in said
    assert "24-118" in said
    assert "not on hand" in said
    for words in ("allows nothing for loss", "issued by", "weighed out", "taken by"):
        assert words in said
    again = loaded("leaf", "--issue", "--html", str(page))
    assert (again.code, again.out) == (2, "")
    wrong = loaded("leaf", "--html", str(tmp_path / "x.html"))
    assert (wrong.code, wrong.out) == (2, "")
    assert "leaf --issue --html" in wrong.err


def test_the_pages_of_days_and_month_stand_alone(worked: Bunchbook, tmp_path: Path) -> None:
    assert worked("close").code == 0
    for words in (("days", "2026-05"), ("month", "2026-05")):
        page = tmp_path / f"{words[0]}.html"
        assert worked(*words, "--html", str(page), at="2026-05-05 08:00").code == 0
        root = parsed(page)
        assert not [e for e in root.iter() if e.tag.endswith(("script", "link", "img", "iframe"))]
        assert not [e for e in root.iter() if {"href", "src", "onload"} & set(e.keys())]
        assert "url(" not in page.read_text()
        assert "@import" not in page.read_text()
        assert "2026-05-04" in " ".join(root.itertext())


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


def test_a_folder_that_fails_half_way_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is full at the third file."""
    made: list[Path] = []

    def fails(target: Path) -> AbstractContextManager[BinaryIO]:
        if len(made) == 2:
            raise OSError(errno.ENOSPC, "No space left on device")
        made.append(target)
        return new_file(target)

    monkeypatch.setattr(written, "new_file", fails)
    files = {f"{name}.csv": "a" for name in "wxyz"}
    with pytest.raises(StoreUnusable):
        written.write_folder(tmp_path / "tables", files)
    assert len(made) == 2
    assert not list(tmp_path.iterdir())
    (tmp_path / "empty").mkdir()
    made.clear()
    with pytest.raises(StoreUnusable):
        written.write_folder(tmp_path / "empty", files)
    assert [path.name for path in tmp_path.rglob("*")] == ["empty"]


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
