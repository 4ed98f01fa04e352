"""The demo's data folder, built once for all tests that only read it."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from core.day.report import DayReport
from core.day.summary import DaySummary
from core.day.trend import closed_days
from core.desk.desk import Desk
from core.desk.summaries import span
from core.house.model import HouseBook
from core.records.folder import Folder
from demo.build import build
from demo.cards import Cards
from demo.fortnight import fortnight
from demo.house import demo_house
from demo.shift import WORKING_DAYS
from demo.today import Typed
from tests.demo.frames import Frame, all_checks, piece_counts, raw_lines


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


@pytest.fixture(scope="session")
def raw(built: tuple[Path, dt.datetime], house: HouseBook) -> Frame:
    """Every entry of the closed days that stands, from the raw lines of their books."""
    return raw_lines(built[0], house)


@pytest.fixture(scope="session")
def pieces(raw: Frame) -> Frame:
    return piece_counts(raw)


@pytest.fixture(scope="session")
def checks(raw: Frame) -> Frame:
    return all_checks(raw)


@pytest.fixture(scope="session")
def kept(built: tuple[Path, dt.datetime]) -> list[DaySummary]:
    """The closed days' summaries, oldest first."""
    return closed_days(span(Folder(built[0]), WORKING_DAYS[0], WORKING_DAYS[-1]).kept)
