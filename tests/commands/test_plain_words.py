"""Every page has a command that tells the same in plain text: no box art, one label a figure."""

from __future__ import annotations

import datetime as dt
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from demo.build import build
from floor.commands.parser import COMMANDS
from floor.screens.pages import PAGES
from tests.commands.conftest import Bunchbook

TELLS: dict[str, tuple[str, ...]] = {
    "board": ("board",),
    "start": ("house", "check", "HOUSE"),
    "card": ("card", "7"),
    "why": ("card", "7", "--why"),
    "rounds": ("rounds",),
    "chart": ("chart", "7"),
    "leaf": ("leaf",),
    "line": ("line", "B4"),
    "day": ("day",),
    "days": ("days", "2026"),
    "panel": ("panel", "show"),
    "log": ("log",),
    "help": ("help",),
}
"""By page, the command that tells what the page does."""

OTHERS: tuple[tuple[str, ...], ...] = (
    ("cards",),
    ("leaf", "--issue"),
    ("try", "B4", "LI-2=1.5"),
    ("try", "B4", "--without", "LI-2"),
    ("day", "2026-05-02"),
    ("days", "2026", "--by", "week"),
    ("pay", "2026"),
    ("month", "2026-04"),
    ("verify",),
    ("house", "show"),
    ("--help",),
    ("card", "--help"),
)
DRAWN = re.compile("[\u2500-\u259f\u25a0-\u25ff\u2800-\u28ff\ue000-\uf8ff]")
"""Boxes, blocks, geometric shapes, braille, private use."""


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The demo house's records, and its moment."""
    folder = tmp_path_factory.mktemp("plain") / "demo"
    moment: dt.datetime = build(folder)
    return folder, f"{moment:%Y-%m-%d %H:%M}"


def words(told: tuple[str, ...]) -> tuple[str, ...]:
    house = Path(__file__).parents[1] / "desk" / "house.toml"
    return tuple(str(house) if word == "HOUSE" else word for word in told)


def test_every_page_has_its_command() -> None:
    assert TELLS.keys() == PAGES.keys() | {"board", "start"}
    assert {told[0] for told in TELLS.values()} <= COMMANDS.keys()


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("told", [*TELLS.values(), *OTHERS], ids=" ".join)
def test_no_command_draws(
    bunchbook: Bunchbook, demo: tuple[Path, str], told: tuple[str, ...], language: str
) -> None:
    folder, moment = demo
    ran = bunchbook(*words(told), "--lang", language, "--data", str(folder), at=moment)
    assert ran.code == 0, ran.err
    assert ran.out.strip()
    assert not DRAWN.search(ran.out + ran.err)


@pytest.mark.parametrize("language", ["en", "es"])
def test_what_is_entered_is_told_without_drawing(
    bunchbook: Bunchbook, demo: tuple[Path, str], tmp_path: Path, language: str
) -> None:
    folder, moment = demo
    shutil.copytree(folder, tmp_path / "copy")
    lines = ("7 18.5 18.6", "7 made 5", "LI-2 14.2%", "7 9.1", "zz")
    where = ("--lang", language, "--data", str(tmp_path / "copy"))
    ran = bunchbook("enter", *lines, *where, at=moment)
    assert len((ran.out + ran.err).splitlines()) >= len(lines)
    assert not DRAWN.search(ran.out + ran.err)


@pytest.mark.parametrize("language", ["en", "es"])
def test_where_ascii_is_all_every_command_keeps_to_it(
    demo: tuple[Path, str], language: str
) -> None:
    folder, moment = demo
    common = ("--lang", language, "--data", str(folder), "--at", moment)
    env = {"PATH": os.environ["PATH"], "LANG": "C", "HOME": str(folder.parent)}
    every = [*TELLS.values(), *OTHERS, ("card", "7", "--json"), ("house", "show", "--json")]
    script = (
        "import sys; from floor.commands import out; from floor.main import main; out.prepare()\n"
        "codes = []\n"
        "for words in eval(sys.argv[1]):\n"
        "    try: codes.append(main(words))\n"
        "    except SystemExit as stop: codes.append(stop.code or 0)\n"
        "sys.exit(max(codes))"
    )
    lines = [[*words(told), *common] for told in every]
    ran = subprocess.run(
        [sys.executable, "-c", script, repr(lines)],
        env=env,
        capture_output=True,
        check=False,
        cwd=Path(__file__).parents[2],
    )
    assert ran.returncode == 0, ran.stderr.decode("ascii", "replace")
    assert max(ran.stdout + ran.stderr) <= 126
    assert b"?" not in b"".join(row for row in ran.stdout.splitlines() if row.startswith(b"378 "))


def table(lines: list[str], head: str) -> list[str]:
    """The rows of the table under the line that begins so, with that line."""
    start = next(i for i, line in enumerate(lines) if line.split()[:1] == [head])
    return lines[start:]


@pytest.mark.parametrize("language", ["en", "es"])
def test_columns_of_the_board_line_up(
    bunchbook: Bunchbook, demo: tuple[Path, str], language: str
) -> None:
    folder, moment = demo
    ran = bunchbook("board", "--lang", language, "--data", str(folder), at=moment)
    head, *rows = table(ran.out.splitlines(), {"en": "bench", "es": "mesa"}[language])
    assert len(rows) == 24
    column = re.search(r"\S+$", head)
    assert column is not None
    assert {len(row) for row in rows if "/" in row.split()[-1]} == {column.end()}
    pair = head.index({"en": "pair", "es": "pareja"}[language])
    assert all(row[pair - 1] == " " and row[pair : pair + 2] == "P-" for row in rows)


def test_a_card_says_what_a_figure_is_before_the_figure(
    bunchbook: Bunchbook, demo: tuple[Path, str]
) -> None:
    folder, moment = demo
    for language in ("en", "es"):
        ran = bunchbook("card", "7", "--lang", language, "--data", str(folder), at=moment)
        lines = ran.out.splitlines()
        assert all(line[0].isalpha() for line in lines if line.strip())
        head = next(line for line in lines if "g" in line and line.split()[0] in ("class", "clase"))
        grams = {"en": "grams", "es": "gramos"}[language]
        assert head.split()[:3] == [head.split()[0], head.split()[1], grams]


def test_the_board_and_the_log_say_what_is_out_of_the_ordinary(
    bunchbook: Bunchbook, demo: tuple[Path, str]
) -> None:
    folder, moment = demo
    board = bunchbook("board", "--data", str(folder), at=moment)
    late = next(row for row in board.out.splitlines() if row.startswith("7 "))
    assert "33 min late" in late
    assert any("first piece" in row for row in board.out.splitlines())
    log = bunchbook("log", "--data", str(folder), at=moment)
    void = [row for row in log.out.splitlines() if "void by" in row]
    assert void
    assert all(row.split("void by")[0].count(":") == 1 for row in void)  # only the clock before it
    read = bunchbook("board", "--json", "--data", str(folder), at=moment).json
    assert {each["state"] for each in read} >= {"within", "mixed", None}
    assert read[0]["bench"] == 1
    assert bunchbook("log", "--json", "--data", str(folder), at=moment).json[0]["entry"] >= 378


def test_without_a_house_the_board_says_how_to_come_by_one(bunchbook: Bunchbook) -> None:
    assert bunchbook("board").code == 2
    assert "bunchbook house load" in bunchbook("board").err
    assert bunchbook("log").out.strip() == "nothing recorded yet today"
