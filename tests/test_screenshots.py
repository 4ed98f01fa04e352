"""Every described screen is as it was last rendered; a difference shows as text."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from demo.build import build
from screenshots_spec.spec import SPECS, Spec, specs
from screenshots_spec.stage import take

ANEW = "if the new screen is as it should be, run: python -m screenshots_spec"


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dt.datetime]:
    folder = tmp_path_factory.mktemp("demo") / "data"
    return folder, build(folder)


@pytest.mark.parametrize("spec", specs(), ids=lambda spec: spec.name)
def test_the_screen_is_as_it_was_rendered(
    spec: Spec, demo: tuple[Path, dt.datetime], tmp_path: Path
) -> None:
    folder, moment = demo
    picture = take(spec, folder, moment, tmp_path)
    kept = (SPECS / "pictures" / f"{spec.name}.txt").read_text(encoding="utf-8")
    assert picture.text == kept, ANEW


@pytest.mark.parametrize("spec", specs(), ids=lambda spec: spec.name)
def test_the_screen_fits_its_size(spec: Spec) -> None:
    rows = (SPECS / "pictures" / f"{spec.name}.txt").read_text(encoding="utf-8").splitlines()
    assert len(rows) == spec.rows
    assert max(map(len, rows)) <= spec.columns


@pytest.mark.parametrize("spec", specs(), ids=lambda spec: spec.name)
def test_the_picture_needs_nothing_from_outside(spec: Spec) -> None:
    svg = (SPECS / "pictures" / f"{spec.name}.svg").read_text(encoding="utf-8")
    links = [word for word in svg.split('"') if word.startswith("http")]
    assert set(links) <= {"http://www.w3.org/2000/svg"}
    assert "url(http" not in svg
