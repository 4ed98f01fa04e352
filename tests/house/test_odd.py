"""What loads with a warning line. The bands are common practice, no source."""

from __future__ import annotations

import pytest

from tests.house.books import EXAMPLE, edited, odd


def test_nothing_is_odd_in_the_example() -> None:
    assert odd(EXAMPLE) == []


@pytest.mark.parametrize(
    ("usual", "unusual", "line"),
    [
        (
            'standard_moisture = "13 %"',
            'standard_moisture = "20 %"',
            "[house]: standard_moisture 20 % is unusual; 12 to 16 % is common",
        ),
        (
            'tolerance = "4 %"',
            'tolerance = "10 %"',
            "[house]: tolerance 10 % is unusual; 3 to 5 % is common",
        ),
        ("readings = 5", "readings = 1", "[house]: readings 1 is unusual; 3 to 10 is common"),
        (
            'moisture = "14.0 %"',
            'moisture = "22 %"',
            '[[leaf]] 2 "SE-20": moisture 22 % is unusual; 12 to 16 % is common',
        ),
        (
            'half_leaf = "2.0 g"',
            'half_leaf = "3 g"',
            '[[leaf]] 2 "SE-20": half_leaf of seco 3 g is unusual; 1.5 to 2.5 g is common',
        ),
        (
            'half_leaf = "3.4 g"',
            'half_leaf = "1 g"',
            (
                '[[leaf]] 5 "CA-3": half_leaf times pieces 2.205 lb per 1000 is unusual; '
                "6 to 10 lb per 1000 is common"
            ),
        ),
        (
            'moisture = "18 %"',
            'moisture = "10 %"',
            '[[leaf]] 4 "BI-7": moisture 10 % is unusual; 14 to 32 % is common',
        ),
        (
            '"LI-2" = 2',
            '"LI-2" = 8',
            '[[blend]] 1 "B4": ligero 50 % is unusual; 0 to 40 % is common',
        ),
        (
            "ring = 50",
            "ring = 80",
            '[[vitola]] 1 "robusto": ring 80 is unusual; 26 to 70 is common',
        ),
        (
            'length = "5 in"',
            'length = "60 mm"',
            '[[vitola]] 1 "robusto": length 60 mm is unusual; 85 to 240 mm is common',
        ),
        (
            'filler = "17.9 g"',
            'filler = "2 g"',
            "[[approved]] 1: filler 2 g is unusual; 4 to 32 g is common",
        ),
        (
            "quota = 300",
            "quota = 3000",
            '[[bench]] 1 "7": quota 3000 is unusual; 100 to 500 is common',
        ),
        (
            "quota = 300",
            "quota = 12000",
            '[[bench]] 1 "7": quota 12000 is unusual; 100 to 500 is common',
        ),
    ],
)
def test_what_is_possible_but_unusual(usual: str, unusual: str, line: str) -> None:
    assert f"h.toml: {line}" in odd(edited((usual, unusual)))


def test_the_ends_of_a_band_are_usual() -> None:
    assert odd(edited(("ring = 50", "ring = 70"), ('tolerance = "4 %"', 'tolerance = "3 %"'))) == []
