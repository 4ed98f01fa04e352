"""The floor in a real browser: typed at, read, left and opened again."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest

from demo.build import build
from floor.main import main
from tests.serve.browser import browser, executable
from tests.serve.serving import serving, wait_until_no_floor

NOW = "2026-05-04 10:40"

pytestmark = pytest.mark.skipif(
    executable() is None and not os.environ.get("CI"),
    reason="there is no Chromium here; .ci/run installs Debian's and sets CI",
)


def bench_7(data: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    capsys.readouterr()
    assert main(["day", "--json", "--data", str(data), "--at", NOW]) == 0
    day = json.loads(capsys.readouterr().out)
    return next(bench for bench in day["benches"] if str(bench["bench"]) == "7")


async def test_a_weight_check_typed_in_a_browser_is_judged_on_the_page_and_recorded(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = tmp_path / "data"
    build(data)
    before = bench_7(data, capsys)
    with serving(data, "--at", NOW, "--token", "carretera-4711-norte") as at:
        async with browser() as tab:
            await tab.open(at.url)
            await tab.shows("F10 Help")
            await tab.type("7 15.3 15.6 15.4\n")
            await tab.shows("bench 7, toro: 3 readings, mean 15.4 g, target 18.3 ± 0.7: light")

            await tab.press("F7", 118)
            log = await tab.shows("web-1.")
            assert "mean 15.4 g" in next(line for line in log.splitlines() if "web-1." in line)

            assert await tab.js("document.title") == "bunchbook: the floor"
            assert {url.partition("/static")[0] for url in tab.requested} <= {
                at.url, f"{at.origin}/", at.origin
            }  # fmt: skip
            at.end()
            await tab.says("The floor is no longer served. What was acknowledged is recorded.")
            assert "Open the floor again" in await tab.js("document.body.innerText")
        wait_until_no_floor(data)
    after = bench_7(data, capsys)
    assert after["checks"] == before["checks"] + 1
    assert after["out"] == before["out"] + 1
