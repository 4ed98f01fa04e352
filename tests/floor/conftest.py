"""The small house and a desk on paper."""

from __future__ import annotations

import pytest

from tests.floor.hall import small_house
from tests.floor.paper import PaperDesk


@pytest.fixture
def paper() -> PaperDesk:
    return PaperDesk(small_house())
