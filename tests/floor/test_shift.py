"""A shift worked from the keyboard, on a terminal, and what the shell says of it afterwards."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from demo.build import build
from tests.floor.terminal import Terminal

ROOT = Path(__file__).parents[2]


def test_a_shift_on_the_demo_floor_is_what_the_day_says(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    moment = build(folder)
    place = ["-m", "floor.main", "--data", str(folder), "--at", f"{moment:%Y-%m-%d %H:%M}"]

    def day() -> dict[str, int]:
        ran = subprocess.run(
            [sys.executable, *place, "day", "--json"],
            capture_output=True,
            check=True,
            cwd=ROOT,
        )
        report = json.loads(ran.stdout)
        seven = next(row for row in report["benches"] if row["bench"] == 7)
        counts = {name: seven[name] for name in ("made", "good", "checks", "out")}
        return counts | {"plugged": seven["rejected"].get("plugged", 0), "closed": report["closed"]}

    before = day()
    with Terminal([*place, "--terminal", "T9"], {"TERM": "xterm-256color"}) as floor:
        floor.wait_for("first piece")
        floor.type(b"7\r")
        floor.wait_for("Card, bench 7")
        for reading in (b"18.2", b"18.4", b"18.3", b"18.6", b"18.1"):
            floor.type(reading + b"\r")
        floor.wait_for("check of 5 closed")
        floor.wait_for("within")
        floor.type(b"made 50\r")
        floor.wait_for("50 bunches made")
        floor.type(b"good 45\r")
        floor.wait_for("45 cigars good")
        floor.type(b"fail plugged 2\r")
        floor.wait_for("failed 2 plugged")
        floor.type(b"day\r")
        floor.wait_for("Rejects by fault")
        floor.type(b"close\r")
        floor.wait_for("close the day?")
        floor.type(b"\r")
        floor.wait_for("day closed")
        floor.type(b"quit\r")
        assert floor.wait_for_end() == 0
    assert day() == {
        "made": before["made"] + 50,
        "good": before["good"] + 45,
        "checks": before["checks"] + 1,
        "out": before["out"],
        "plugged": before["plugged"] + 2,
        "closed": True,
    }
