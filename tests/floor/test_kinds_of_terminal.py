"""The floor on the terminals a bench has: no colour, sixteen colours, ASCII, a VT100."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.floor.rooms import SPANISH, Room, Rooms, go, stands_at
from tests.floor.terminal import Terminal, opened

PAPER = ["-m", "tests.floor.stage", "paper"]
SGR = re.compile(rb"\x1b\[([\d;]*)m")
ESCAPES = re.compile(rb"\x1b(?:\[([<=>?]?)[\d;]*([ -/]*)([@-~])|(.))", re.DOTALL)
PF1, PF2, PF3, PF4 = "\x1bOP", "\x1bOQ", "\x1bOR", "\x1bOS"
VT100_SGR = {0, 1, 4, 5, 7}
"""Renditions and modes of the VT100: its user guide (EK-VT100-UG), "SGR" and "DECAWM"."""
SIXTEEN = {0, 1, 3, 4, 7, 9, 39, 49, *range(30, 38), *range(40, 48), *range(90, 98)}
"""The eight colours of ECMA-48, and the bright ones most terminals added to them."""
PLAIN = {0, 1, 3, 4, 7, 9, 39, 49}


def renditions(sent: bytes | bytearray) -> set[int]:
    """Every rendition asked of the terminal."""
    return {int(code or 0) for codes in SGR.findall(sent) for code in codes.split(b";")}


def plain(text: str) -> str:
    """The title as ASCII spells it."""
    return text.translate(str.maketrans("áéíóúñ", "aeioun"))


def test_a_vt100_is_sent_nothing_that_it_does_not_know(rooms: Rooms) -> None:
    with rooms.floor("es", TERM="vt100") as terminal:
        for room in SPANISH:
            go(terminal, room, plain(room.title))
        modes = set(re.findall(rb"\x1b\[\?(\d+)", terminal.sent))
        assert modes <= {b"7"}, "DECAWM is the one mode of its that the floor needs"
        for private, between, last, other in ESCAPES.findall(bytes(terminal.sent)):
            assert private in (b"", b"?"), "no keyboard protocols"
            assert not between, "no questions"
            assert not other, "no titles, no pointer shapes"
            assert last in b"hlmHJ"
        assert renditions(terminal.sent) <= VT100_SGR
        assert max(terminal.sent) <= 126
        assert terminal.colours == {"default"}
        terminal.type("salir\r")
        assert terminal.wait_for_end() == 0
        while terminal.drain(0) and terminal.text.strip():
            pass
        assert not terminal.text.strip(), "the shell finds an empty screen"


def test_a_vt100_reaches_every_page_and_says_how(rooms: Rooms) -> None:
    with rooms.floor("en", TERM="vt100") as terminal:
        terminal.wait_for("F4 Line  type: day panel log help quit")
        for key, title in ((PF2, "Rounds"), (PF3, "Leaf"), (PF4, "Line"), (PF1, "Board")):
            terminal.type(key)
            stands_at(terminal, title)
        for word, title in (("day", "Day"), ("panel", "Panel"), ("log", "Log"), ("help", "Help")):
            go(terminal, Room(word, title))
        terminal.wait_for("or type panel, log")
        terminal.type("/7\r")
        terminal.wait_for("type: why chart")
        for word, title in (("why", "Why, bench 7"), ("chart", "Chart, bench 7")):
            go(terminal, Room(word, title))
        go(terminal, Room("days", "Days"))
        terminal.resize(60, 20)
        terminal.wait_for(lambda: terminal.rows[-1].endswith("type: day panel log help quit"))
        go(terminal, Room("only robusto", "Board"))
        assert "robusto" in terminal.text
        assert "F5" not in terminal.text


ASCII = (
    {"TERM": "xterm", "LC_ALL": "", "LANG": "C"},
    {"TERM": "xterm-256color", "LC_ALL": "POSIX"},
    {"TERM": "xterm", "LC_ALL": "", "LANG": "es_CU.ISO-8859-1"},
    {"TERM": "linux"},
)


@pytest.mark.parametrize("env", ASCII, ids=lambda env: " ".join(env.values()))
def test_where_ascii_is_all_no_other_byte_leaves(rooms: Rooms, env: dict[str, str]) -> None:
    with rooms.floor("es", (80, 24), **env) as terminal:
        for room in (SPANISH[1], SPANISH[3], SPANISH[6], SPANISH[7], SPANISH[11]):
            go(terminal, room, plain(room.title))
            assert "?" not in terminal.text.replace("F10 ?", "").replace("; ?", "")
        assert max(terminal.sent) <= 126
        go(terminal, SPANISH[3], "Grafica, mesa 17")
        assert " = meta  - limite  . tolerancia  o control  ^v" in terminal.text
        assert "meta|=" in terminal.text
        terminal.type("x")
        terminal.wait_for("mesa 17 > x")


@pytest.mark.parametrize(
    ("term", "allowed"),
    [("xterm", SIXTEEN), ("linux", SIXTEEN), ("screen", SIXTEEN), ("xterm-mono", PLAIN)],
)
def test_colours_are_those_the_terminal_has(term: str, allowed: set[int], tmp_path: Path) -> None:
    with opened([*PAPER, str(tmp_path / "paper.txt")], TERM=term) as terminal:
        check_at_the_bench(terminal)
        assert renditions(terminal.sent) <= allowed
        coloured = {cell.fg for cell in terminal.shown("Card, bench 7")} != {"default"}
        assert coloured == (allowed == SIXTEEN)


def test_without_colour_shapes_and_words_stand_for_it(tmp_path: Path) -> None:
    with opened([*PAPER, str(tmp_path / "paper.txt")], NO_COLOR="1") as terminal:
        check_at_the_bench(terminal)
        assert renditions(terminal.sent) <= PLAIN
        assert terminal.colours == {"default"}
        assert all(cell.bold for cell in terminal.shown("Card, bench 7"))
        terminal.type("q")
        terminal.wait_for("bench 7 ▸ q")
        assert not terminal.shown("▸ q")[-1].reverse
        row = next(y for y, text in enumerate(terminal.rows) if "▸ q" in text)
        x = terminal.rows[row].index("▸ q") + 3
        assert terminal.cell(x, row).reverse, "the caret"


def test_bytes_that_are_no_utf8_end_nothing_and_are_read_as_latin_1(tmp_path: Path) -> None:
    paper = tmp_path / "paper.txt"
    with opened([*PAPER, str(paper)], TERM="xterm", LC_ALL="", LANG="es_CU.ISO-8859-1") as terminal:
        terminal.wait_for("F1 ")
        terminal.type(b"7\r10.8\r7 note a\xf1o\r\x80\xff11.0\r10.9\r")
        terminal.wait_for("10.9")
        terminal.wait_for(lambda: len(paper.read_text(encoding="utf-8").splitlines()) == 3)
        assert paper.read_text(encoding="utf-8").splitlines() == [
            "7\t10.8",
            "7\t7 note año",
            "7\t10.9",
        ]
        terminal.wait_for("not read: ?y11.0")


def check_at_the_bench(terminal: Terminal) -> None:
    """A reading on a card, and what it says."""
    terminal.wait_for("F1 ")
    terminal.type("7\r10.8\r")
    terminal.wait_for("saved, entry 1: 10.8")
    terminal.wait_for("Card, bench 7")
