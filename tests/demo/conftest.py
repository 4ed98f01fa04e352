"""The demo's data folder, built once for all tests that only read it."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from core.day.report import DayReport
from core.desk.desk import Desk
from core.house.model import HouseBook
from demo.build import build
from demo.cards import Cards
from demo.fortnight import fortnight
from demo.house import demo_house
from demo.shift import WORKING_DAYS
from demo.today import Typed


@pytest.fixture(scope="session")
def house() -> HouseBook:
    return demo_house()


@pytest.fixture(scope="session")
def cards(house: HouseBook) -> Cards:
    return Cards(house)


@pytest.fixture(scope="session")
def days(house: HouseBook, cards: Cards) -> list[tuple[Typed, ...]]:
    """Everything typed on each working day."""
    return [lines for _, lines in fortnight(house, cards)]


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dt.datetime]:
    """The data folder, and the moment at which its last day stands."""
    folder = tmp_path_factory.mktemp("demo") / "data"
    return folder, build(folder)


@pytest.fixture(scope="session")
def reports(built: tuple[Path, dt.datetime]) -> list[DayReport]:
    """The closed days added up, oldest first."""
    folder, moment = built
    return [Desk(folder, lambda: moment, "T9", date=date).report() for date in WORKING_DAYS[:-1]]
