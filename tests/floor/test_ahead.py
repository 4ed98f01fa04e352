"""What is loaded before the first picture, and what after it."""

from __future__ import annotations

import subprocess
import sys
import threading
from importlib import import_module
from pathlib import Path

import pytest

from floor import ahead
from floor.ahead import ROOMS
from tests.floor.hall import floor, small_house
from tests.floor.paper import PaperDesk

ROOT = Path(__file__).parent.parent.parent
LOADED = """
import sys
from core.desk.desk import Desk
from floor.app import FloorApp
print(*sys.modules)
"""
NOT_YET = ("pydantic", "pint", "scipy", "core.recipe.card", "core.entry.parse", "core.day.report")


def test_the_first_picture_waits_for_nothing_that_it_does_not_show() -> None:
    run = subprocess.run(
        [sys.executable, "-c", LOADED], cwd=ROOT, capture_output=True, text=True, check=True
    )
    loaded = set(run.stdout.split())
    assert "floor.screens.board" in loaded
    assert loaded.isdisjoint((*NOT_YET, *ROOMS))


def test_everything_named_is_there() -> None:
    for room in ROOMS:
        assert import_module(room).__name__ == room


async def test_the_floor_loads_them_once_it_is_on_the_screen() -> None:
    async with floor(PaperDesk(small_house())) as hall:
        await hall.until(
            lambda: not any(each.name == "load-ahead" for each in threading.enumerate())
        )
        assert set(ROOMS) <= sys.modules.keys()


def test_a_room_that_cannot_be_loaded_is_left_to_who_asks_for_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(ahead, "ROOMS", ("core.no_such_room", "core.day.late"))
    monkeypatch.delitem(sys.modules, "core.day.late")
    ahead.load_ahead().join(timeout=30)
    assert "core.day.late" in sys.modules
