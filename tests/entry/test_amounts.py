"""Numbers and units as people and scales type them."""

from __future__ import annotations

import pytest

from core.entry import requests as ask
from tests.entry.room import asked


def reading(typed: str) -> float:
    request = asked(typed, at="7")
    assert isinstance(request, ask.Reading)
    assert request.bench == "7"
    return request.reading


@pytest.mark.parametrize(
    "typed",
    [
        "15.31", "15,31", "+15.31", "015.31", "15.31g", "15.31 g", "15.31 G", "15,31gr",
        "15.31 gramos", "15310mg", "15310 mg", "0.01531kg", "0,01531 kilos", "  15.31 g  ",
    ],
)  # fmt: skip
def test_one_weight_many_ways(typed: str) -> None:
    assert reading(typed) == 15.31


# Exact by definition: NIST SP 811, appendix B.8.
@pytest.mark.parametrize(
    ("typed", "grams"),
    [
        ("1lb", 453.59237), ("2 lbs", 907.18474), ("1 libra", 453.59237),
        ("1oz", 28.349523125), ("0.55oz", 15.59223771875), (".5 onzas", 14.1747615625),
        ("1.2kg", 1200.0), ("100kg", 100000.0), ("3mg", 0.003),
    ],
)  # fmt: skip
def test_units_of_weight_are_exact(typed: str, grams: float) -> None:
    assert reading(typed) == grams


@pytest.mark.parametrize(
    "typed", ["152.4", "152.4mm", "15.24 cm", "6in", "6 in", '6"', "6 pulgadas", "6 pulg"]
)
def test_one_length_many_ways(typed: str) -> None:
    assert asked(f"7 length {typed}") == ask.Check("7", "length", (152.4,))


def test_a_unit_belongs_to_the_number_before_it() -> None:
    assert asked("7 15.3 g 15.6 15.4g 0.5 oz") == ask.Check(
        "7", "bunch", (15.3, 15.6, 15.4, 14.1747615625)
    )
    assert asked("7 bundle 50 1.9 lb") == ask.Check("7", "bundle", (861.825503,), 50)
    assert asked("7 take LI-2 1.2 kg") == ask.Leaf("7", "take", "LI-2", 1200.0)
    assert asked("7 scrap 0.035kg") == ask.Scrap("7", 35.0)
    assert asked("7 draw 62mmH2O 60 mmH2O") == ask.Check("7", "draw", (62.0, 60.0), unit="mmH2O")


@pytest.mark.parametrize(
    ("typed", "fraction"),
    [("14.2%", 0.142), ("14,2 %", 0.142), ("+14%", 0.14), ("0.1%", 0.001), ("59.9%", 0.599)],
)
def test_moisture_is_a_fraction(typed: str, fraction: float) -> None:
    assert asked(f"LI-2 {typed}") == ask.Moisture("LI-2", fraction)


def test_as_many_readings_as_a_line_may_hold() -> None:
    assert asked("7" + " 9" * 100) == ask.Check("7", "bunch", (9.0,) * 100)


@pytest.mark.parametrize(("typed", "n"), [("1", 1), ("050", 50), ("100000", 100_000)])
def test_counts_are_whole(typed: str, n: int) -> None:
    assert asked(f"7 made {typed}") == ask.Count("7", "made", n)
