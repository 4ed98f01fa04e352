"""`chart`: figures and sentences, and their JSON."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

from tests.commands.conftest import Bunchbook


def weighed(loaded: Bunchbook, checks: int) -> None:
    target = loaded("card", "7", "--json").json["targets"]["bunch"]["target_g"]
    for n in range(checks):
        off = (n % 3 - 1, n % 2, (n + 1) % 3 - 1)
        readings = " ".join(f"{target + each / 10:.2f}" for each in off)
        assert loaded("enter", f"7 {readings} !", at=f"2026-05-04 09:{n:02d}").code == 0


def test_a_chart_in_words(loaded: Bunchbook) -> None:
    weighed(loaded, 9)
    told = loaded("chart", "7", at="2026-05-04 10:00")
    assert told.code == 0
    lines = told.out.splitlines()
    assert lines[0] == "bench 7: toro of B1, bunch, deviations from target in g"
    assert lines[1] == "window -0.60 to +0.60"
    assert lines[2].startswith("limits from only 9 checks of this bench; one reading spreads 0.")
    assert sum(line.startswith("4 May  09:0") for line in lines) == 9
    assert lines[-1] == "capability: too few readings to judge, 27 of 30"
    assert max(map(len, lines)) <= 80


def test_a_chart_as_json(loaded: Bunchbook) -> None:
    weighed(loaded, 9)
    found = loaded("chart", "7", "--json", at="2026-05-04 10:00").json
    assert (found["bench"], found["vitola"], found["measure"], found["unit"]) == (
        7, "toro", "bunch", "g",
    )  # fmt: skip
    assert found["limits"]["source"] == "few"
    assert found["limits"]["checks"] == 9
    assert [point["entry"] for point in found["points"]] == list(range(1, 10))
    point = found["points"][0]
    assert point["low"] < 0 < point["high"]
    assert point["ewma_low"] < point["ewma"] < point["ewma_high"]
    assert found["capability"] == {"readings": 27, "why": "too_few"}
    assert found["off"]["low_g"] <= found["off"]["mean_g"] <= found["off"]["high_g"]
    assert set(found) == {
        *("bench", "vitola", "blend", "measure", "unit", "window", "limits", "points"),
        *(
            "broken",
            "capability",
            "verdict",
            "off",
            "filler_a_week_g",
            "advice",
            "spread",
            "found",
            "spread",
        ),
    }


def test_the_next_day_goes_on_from_the_day_before_and_the_records_are_sound(
    loaded: Bunchbook,
) -> None:
    weighed(loaded, 3)
    loaded("enter", "7 11.2 11.3 11.2 !", at="2026-05-05 09:00")
    found = loaded("chart", "7", "--json", at="2026-05-05 10:00").json
    assert [point["day"] for point in found["points"]] == ["2026-05-04"] * 3 + ["2026-05-05"]
    assert loaded("verify").code == 0


def test_another_measure_is_asked_for_by_its_name(loaded: Bunchbook) -> None:
    found = loaded("chart", "7", "--measure", "ring", "--json").json
    assert (found["measure"], found["unit"], found["points"]) == ("ring", "ring gauge", [])
    assert loaded("chart", "7", "--measure", "weight").code == 2


def test_a_bench_that_is_not_there_exits_2(loaded: Bunchbook) -> None:
    told = loaded("chart", "70")
    assert (told.code, told.out) == (2, "")
    assert "there is no bench 70" in told.err


def test_a_chart_as_a_picture_for_a_report(loaded: Bunchbook, tmp_path: Path) -> None:
    """Well-formed, alone, with the advice as its description."""
    weighed(loaded, 9)
    target = tmp_path / "seven.svg"
    assert loaded("chart", "7", "--svg", str(target)).code == 0
    drawn = ElementTree.fromstring(target.read_text())
    texts = [element.text or "" for element in drawn.iter()]
    assert any("bench 7" in text for text in texts)
    assert not re.search(r"(?:href|src)=|<script", target.read_text())
    again = loaded("chart", "7", "--svg", str(target))
    assert (again.code, again.out) == (2, "")
    assert "is there already" in again.err
    assert loaded("chart", "7", "--svg", str(tmp_path / "no" / "x.svg")).code == 3
