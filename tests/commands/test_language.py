"""The language that commands speak: `--lang`, else the house's, else English."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from platformdirs import user_data_dir

from core.house.language import language_in
from floor.commands import out
from floor.commands.folder import own_folder
from tests.commands.conftest import HOUSE, Bunchbook


@pytest.fixture
def spanish_book(tmp_path: Path) -> Path:
    """The small house, in a book that says it speaks Spanish."""
    lines = [each for each in HOUSE.read_text().splitlines() if not each.startswith("language")]
    book = tmp_path / "es.toml"
    book.write_text("\n".join(lines).replace("[house]", '[house]\nlanguage = "es"', 1))
    return book


@pytest.fixture
def spanish(bunchbook: Bunchbook, spanish_book: Path) -> Bunchbook:
    assert bunchbook("house", "load", str(spanish_book)).code == 0
    return bunchbook


@pytest.mark.parametrize(
    "words",
    [("--lang", "es", "card", "7"), ("card", "7", "--lang", "es"), ("--lang=es", "card", "7")],
)
def test_the_language_is_given_before_or_after_the_command(
    loaded: Bunchbook, words: tuple[str, ...]
) -> None:
    assert loaded(*words).out.startswith("mesa 7: toro, cepo 52")


def test_without_one_the_houses_language_is_spoken(spanish: Bunchbook) -> None:
    assert spanish("card", "7").out.startswith("mesa 7: toro, cepo 52")
    assert spanish("card", "7", "--lang", "en").out.startswith("bench 7: toro, ring 52")
    assert spanish("--help").out.startswith("uso: bunchbook")
    assert "hacen falta estos argumentos: MESA" in spanish("card").err
    assert (
        '--at espera una hora como "2026-05-04 09:15"' in spanish("day", "--at", "x", at=None).err
    )


def test_without_a_house_it_is_english(bunchbook: Bunchbook, tmp_path: Path) -> None:
    assert bunchbook("--help").out.startswith("usage: bunchbook")
    (tmp_path / "data").write_text("not a folder")
    assert bunchbook("--help").out.startswith("usage: bunchbook")


def test_the_first_book_is_loaded_in_its_own_language(
    bunchbook: Bunchbook, spanish_book: Path
) -> None:
    assert "cargado como versión 1" in bunchbook("house", "load", str(spanish_book)).out


def test_what_was_told_in_spanish_leaves_nothing_behind(
    loaded: Bunchbook, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("LANGUAGE", raising=False)
    assert loaded("card", "--lang", "es").err.startswith("uso:")
    assert "LANGUAGE" not in os.environ
    assert loaded("card").err.startswith("usage:")


def test_another_language_is_refused_in_the_houses(spanish: Bunchbook) -> None:
    ran = spanish("--lang", "fr", "card", "7")
    assert ran.code == 2
    assert "argumento --lang: opción no válida: 'fr'" in ran.err


def test_json_and_csv_are_the_same_in_every_language(loaded: Bunchbook) -> None:
    assert loaded("enter", "7 10.8 10.9", "7 made 50", "7 fail torn 2").code == 0
    for words in (
        ("card", "7", "--json", "--why"), ("day", "--json"), ("leaf", "--csv"),
        ("rounds", "--json"), ("chart", "7", "--json"), ("days", "2026", "--csv"),
        ("line", "B1", "--json"), ("try", "B1", "LI-1=3", "--json"),
    ):  # fmt: skip
        assert loaded(*words, "--lang", "es").out == loaded(*words).out, words


def test_papers_are_in_the_language_spoken(loaded: Bunchbook, tmp_path: Path) -> None:
    assert loaded("enter", "7 made 50", "7 good 45").code == 0
    assert loaded("close").code == 0
    for name, words, title in (
        ("cards", ("cards",), "Fichas 2026-05-04"),
        ("day", ("day",), "El día 2026-05-04"),
        ("days", ("days", "2026"), "Marcha 2026-01-01 – 2026-12-31"),
        ("month", ("month", "2026-05"), "Mes 2026-05"),
    ):
        page = tmp_path / f"{name}.html"
        assert loaded(*words, "--html", str(page), "--lang", "es").code == 0
        assert f"<title>{title}</title>" in page.read_text()
        assert 'lang="es"' in page.read_text()


def test_the_newest_version_of_the_house_says_its_language() -> None:
    english = b'{"add":{"versions":{"1":{"toml":"x","house":{"house":{"name":"A"}}}}}}\n'
    spanish = b'{"add":{"versions":{"2":{"house":{"house":{"name":"B","language":"es"}}}}}}\n'
    assert language_in(english + spanish) == "es"
    assert language_in(spanish + english) == "en"
    assert language_in(english + spanish[:-20]) == "en"  # cut off
    assert language_in(b"") == "en"
    quoted = (
        rb'{"toml":"\"house\":{\"house\":{,\"language\":\"es\"","house":{"house":{"name":"A"}}}'
    )
    assert language_in(quoted) == "en"
    named = rb'{"house":{"house":{"name":"{\",\"language\":\"es\"}"},"language":"es"}'
    assert language_in(named) == "en"


@pytest.mark.parametrize("base", [None, "", " ", "/srv/data"])
def test_the_users_own_folder_is_the_one_that_platformdirs_names(
    monkeypatch: pytest.MonkeyPatch, base: str | None
) -> None:
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    if base is not None:
        monkeypatch.setenv("XDG_DATA_HOME", base)
    assert own_folder() == user_data_dir("bunchbook")


def test_columns_line_up_by_the_cells_that_their_text_takes() -> None:
    rows = [("é\u0301tage", "x"), ("葉", "y"), ("abcdef", "z")]
    assert out.table(rows) == "é\u0301tage   x\n葉      y\nabcdef  z"
