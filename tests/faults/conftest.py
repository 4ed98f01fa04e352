"""Every test gives back the files that it opened."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.records.books import opened


@pytest.fixture(autouse=True)
def _give_files_back() -> Iterator[None]:
    yield
    while opened:
        opened.pop().close()
