"""A desk on a fresh folder with the small house loaded, and a clock the test moves."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.load import examine

HOUSE_TOML = (Path(__file__).parent / "house.toml").read_text(encoding="utf-8")
ZONE = dt.timezone(dt.timedelta(hours=2))
MORNING = dt.datetime(2026, 5, 4, 8, 0, tzinfo=ZONE)


class HandClock:
    """A clock that stands still until it is moved."""

    def __init__(self, now: dt.datetime) -> None:
        self.now = now

    def __call__(self) -> dt.datetime:
        return self.now

    def forward(self, **how: float) -> None:
        self.now += dt.timedelta(**how)


def load(desk: Desk, text: str = HOUSE_TOML) -> None:
    read = examine(text, "house.toml")
    assert read.house is not None, read.problems
    desk.shelf.load(read.house, text, "house.toml", desk.now())
    desk.follow()


@pytest.fixture
def clock() -> HandClock:
    return HandClock(MORNING)


@pytest.fixture
def desk_at(tmp_path: Path, clock: HandClock) -> Callable[..., Desk]:
    """Opens one more terminal's desk on the same folder."""

    def opened(terminal: str = "T1", **more: object) -> Desk:
        return Desk(tmp_path / "data", clock, terminal, **more)  # type: ignore[arg-type]

    return opened


@pytest.fixture
def desk(desk_at: Callable[..., Desk]) -> Desk:
    found = desk_at()
    load(found)
    return found
