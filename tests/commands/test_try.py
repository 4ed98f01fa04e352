"""`try`, and what `line` draws: words in, sheets out, nothing saved."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.commands.conftest import HOUSE, Bunchbook


def test_a_change_is_told_beside_today_and_saved_nowhere(loaded: Bunchbook) -> None:
    before = loaded("line", "B1", "--json").json
    ran = loaded("try", "b1", "LI-1=2", "toro.ring=50", "LI-1.moisture=15%")
    assert ran.code == 0
    assert ran.out.splitlines()[0].startswith("blend B1 with LI-1=2, toro.ring=50")
    assert "52 -> 50" in ran.out
    assert "so the packing law speaks for it" in ran.out
    assert loaded("line", "B1", "--json").json == before


def test_what_a_change_does_to_length_strength_and_the_leaf_that_binds(loaded: Bunchbook) -> None:
    """LI-1 at one part of seven: (6 × 3 + 1 × 8) / 7."""
    told = loaded("try", "B1", "LI-1=1", "toro.length=160").out
    assert "-> 160.0" in told
    assert f"strength by parts 5.00 -> {26 / 7:.2f}" in told
    assert "LI-1" in next(line for line in told.splitlines() if line.startswith("corona"))
    assert "strength by parts" not in loaded("try", "B1", "toro.length=160").out


def test_columns_in_which_nothing_differs_are_named_only(loaded: Bunchbook) -> None:
    told = loaded("try", "B1", "LI-1.moisture=15%").out
    assert "as today in every size: mm, filler g, SE-1, from ring, laid, cost" in told
    assert told.splitlines()[1].split() == ["vitola", "ring", "LI-1", "holds"]


@pytest.mark.parametrize(
    "words",
    [
        ("toro.ring=50", "LI-1=2", "--json"),
        ("toro.ring=50", "--json", "LI-1=2"),
        ("--json", "toro.ring=50", "LI-1=2"),
    ],
)
def test_changes_stand_before_or_behind_an_option(
    loaded: Bunchbook, words: tuple[str, ...]
) -> None:
    found = loaded("try", "B1", *words).json
    assert [each["said"] for each in found["changes"]] == ["toro.ring=50", "LI-1=2"]


def test_an_option_that_is_none_is_no_change(loaded: Bunchbook) -> None:
    ran = loaded("try", "B1", "LI-1=2", "--withuot", "LI-1")
    assert (ran.code, ran.out) == (2, "")
    assert "--withuot" in ran.err


def test_try_json(loaded: Bunchbook) -> None:
    found = loaded("try", "B1", "LI-1=2", "--json").json
    assert found["today"]["strength"] == pytest.approx(5.0)
    assert found["changed"]["strength"] == pytest.approx((6 * 3 + 2 * 8) / 8)
    strength = found["differences"][0]
    assert (strength["vitola"], strength["figure"]) == ("", "strength")


def test_without_a_leaf_that_nothing_replaces_says_what_binds(loaded: Bunchbook) -> None:
    ran = loaded("try", "B1", "--without", "LI-1")
    assert ran.code == 1
    assert "no parts of B1 without LI-1 keep every limit" in ran.out
    assert "ligero: within 5 %" in ran.out
    found = loaded("try", "B1", "--without", "LI-1", "--json").json["without"]
    assert found["found"] is False
    assert {bound["limit"] for bound in found["binds"]} >= {"ligero", "seco"}


@pytest.mark.parametrize(
    "words", [("--without", "LI-1,SE-1"), ("--without", "LI-1", "--without", "se-1")]
)
def test_leaf_that_is_out_may_be_told_one_by_one(
    bunchbook: Bunchbook, tmp_path: Path, words: tuple[str, ...]
) -> None:
    spare = '[[leaf]]\ncode = "VI-7"\nuse = "filler"\nclass = "viso"\nmoisture = "13 %"\n'
    book = tmp_path / "house.toml"
    text = f'{HOUSE.read_text("utf-8")}\n{spare}half_leaf = "2.4 g"\nstrength = 5\n'
    book.write_text(text, "utf-8")
    assert bunchbook("house", "load", str(book)).code == 0
    found = bunchbook("try", "B1", *words, "--class-within", "100%", "--json").json["without"]
    assert set(found["leaf"]) == {"LI-1", "SE-1"}
    parts = {part["leaf"]: part["parts"] for part in found["parts"]}
    assert parts == pytest.approx({"SE-1": 0, "LI-1": 0, "VI-7": 10})


def test_without_a_leaf_that_another_replaces(bunchbook: Bunchbook, tmp_path: Path) -> None:
    text = HOUSE.read_text("utf-8")
    spare = '[[leaf]]\ncode = "LI-7"\nuse = "filler"\nclass = "ligero"\nmoisture = "13 %"\n'
    book = tmp_path / "house.toml"
    book.write_text(f'{text}\n{spare}half_leaf = "3 g"\nstrength = 7.5\nprice = 28\n', "utf-8")
    assert bunchbook("house", "load", str(book)).code == 0
    ran = bunchbook("try", "B1", "--without", "li-1")
    assert ran.code == 0
    assert "strength 5.00 -> 4.80" in ran.out
    found = bunchbook("try", "B1", "--without", "LI-1", "--planned", "80 kg", "--json").json
    parts = {part["leaf"]: part["parts"] for part in found["without"]["parts"]}
    assert parts == pytest.approx({"SE-1": 6.0, "LI-1": 0, "LI-7": 4.0})
    assert [change["code"] for change in found["changes"]] == ["LI-1", "LI-7"]


def test_without_a_leaf_the_stock_on_hand_limits_the_new_parts(
    bunchbook: Bunchbook, tmp_path: Path
) -> None:
    spare = '[[leaf]]\ncode = "LI-7"\nuse = "filler"\nclass = "ligero"\nmoisture = "13 %"\n'
    book = tmp_path / "house.toml"
    text = f'{HOUSE.read_text("utf-8")}\n{spare}half_leaf = "3 g"\nstrength = 8\n'
    book.write_text(text, "utf-8")
    assert bunchbook("house", "load", str(book)).code == 0
    assert bunchbook("enter", "receive SE-1 S-1 100kg!", "receive LI-7 L-7 5kg!").code == 0
    ran = bunchbook("try", "B1", "--without", "LI-1", "plan=10kg")
    assert ran.code == 0
    assert "kg on hand" in ran.out
    assert "the plan: 10.00 kg of filler" in ran.out
    # With share l of LI-7 strength is 3 + 5 l, within 0.2 of 5 from l = 0.36: of 50 kg that is 18.
    ran = bunchbook("try", "B1", "--without", "LI-1", "--planned", "50kg")
    assert ran.code == 1
    assert "LI-7: 5.00 kg on hand, the plan needs 18.00 kg" in ran.out
    assert bunchbook("try", "B1", "--without", "LI-1", "plan=0").code == 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["B1"], "nothing to try"),
        (["B9", "LI-1=2"], "no blend B9"),
        (["B1", "LI-2=2"], "did you mean LI-1?"),
        (["B1", "LI-1=2", "--without", "SE-1"], "leave out changes of parts"),
        (["B1", "LI-1=2", "--planned", "80kg"], "give --without too"),
        (["B1", "--without", "BI-1"], "BI-1"),
        (["B1", "--without", "LI-1", "plan=soon"], "expected days of the quotas"),
        (["B1", "--without", "LI-1", "plan=2", "--planned", "5kg"], "told twice"),
        (["B1", "--without", ","], "--without expects codes of leaf"),
        (["B1", "--without", "LI-1", "--class-within", "much"], "--class-within"),
        (["B1", "--without", "LI-1", "--strength-within", "-1"], "--strength-within expects"),
        (["B1", "--without", "LI-1", "--strength-within", "inf"], "--strength-within expects"),
        (["B1", "--without", "LI-1", "--class-within", "300%"], "--class-within expects"),
    ],
)
def test_what_cannot_be_tried(loaded: Bunchbook, words: list[str], says: str) -> None:
    ran = loaded("try", *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err


def test_line_draws_its_picture_into_a_new_file(loaded: Bunchbook, tmp_path: Path) -> None:
    file = tmp_path / "line.svg"
    assert loaded("line", "B1", "--svg", str(file)).code == 0
    assert ElementTree.fromstring(file.read_text("utf-8")).tag.endswith("svg")
    assert loaded("line", "B1", "--svg", str(file)).code == 2
    assert loaded("line", "B1", "--svg", str(tmp_path / "b.svg"), "--json").code == 2


def test_line_in_words_has_influence_and_the_leaf_that_binds(loaded: Bunchbook) -> None:
    told = loaded("line", "B1", "--against", "corona").out
    assert "approved toro, 30 bunches" in told
    assert "corona being 1" in told
    found = loaded("line", "B1", "--json").json
    assert [each["vitola"] for each in found["influence"]] == ["toro", "corona"]
    assert set(found["smallest_ring_bound"]) == {"toro", "corona"}
