"""How long the line takes: its sheet, a what-if, a change of leaf."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from core.desk.desk import Desk
from core.desk.load import examine
from core.line.leaf_limits import Band
from core.line.new_parts import NewParts, new_parts
from core.line.sheet import line_sheet
from core.recipe.law import fit
from floor.looks.language import words_of
from floor.screens.line_view import line_lines
from tests.bench.row import Row, interleaved
from tests.bench.workshop import CLASSES, desk, house_toml

PEER = "the promise"
TIMES = 15
SHEET_S, FORTY_S, FRAMES_S, LEAF_S = 0.050, 0.100, 0.033, 0.050
"""A sheet of 200 vitolas, one of 40, two frames of a screen, a change of leaf."""
SPARE = 35
"""Filler leaf in reserve, so that with the blend's own there are forty."""


def measure(place: Path) -> list[Row]:
    """The sheets, a what-if redrawn, and new parts, each beside what was promised for it."""
    return [
        _row("line sheet 200 × 5", _sheet(200), SHEET_S),
        _row("line sheet 40 × 5, smallest rings", _sheet(40), FORTY_S),
        _row("what-if redrawn, 40 vitolas, 80 × 24", _what_if(place), FRAMES_S),
        _row("change of leaf among 40, after import", _change_of_leaf(), LEAF_S),
        _row("which limit binds among 40, after import", _binding(), LEAF_S),
    ]


def _row(name: str, ours: Callable[[], float], promised_s: float) -> Row:
    ours()  # imports are not counted
    (seconds,) = interleaved(TIMES, ours)
    return Row(name, 1000 * seconds, "ms", PEER, 1000 * promised_s, bar=1.0)


def _timed(do: Callable[[], object]) -> float:
    began = time.perf_counter()
    do()
    return time.perf_counter() - began


def _sheet(vitolas: int) -> Callable[[], float]:
    house = examine(house_toml(benches=8, vitolas=vitolas), "bench.toml").house
    assert house is not None
    law = fit(house, "B1")
    return lambda: _timed(lambda: line_sheet(house, "B1", {}, law=law))


def _what_if(place: Path) -> Callable[[], float]:
    """From Enter to the page's lines: every time something else is tried."""
    opened = desk(place / "line", benches=40, vitolas=40)
    house, words = opened.loaded, words_of("en")
    rings = [44, 46]

    def redraw() -> float:
        rings.reverse()
        return _timed(lambda: _tried(opened, rings[0]))

    def _tried(at: Desk, ring: int) -> None:
        at.enter(f"try F3=1.5 v7.ring={ring}", None)
        line_lines(at.line.shown(), house, words, 80)

    return redraw


def _leaves() -> str:
    """A house with forty filler leaves, thirty-five of them in no blend."""
    spare = (
        f'[[leaf]]\ncode = "S{n}"\nuse = "filler"\nclass = "{CLASSES[n % len(CLASSES)]}"\n'
        f'moisture = "14 %"\nhalf_leaf = "2 g"\nstrength = {1 + n % 9}'
        for n in range(SPARE)
    )
    return "\n".join((house_toml(benches=8, vitolas=8), *spare))


def _change_of_leaf() -> Callable[[], float]:
    house = examine(_leaves(), "bench.toml").house
    assert house is not None
    on_hand_g = dict.fromkeys(house.filler, 5000.0)
    band = Band(on_hand_g=on_hand_g, planned_g=20_000.0)
    assert isinstance(new_parts(house, "B1", ["F1", "F3"], band), NewParts)
    return lambda: _timed(lambda: new_parts(house, "B1", ["F1", "F3"], band))


def _binding() -> Callable[[], float]:
    house = examine(_leaves(), "bench.toml").house
    assert house is not None
    band = Band(on_hand_g=dict.fromkeys(house.filler, 500.0), planned_g=90_000.0)
    return lambda: _timed(lambda: new_parts(house, "B1", ["F1", "F3"], band))
