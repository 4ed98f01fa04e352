"""The Day page: output, faults and fates, the split in bars, who stands out, late entries."""

from __future__ import annotations

from typing import Any

import pytest

from core.day.report import BuncherDay, DayReport, StandOut, VitolaDay
from core.house.model import Language
from floor.looks.language import paper_words, words_of
from floor.looks.spans import Line, text_of, width_of
from floor.screens.day import day_lines
from tests.floor.test_pages import DAY

LEAF = DAY.leaf[0].model_copy(
    update={"in_seconds_g": 120.0, "stem_g": 60.0, "sweepings_g": 30.0, "unexplained_g": -40.0}
)
MADE: dict[str, Any] = {
    "made": 250,
    "good": 216,
    "rework": 3,
    "second": 4,
    "first_pass_yield": 0.93,
}
FILLER: dict[str, Any] = {"filler_kg_per_1000_good": 15.377, "standard_kg_per_1000": 14.36}
CLOSED = DAY.model_copy(
    update={
        "closed": True,
        "leaf": (LEAF,),
        "totals": DAY.totals.model_copy(update={"second": 4, "held": 25, "workers": 8, **FILLER}),
        "standouts": (
            StandOut(bench=7, reason="heavy", n=9, value=0.41, against=0.0, vitola="toro"),
            StandOut(bench="7-A", reason="first_pass", n=98, value=0.8, against=0.9474),
        ),
        "by_vitola": (VitolaDay(vitola="toro", rejected={"torn": 2}, **MADE, **FILLER),),
        "by_buncher": (BuncherDay(buncher="P-07", rejected={"torn": 2}, **MADE, **FILLER),),
        "reopened": 1,
        "late": 2,
    }
)


def page(report: DayReport = CLOSED, width: int = 80, language: Language = "en") -> list[Line]:
    words = words_of(language)
    return day_lines(report, 1, width, words, paper_words(language))


def text(lines: list[Line]) -> str:
    return "\n".join(" ".join(text_of(line).split()) for line in lines)


def test_counts_and_filler_against_the_standard() -> None:
    told = text(page())
    assert "seconds 4 on hold 25 workers 8" in told
    assert "filler 15.377 kg (33.90 lb) per 1000 good standard 14.360 kg" in told


def test_on_an_open_day_filler_per_1000_is_not_told_yet() -> None:
    opened = CLOSED.model_copy(update={"closed": False})
    assert "per 1000 good" not in text(page(opened))
    assert "15.377" not in text(page(opened))


def test_what_usually_happens_to_a_fault_stands_beside_its_bar() -> None:
    told = text(page())
    assert "plugged 8 usually reworked at bunch ███" in told
    assert "tapado 8 suele ir a reproceso ███" in text(page(language="es"))


def test_the_split_is_in_grams_shares_and_bars() -> None:
    rows = [text_of(line) for line in page()]
    cuttings = next(row for row in rows if row.strip().startswith("cuttings"))
    stem = next(row for row in rows if row.strip().startswith("stem"))
    missing = next(row for row in rows if row.strip().startswith("unexplained"))
    assert cuttings.split()[1:4] == ["520", "4.5", "%"]
    assert cuttings.count("█") > 5 * stem.count("█") > 0
    assert ("-40" in missing, "█" in missing) == (True, False)


def test_a_bench_that_stands_out_says_why() -> None:
    told = text(page())
    assert "bench 7 bunches of toro 0.41 g heavy" in told
    assert "bench 7-A passed first time 80.0 %, the house 94.7 %, of 98 inspected" in told
    assert "mesa 7 bonches de toro 0.41 g pesados" in text(page(language="es"))


def test_late_corrections_are_counted() -> None:
    assert "opened again once, 2 entries after the first close" in text(page())


def test_output_by_vitola_and_by_buncher() -> None:
    rows = [text_of(line).split() for line in page()]
    for name in ("toro", "P-07"):
        assert [name, "250", "216", "2", "4", "93.0", "15.377", "14.360"] in rows


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("width", [60, 80, 132])
def test_nothing_is_wider_than_the_terminal_or_cut(width: int, language: Language) -> None:
    for report in (CLOSED, DAY):
        lines = page(report, width, language)
        assert max(map(width_of, lines)) <= width
        assert "…" not in text(lines)
