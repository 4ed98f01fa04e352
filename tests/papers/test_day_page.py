"""The day's page: its figures are the report's, its sentences are in both languages."""

from __future__ import annotations

import math
from typing import Any
from xml.etree import ElementTree

import pytest

from core.day.pay import pay_of_day
from core.day.report import DayReport, StandOut
from core.day.yields import COVERS
from core.house.model import Language
from core.papers.day_page import DayPaper, day_html
from core.papers.day_standouts import CHARTS, reason, to_chart
from core.papers.words import words_of
from tests.day.adding import told
from tests.day.book import HOUSE, Writer

LANGUAGES: tuple[Language, ...] = ("en", "es")
REASONS: list[StandOut] = [
    StandOut(bench=7, reason="first_pass", n=1200, value=0.848, against=0.934),
    StandOut(bench=7, reason="leaf_over", n=300, value=0.45, against=14.4),
    StandOut(bench=7, reason="leaf_under", n=300, value=-0.45, against=14.4),
    StandOut(bench=7, reason="heavy", n=8, value=0.26, against=0.0, vitola="toro"),
    StandOut(bench=7, reason="light", n=8, value=-0.26, against=0.0, vitola="toro"),
    StandOut(bench=7, reason="unchecked", n=300),
]
SAID: dict[Language, tuple[str, ...]] = {
    "en": (
        "passed first time 84.8\u00a0%, the house 93.4\u00a0%, of 1200 inspected",
        "0.45 kg of filler for 1,000 good cigars that nothing explains; the standard is 14.40 kg",
        (
            "0.45 kg of filler for 1,000 good cigars less than was rolled: too little was booked; "
            "the standard is 14.40 kg"
        ),
        "bunches of toro 0.26 g heavy",
        "bunches of toro 0.26 g light",
        "no check all day of 300 bunches",
    ),
    "es": (
        "a la primera 84.8\u00a0%, la casa 93.4\u00a0%, de 1200 revisados",
        "0.45 kg de tripa por mil buenos sin explicar; el estándar es 14.40 kg",
        (
            "0.45 kg de tripa por mil buenos menos de la que se torció: se anotó de menos; "
            "el estándar es 14.40 kg"
        ),
        "bonches de toro 0.26 g pesados",
        "bonches de toro 0.26 g livianos",
        "ningún control en todo el día de 300 bonches",
    ),
}


@pytest.mark.parametrize("language", LANGUAGES)
def test_why_a_bench_stands_out_is_a_sentence(language: Language) -> None:
    words = words_of(language)
    assert tuple(reason(each, words) for each in REASONS) == SAID[language]


def worked(*, close: bool = True) -> DayReport:
    """Two benches and two vitolas, with seconds, holds, stem and sweepings."""
    day = Writer(HOUSE)
    for bench, n in (("7", 200), ("8", 100), ("9", 150)):
        day("take", bench, leaf="SE-1", grams=7.0 * n, moisture=0.13)
        day("take", bench, leaf="LI-1", grams=5.0 * n, moisture=0.13)
        day("made", bench, n=n)
        day("good", bench, n=n - 20)
        day("fail", bench, faults={"torn": 8, "plugged": 4})
        day("stem", bench, leaf="SE-1", grams=12.0, moisture=0.13)
    day("second", "7", n=5)
    day("hold", "7", n=25, reason="wet")
    day("workers", "7", n=4)
    day("panel", "8", n=2)
    day("sweepings", "", grams=90.0, moisture=0.13)
    day.check(12.0, 12.2, 12.1, 12.3, 12.0, 12.1, bench="7")
    if close:
        day("close", "")
    return told(day)


def parsed(report: DayReport, language: Language = "en", **more: Any) -> ElementTree.Element:
    page = day_html(DayPaper(report, {}, **more), language)
    return ElementTree.fromstring(page.replace("<!DOCTYPE html>", ""))


def tables(root: ElementTree.Element) -> list[list[list[str]]]:
    """Every table's rows of cells, its head first."""
    return [
        [["".join(cell.itertext()) for cell in row] for row in table.iter("tr")]
        for table in root.iter("table")
    ]


def table(root: ElementTree.Element, *head: str) -> list[list[str]]:
    """The rows under a head that begins with those names."""
    return next(rows[1:] for rows in tables(root) if tuple(rows[0][: len(head)]) == head)


def number(cell: str) -> float:
    return float(cell.replace("\u00a0", ""))


def test_the_split_by_bench_is_the_reports() -> None:
    report = worked()
    rows = table(parsed(report), "bench", "vitola", "used", "in good")
    keys = (
        "used_standard_g", "in_good_g", "in_seconds_g", "rejects_g", "heavy_g", "cuttings_g",
        "stem_g", "sweepings_g", "unexplained_g",
    )  # fmt: skip
    assert [row[:2] for row in rows] == [["7", "toro"], ["8", "toro"], ["9", "corona"], ["all", ""]]
    for bench, vitola, *cells in rows:
        mine = [
            part
            for part in report.split
            if part.leaf_class not in COVERS
            and (bench == "all" or (str(part.bench), part.vitola) == (bench, vitola))
        ]
        sums = [math.fsum(getattr(part, key) for part in mine) for key in keys]
        del cells[5]  # twice the standard error
        assert list(map(number, cells)) == pytest.approx(sums, abs=0.51)
        # What it was split into adds up to what was used, but for the rounding to grams.
        assert sum(map(number, cells[1:])) == pytest.approx(number(cells[0]), abs=len(cells) / 2)


def test_the_split_by_vitola_and_leaf_is_the_reports() -> None:
    report = worked()
    rows = table(parsed(report), "vitola", "leaf", "used")
    assert {(row[0], row[1]) for row in rows} == {(p.vitola, p.leaf) for p in report.split}
    for vitola, leaf, used, *_ in rows:
        mine = [p.used_standard_g for p in report.split if (p.vitola, p.leaf) == (vitola, leaf)]
        assert number(used) == pytest.approx(math.fsum(mine), abs=0.51)


def test_counts_and_filler_for_1000_are_the_reports() -> None:
    report = worked()
    root = parsed(report)
    facts = {"".join(d[0].itertext()): "".join(d[1].itertext()) for d in root.iter("div")
             if len(d) == 2 and d[0].tag == "dt"}  # fmt: skip
    assert [facts[name] for name in ("seconds", "on hold", "for workers", "for the panel")] == [
        *("5", "25", "4", "2")
    ]
    counts = table(root, "bench", "pair", "vitola", "made")
    assert counts[0] == ["7", "P-07", "toro", "200", "180", "12", "0", "5", "25", "4", "0"]
    assert counts[-1][3:] == ["450", "390", "36", "0", "5", "25", "4", "2"]
    bench = report.benches[0]
    yields = table(root, "bench", "vitola", "passed first")[0]
    told = (bench.filler_kg_per_1000_good, bench.standard_kg_per_1000)
    pounds = (bench.filler_lb_per_1000_good, bench.standard_lb_per_1000)
    assert yields[4:8] == [f"{value:.2f}" for value in (*told, *pounds)]


def test_an_open_day_does_not_tell_what_leaf_on_the_benches_would_falsify() -> None:
    root = parsed(worked(close=False))
    for row in table(root, "bench", "vitola", "passed first"):
        assert (row[3], row[4], row[6]) == ("", "", "")
    assert "known at the close" in " ".join(root.itertext())


def test_piece_rates_are_counts_times_the_rate_and_decide_nothing() -> None:
    house = HOUSE._replace(
        vitolas=tuple(v._replace(piece_rate=60.0 if v.code == "toro" else None)
                      for v in HOUSE.vitolas)
    )  # fmt: skip
    report = worked()
    root = parsed(report, pay=pay_of_day(report, house), currency="USD")
    rows = {tuple(row[:3]): row[3:] for row in table(root, "pair", "roller", "vitola")}
    assert rows["P-07", "R-07", "toro"] == ["180", "60.00", "10.80", "12", "5"]
    assert rows["", "", "corona"] == ["130", "", "", "12", "0"]
    assert rows["all", "", ""] == ["390", "", "15.60", "36", "5"]
    said = " ".join(root.itertext())
    assert "USD. Nothing is decided here" in said
    assert "Without a rate" in said


def test_a_room_of_many_benches_shows_the_first_charts_and_says_the_rest() -> None:
    report = worked()
    many = tuple(REASONS[0].revised(bench=n) for n in range(1, CHARTS + 4))
    report = report.revised(standouts=many)
    assert to_chart(report) == [str(n) for n in range(1, CHARTS + 1)]
    said = " ".join(parsed(report).itertext())
    assert f"Of the first {CHARTS} the chart is shown" in said
    assert f"bench {CHARTS + 3}: passed first time" in said


HOSTILE = "<b onload='x'>&\"</td>"


@pytest.mark.parametrize("language", LANGUAGES)
def test_codes_that_look_like_markup_stay_text(language: Language) -> None:
    report = worked()
    bench = report.benches[0]
    runs = tuple(run.revised(vitola=HOSTILE) for run in bench.runs)
    hostile = bench.revised(
        bench=HOSTILE, vitola=HOSTILE, buncher=HOSTILE, runs=runs, rejected={HOSTILE: 3}
    )
    report = report.revised(
        benches=(hostile, *report.benches[1:]),
        leaf=tuple(row.revised(leaf=HOSTILE, leaf_class=HOSTILE) for row in report.leaf),
        split=tuple(p._replace(vitola=HOSTILE, leaf=HOSTILE) for p in report.split),
        standouts=(REASONS[3].revised(bench=HOSTILE, vitola=HOSTILE),),
        warnings=(HOSTILE,),
    )
    root = parsed(report, language, pay=pay_of_day(report, HOUSE))
    assert not list(root.iter("b"))
    assert " ".join(root.itertext()).count(HOSTILE) > 10
