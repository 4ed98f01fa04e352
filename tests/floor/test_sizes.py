"""The floor in every size of terminal, and while its window is dragged about."""

from __future__ import annotations

from pathlib import Path

from tests.floor.hall import DOWN, ESC
from tests.floor.rooms import Rooms, settle, stands_at
from tests.floor.terminal import Terminal, opened

PAPER = ["-m", "tests.floor.stage", "paper"]
SIZES = ((132, 43), (60, 20), (100, 30), (80, 24))


def recorded(paper: Path) -> list[str]:
    if not paper.exists():
        return []
    return [row.split("\t")[1] for row in paper.read_text(encoding="utf-8").splitlines()]


def resized(terminal: Terminal, size: tuple[int, int]) -> None:
    """Another size, drawn to its last row."""
    terminal.resize(*size)
    settle(terminal)


def test_what_is_typed_and_where_one_stands_outlive_every_size(rooms: Rooms) -> None:
    exported = {"COLUMNS": "80", "LINES": "24"}  # as some shells do; it must not freeze the size
    with rooms.floor("en", (80, 24), **exported) as terminal:
        terminal.type(DOWN * 16)
        terminal.wait_for("▸  17")
        terminal.type("17 12.4 12")
        terminal.wait_for("▸ 17 12.4 12")
        for size in SIZES:
            resized(terminal, size)
            terminal.wait_for("▸  17")
            terminal.wait_for(lambda: terminal.rows[-4].startswith(" ▸ 17 12.4 12"))
            stands_at(terminal, "Board")
            terminal.wait_for(lambda: "F1 Board" in terminal.rows[-1])
        terminal.type(f"{ESC}")
        terminal.wait_for(lambda: "12.4 12" not in terminal.text)
        terminal.type("\r")
        terminal.wait_for("Card, bench 17")
        terminal.type("chart\r")
        terminal.wait_for("Chart, bench 17")
        for size in SIZES:
            resized(terminal, size)
            stands_at(terminal, "Chart, bench 17")
            terminal.wait_for("target")
            terminal.wait_for(lambda: terminal.rows[-4].startswith(" bench 17 ▸"))


def test_a_terminal_too_small_says_what_it_needs_and_still_takes_entries(tmp_path: Path) -> None:
    paper = tmp_path / "paper.txt"
    with opened([*PAPER, str(paper)]) as terminal:
        terminal.wait_for("F1 ")
        terminal.type("7\r10.8\r")
        terminal.wait_for("saved, entry 1: 10.8")
        terminal.type("10.9")
        terminal.wait_for("bench 7 ▸ 10.9")
        for width, height in ((59, 20), (60, 19), (40, 12), (30, 10)):
            resized(terminal, (width, height))
            says_it_is_small(terminal, width, height)
            assert "half-leaves" not in terminal.text
        terminal.type("\r")
        terminal.wait_for("saved, entry")
        resized(terminal, (10, 3))
        terminal.type("11.0\r")
        terminal.wait_for(lambda: recorded(paper) == ["10.8", "10.9", "11.0"])
        resized(terminal, (80, 24))
        terminal.wait_for("saved, entry 3: 11.0")
        terminal.wait_for("Card, bench 7")
        terminal.wait_for("half-leaves")
        assert "60 × 20" not in terminal.text


def test_opened_small_it_waits_for_room(tmp_path: Path) -> None:
    paper = tmp_path / "paper.txt"
    with opened([*PAPER, str(paper)], (50, 12)) as terminal:
        terminal.wait_for("50 × 12")
        terminal.type("7 10.8\r")
        terminal.wait_for(lambda: recorded(paper) == ["7 10.8"])
        resized(terminal, (80, 24))
        terminal.wait_for("P-7")
        terminal.wait_for("saved, entry 1: 7 10.8")


def says_it_is_small(terminal: Terminal, width: int, height: int) -> None:
    """What is needed, what there is, and that the line, still there, can be used."""
    terminal.wait_for(lambda: f"this terminal has {width} × {height}." in told(terminal))
    terminal.wait_for(lambda: "The floor needs 60 × 20 cells" in told(terminal))
    terminal.wait_for(lambda: "The entry line below still works." in told(terminal))
    terminal.wait_for("bench 7 ▸ 10.9")


def told(terminal: Terminal) -> str:
    """The screen's words in one line."""
    return " ".join(terminal.text.split())
