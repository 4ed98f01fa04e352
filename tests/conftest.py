"""The long forms of some checks run only when asked for: `pytest --long`."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--long", action="store_true", help="run the long forms of checks too")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("--long"):
        return
    long = [item for item in items if item.get_closest_marker("slow")]
    config.hook.pytest_deselected(items=long)
    items[:] = [item for item in items if item not in long]
