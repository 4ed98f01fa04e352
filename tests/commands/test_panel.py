"""`panel`: a session from its opening to its codes, as whole commands."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest

from core.records.folder import Folder
from tests.commands.conftest import Bunchbook

ROWS = {
    "T1": ("7", "4"),
    "T2": ("8", "5"),
    "T3": ("7", "5"),
    "T4": ("8", "4"),
    "T5": ("7", "3"),
    "T6": ("7", "4"),
}


@pytest.fixture
def blind(loaded: Bunchbook) -> Bunchbook:
    """Six tasters who find B weaker than A, whatever stands behind them."""
    assert loaded("panel", "open", "B1", "--vitolas", "toro,corona", "--blind").code == 0
    for taster, (a, b) in ROWS.items():
        for code, strength in (("A", a), ("B", b)):
            assert loaded("panel", "score", taster, code, strength, "6", "8", "-").code == 0
    return loaded


def trait(shown: Any, name: str) -> Any:
    return next(each for each in shown["traits"] if each["trait"] == name)


def test_before_a_session_it_says_how_to_begin(loaded: Bunchbook) -> None:
    ran = loaded("panel", "show")
    assert (ran.code, ran.out) == (0, "")
    assert "panel open BLEND" in ran.err
    assert loaded("panel", "show", "--json").json is None


@pytest.mark.parametrize("how", [(), ("--json",), ("--csv",)])
def test_nothing_shown_of_a_blind_session_tells_its_vitolas(
    blind: Bunchbook, how: tuple[str, ...]
) -> None:
    out = blind("panel", "show", *how).out
    assert "corona" not in out
    assert "A" in out


def test_revealed_it_is_judged(blind: Bunchbook) -> None:
    assert blind("panel", "reveal").code == 0
    shown = blind("panel", "show", "--json").json
    assert set(shown["codes"].values()) == {"toro", "corona"}
    strength = trait(shown, "strength")
    weak = shown["codes"]["B"]
    assert (strength["verdict"], strength["apart"]) == ("apart", ["corona"])
    # Two sizes that six tasters all rank alike: chi2 6, and 2 of the 2 ** 6 orders as far.
    assert strength["friedman"]["chi2"] == pytest.approx(6)
    assert strength["friedman"]["p"] == pytest.approx(2 / 64)
    (other,) = (s["difference"] for s in strength["sizes"] if s["difference"])
    assert (other["mean"] < 0) is (weak == "corona")
    assert strength["friedman"]["p_by"] == "exact"
    assert trait(shown, "draw")["verdict"] == "too few"


def test_the_scores_as_csv(blind: Bunchbook) -> None:
    rows = list(csv.DictReader(io.StringIO(blind("panel", "show", "--csv").out)))
    assert len(rows) == 12
    found = {(row["taster"], row["code"]): row["strength"] for row in rows}
    assert found["T5", "B"] == "3.0"
    assert {row["vitola"] for row in rows} == {""}


def test_a_changed_score_is_one_more_document(blind: Bunchbook, tmp_path: Path) -> None:
    before = (tmp_path / "data" / "years" / "2026.jsonl").read_bytes()
    assert blind("panel", "score", "t5", "b", "9", "-", "-", "-").code == 0
    after = (tmp_path / "data" / "years" / "2026.jsonl").read_bytes()
    assert after.startswith(before)
    assert after.count(b"\n") == before.count(b"\n") + 1
    shown = blind("panel", "show", "--json").json
    means = {size["vitola"]: size["mean"] for size in trait(shown, "strength")["sizes"]}
    assert means["B"] == pytest.approx((4 + 5 + 5 + 4 + 9 + 4) / 6)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("open", "B9"), 'no blend "B9"'),
        (("open", "B1", "--vitolas", "toro,coronna"), "did you mean corona"),
        (("score", "Ana", "A", "7"), "never a name"),
        (("score", "T1", "A", "7", "6", "8"), "4 scores"),
        (("score", "T1", "C", "7", "6", "8", "7"), "no code in this session"),
        (("score", "T1", "A", "7", "6", "8", "12"), "from 0 to 10"),
        (("note", ""), "text of the note"),
        (("show", "--json", "--csv"), "one of --json and --csv"),
    ],
)
def test_what_is_wrong_is_a_sentence(blind: Bunchbook, words: tuple[str, ...], says: str) -> None:
    ran = blind("panel", *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err


def test_notes_and_the_house_book_smoked(blind: Bunchbook) -> None:
    assert blind("panel", "note", "B burns hot").code == 0
    (note,) = blind("panel", "show", "--json").json["notes"]
    assert (note["house"], note["text"]) == (1, "B burns hot")


def test_a_session_goes_on_past_the_end_of_its_year(loaded: Bunchbook, tmp_path: Path) -> None:
    assert loaded("panel", "open", "B1", at="2025-12-31 16:00").code == 0
    ran = loaded("panel", "score", "T1", "toro", "7", "6", "8", "7", at="2026-01-02 09:00")
    assert ran.code == 0
    assert loaded("panel", "show", "--json", at="2026-01-02 10:00").json["tasters"] == ["T1"]
    assert loaded("panel", "show", "--json", at="2025-12-31 17:00").json["tasters"] == []
    assert not (tmp_path / "data" / "years" / "2026.jsonl").exists()


def test_summaries_read_past_it_and_verify_finds_it_sound(blind: Bunchbook, tmp_path: Path) -> None:
    assert blind("enter", "7 made 50!").code == 0
    assert blind("close", at="2026-05-04 17:00").code == 0
    assert blind("days", "2026", "--json", at=None).json["closed"] == 1
    verified = blind("verify", "--json", at=None)
    assert json.loads(verified.out)["sound"] is True
    folder = Folder(tmp_path / "data")
    assert len(folder.year(2026).table("panel")) == 13
    folder.close()


def test_a_line_on_the_entry_line_does_the_same(blind: Bunchbook) -> None:
    (row,) = blind("enter", "--json", "panel T7 A 7 6 8 7").lines
    assert (row["ok"], row["kind"]) == (True, "panel")
    assert "T7" in blind("panel", "show", "--json").json["tasters"]


def test_verify_names_what_is_no_document_of_the_panel(blind: Bunchbook, tmp_path: Path) -> None:
    folder = Folder(tmp_path / "data")
    folder.year(2026).append("panel", lambda _number: {"format": 1, "kind": "score"})
    folder.close()
    assert blind("panel", "show").code == 0
    ran = blind("verify", at=None)
    assert ran.code == 1
    assert "years/2026.jsonl: panel 14: is no session" in ran.out + ran.err
