"""The core never reaches the screen: proved at run time, in a fresh process."""

from __future__ import annotations

import pkgutil
import subprocess
import sys

import pytest

import core
import floor.commands


def modules(package: object) -> list[str]:
    path, name = package.__path__, package.__name__  # type: ignore[attr-defined]
    return [name, *(m.name for m in pkgutil.walk_packages(path, f"{name}."))]


def loaded_after(imports: list[str]) -> set[str]:
    program = "import sys\n" + "\n".join(f"import {m}" for m in imports) + "\nprint(*sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    return {name.partition(".")[0] for name in run.stdout.split()}


def test_the_core_loads_no_screen_and_no_heavy_library() -> None:
    names = modules(core)
    assert len(names) > 20
    assert not loaded_after(names) & {"textual", "rich", "floor", "demo", "pint", "scipy", "numpy"}


def test_the_commands_load_no_screen() -> None:
    found = loaded_after(modules(floor.commands))
    assert "core" in found
    assert not found & {"textual", "rich", "pint", "scipy"}


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["card", "--help"]])
def test_help_loads_nothing_of_the_house(words: list[str]) -> None:
    program = (
        "import sys\nfrom floor.main import main\n"
        f"try: main({words!r})\nexcept SystemExit: pass\n"
        "print(*sys.modules, file=sys.stderr)"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert not {"pydantic", "tinydb", "textual"} & set(run.stderr.split())
