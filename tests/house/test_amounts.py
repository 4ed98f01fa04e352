"""Amounts with units, against the exact factors and Pint's own registry."""

from __future__ import annotations

import sys
from subprocess import run

import pint
import pytest
import scipy.constants as published
from hypothesis import given, settings
from hypothesis import strategies as st

from core.house.amounts import (
    COVERING,
    DENSITY,
    LENGTH,
    MEASURED,
    PRESSURE,
    SHARE,
    TIME,
    WEIGHT,
    Kind,
    Unreadable,
    parse,
)
from core.house.written import Term, terms
from tests.house.books import DEMO

KINDS = (*MEASURED, SHARE)


@pytest.mark.parametrize(
    ("written", "kind", "worth"),
    [
        # Inch, pound, ounce, millimetre of water: exact factors of NIST SP 811, appendix B.8.
        ("1 in", LENGTH, 25.4),
        ("6 in", LENGTH, 152.4),
        ("1 lb", WEIGHT, 453.59237),
        ("1 oz", WEIGHT, 28.349523125),
        ("9.80665 Pa", PRESSURE, 1.0),
        ("1 foot", LENGTH, 304.8),
        # Per thousand pieces: common practice.
        ("34.5 lb/1000", WEIGHT, 34.5 * 453.59237 / 1000),
        ("34.5 lb per 1,000", WEIGHT, 34.5 * 453.59237 / 1000),
        ("16 kg/1000 pieces", WEIGHT, 16.0),
        # Metric, of which 1 mg/mm2 = 1000 g/m2 and 1 kg/m3 = 0.001 g/cm3.
        ("127 mm", LENGTH, 127.0),
        ("12,7 cm", LENGTH, 127.0),
        ("0,35 mm", LENGTH, 0.35),
        ("60 g/m^2", COVERING, 60.0),
        ("60 g/m²", COVERING, 60.0),
        ("60 g/m2", COVERING, 60.0),
        ("60 g m^-2", COVERING, 60.0),
        ("6 mg/cm**2", COVERING, 60.0),
        ("0.30 g/cm^3", DENSITY, 0.30),
        ("300 kg/m^3", DENSITY, 0.30),
        ("0.3 g per cm^3", DENSITY, 0.30),
        ("60 min", TIME, 60.0),
        ("1 h", TIME, 60.0),
        ("90 s", TIME, 1.5),
        ("40 mmH2O", PRESSURE, 40.0),
        ("4 cmH2O", PRESSURE, 40.0),
        ("13 %", SHARE, 0.13),
        ("13%", SHARE, 0.13),
        ("14,2 %", SHARE, 0.142),
        # Sizes are named in fractions of an inch: common practice.
        ("5 1/2 in", LENGTH, 139.7),
        ("5/8 in", LENGTH, 15.875),
        ("1.5e2 mm", LENGTH, 150.0),
        (" .5  mm ", LENGTH, 0.5),
        ("5 μm", LENGTH, 0.005),
    ],
)
def test_an_amount_in_the_models_unit(written: str, kind: Kind, worth: float) -> None:
    assert parse(written, kind) == pytest.approx(worth, rel=1e-15)


@pytest.mark.parametrize(
    ("bare", "kind", "worth"),
    [(127, LENGTH, 127.0), (13, SHARE, 0.13), (14.2, SHARE, 0.142), ("14.2", SHARE, 0.142)],
)
def test_a_bare_number_is_in_the_kinds_own_unit(bare: object, kind: Kind, worth: float) -> None:
    assert parse(bare, kind) == worth


def test_the_factors_are_those_scipy_publishes() -> None:
    assert parse("1 in", LENGTH) == published.inch * 1000
    assert parse("1 lb", WEIGHT) == pytest.approx(published.lb * 1000, rel=1e-15)
    assert parse("1 oz", WEIGHT) == pytest.approx(published.oz * 1000, rel=1e-15)


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


@pytest.mark.parametrize(
    ("kind", "unit"), [(kind, unit) for kind in MEASURED for unit in kind.usual]
)
def test_units_read_without_pint_are_worth_what_pint_says(
    kind: Kind, unit: str, registry: pint.UnitRegistry[float]
) -> None:
    by_pint = registry.Quantity(1.0, unit).to(kind.unit).magnitude
    assert float(kind.usual[unit]) == pytest.approx(by_pint, rel=1e-14)


@pytest.mark.parametrize(
    ("written", "kind", "says"),
    [
        ("5 in", WEIGHT, '"5 in" is a length; write a weight like "15.5 g"'),
        ("5 g", LENGTH, '"5 g" is a weight; write a length like "127 mm" or "5 in"'),
        ("5 %", LENGTH, '"5 %" is a percentage; write a length'),
        ("5 g/1000", LENGTH, '"5 g/1000" has no unit that is known'),
        ("5 K", LENGTH, '"5 K" is something else; write a length'),
        ("13 g", SHARE, '"13 g" is not a percentage; write a percentage like "13 %"'),
        ("10 degree", SHARE, "is not a percentage"),
        ("5 inc", LENGTH, '"5 inc" has no unit that is known (capitals count)'),
        ("5 IN", LENGTH, "(capitals count)"),
        ("20 degC", LENGTH, "is something else"),
        ("5 m degC", LENGTH, "is something else"),
        ("5 ** 99999999 in", LENGTH, "has no unit that is known"),
        ("5 in ** 99999999", LENGTH, "has no unit that is known"),
        ("5 in^99999999", LENGTH, "has no unit that is known"),
        ("5 in*in*in*in*in", LENGTH, "has no unit that is known"),
        ("5 (in)", LENGTH, "has no unit that is known"),
        ("5 __import__", LENGTH, "has no unit that is known"),
        ("5 nan", LENGTH, "has no unit that is known"),
        ("1e999 mm", LENGTH, "has no unit that is known"),
        ("1e99 m", LENGTH, 1e102),
        ("in", LENGTH, "is not an amount"),
        ("five in", LENGTH, "is not an amount"),
        ("", LENGTH, '"" is not an amount; write a length like "127 mm" or "5 in"'),
        ("nan mm", LENGTH, "is not an amount"),
        ("5 " + "m" * 99, LENGTH, "is not an amount"),
        ("5½ in", LENGTH, "has no unit that is known"),
        ("5 1/0 in", LENGTH, "divides by zero"),
        ("1,250 g", WEIGHT, '"1,250 g" can mean 1.250 or 1250; write a weight'),
        ("0,250 g", WEIGHT, 0.25),
        ("5\n in", LENGTH, 127.0),
        ("5 in\x1b[2J", LENGTH, r'"5 in\x1b[2J" has no unit that is known'),
        (True, LENGTH, 'must be a length such as "127 mm" or "5 in", not true'),
        ([5], LENGTH, "not a list"),
        ({}, LENGTH, "not a table"),
        (float("nan"), LENGTH, "not nan"),
        (float("inf"), LENGTH, "not inf"),
        pytest.param(10**5000, LENGTH, "not a number beyond 10^15", id="long integer"),
    ],
)
def test_what_is_no_amount_is_told(written: object, kind: Kind, says: str | float) -> None:
    found = parse(written, kind)
    if isinstance(found, Unreadable):
        assert isinstance(says, str)
        assert says in found.says
    else:
        assert found == says


def test_a_units_names_and_powers() -> None:
    assert terms("kg m / s^2") == (Term("kg", 1), Term("m", 1), Term("s", -2))
    assert terms("mmH2O") == (Term("mmH2O", 1),)
    assert terms("m^12") == ()


@settings(deadline=None, max_examples=200)
@given(
    text=st.text(max_size=70)
    | st.from_regex(r"[0-9]{1,3}([.,][0-9]{1,3})? ?[a-zA-Zµ%]{1,6}([/*^ ][a-z0-9]{1,4}){0,4}"),
    kind=st.sampled_from(KINDS),
)
def test_no_text_raises(text: str, kind: Kind) -> None:
    assert isinstance(parse(text, kind), float | Unreadable)


def test_a_book_in_usual_units_is_read_without_pint() -> None:
    code = (
        "import sys; from core.house.read import read_house;"
        f"assert read_house(open({str(DEMO)!r}, 'rb').read(), 'demo').house;"
        "sys.exit('pint' in sys.modules)"
    )
    assert run([sys.executable, "-c", code], check=False, cwd=DEMO.parents[1]).returncode == 0
