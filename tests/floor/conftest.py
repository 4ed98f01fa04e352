"""The small house and a desk on paper; the demo house for floors on a pseudo-terminal."""

from __future__ import annotations

import pytest

from demo.build import build
from tests.floor.hall import small_house
from tests.floor.paper import PaperDesk
from tests.floor.rooms import Rooms


@pytest.fixture
def paper() -> PaperDesk:
    return PaperDesk(small_house())


@pytest.fixture(scope="session")
def rooms(tmp_path_factory: pytest.TempPathFactory) -> Rooms:
    """The demo house's floor, in either language."""
    folder = tmp_path_factory.mktemp("rooms")
    return Rooms(folder, build(folder / "demo"))
