"""The benches that stand out, and the odds by which they do."""

from __future__ import annotations

import random

import pytest
from scipy.stats import binom
from scipy.stats import t as student

from core.day.report import StandOut
from core.day.standouts import BY_CHANCE, as_few
from core.house.model import Bench
from tests.day.adding import told
from tests.day.book import HOUSE, Writer

BENCHES = tuple(str(n) for n in range(1, 11))
ROOM = HOUSE._replace(
    benches=tuple(Bench(number=n, blend="B1", vitola="toro") for n in BENCHES), approved=()
)


def room(*, without: str = "") -> Writer:
    """Ten benches of 200 toros, 190 of them good, on target, with leaf for just those made."""
    day = Writer(ROOM)
    for bench in BENCHES:
        day("made", bench, n=200)
        day("good", bench, n=190)
        day("fail", bench, faults={"torn": 10})
        day("take", bench, leaf="SE-1", grams=1200.0, moisture=0.13)
        day("take", bench, leaf="LI-1", grams=800.0, moisture=0.13)
        if bench != without:
            for off in (-0.1, 0.0, 0.1, 0.0, -0.1, 0.1):
                day.check(12.0 + off, 12.0 + off, bench=bench)
    return day


def found(day: Writer, *, close: bool = True) -> tuple[StandOut, ...]:
    if close:
        day("close", "")
    return told(day).standouts


def test_a_room_that_works_alike_has_none() -> None:
    assert found(room()) == ()


def test_few_passed_first_time() -> None:
    """Bench 4 rejects 40 more: 190 of 240 pass, of the house's 1900 of 2040."""
    day = room()
    day("fail", "4", faults={"plugged": 40})
    (one,) = found(day, close=False)
    assert (one.bench, one.reason, one.n) == (4, "first_pass", 240)
    assert one.value == pytest.approx(190 / 240)
    assert one.against == pytest.approx(1900 / 2040)
    assert one.tells == pytest.approx(3 * (1900 / 2040 * 140 / 2040 / 240) ** 0.5)


@pytest.mark.parametrize(("passed", "n", "share"), [(40, 50, 0.95), (0, 3, 0.5), (230, 300, 0.9)])
def test_the_binomial_tail(passed: int, n: int, share: float) -> None:
    """SciPy's binomial distribution."""
    assert as_few(passed, n, share) == pytest.approx(float(binom.cdf(passed, n, share)), rel=1e-6)


def test_a_few_pieces_tell_nothing() -> None:
    """One of two rejected, at a bench that has just begun: P is about 0.1, not 0.00135."""
    day = Writer(ROOM)
    day("good", "1", n=950)
    day("fail", "1", faults={"torn": 50})
    day("good", "2", n=1)
    day("fail", "2", faults={"torn": 1})
    assert found(day, close=False) == ()


@pytest.mark.parametrize(("off_g", "reason"), [(0.4, "heavy"), (-0.4, "light")])
def test_bunches_off_target(off_g: float, reason: str) -> None:
    """Six check means spread by 0.09 g: three sigma by Student's t with 5 degrees."""
    day = room(without="6")
    for near in (-0.1, 0.0, 0.1, 0.0, -0.1, 0.1):
        day.check(12.0 + off_g + near, 12.0 + off_g + near, bench="6")
    (one,) = found(day, close=False)
    assert (one.bench, one.reason, one.vitola, one.n) == (6, reason, "toro", 6)
    assert one.value == pytest.approx(off_g)
    error = 0.0894427 / 6**0.5
    assert one.tells == pytest.approx(float(student.ppf(1 - BY_CHANCE, 5)) * error, rel=1e-5)


def test_two_checks_cannot_tell_that_a_bench_is_heavy() -> None:
    day = room(without="6")
    day.check(12.3, 12.3, bench="6")
    day.check(12.4, 12.4, bench="6")
    assert found(day, close=False) == ()


def test_no_bench_packs_nearer_than_half_a_division() -> None:
    day = room(without="6")
    for _ in range(4):
        day.check(12.0, 12.1, 12.0, bench="6")  # 0.033 g over, every time
    assert found(day, close=False) == ()


def test_leaf_that_nothing_explains_is_told_when_the_day_is_closed() -> None:
    """Bench 3 took 60 g more for 190 good cigars: 0.316 kg for 1,000."""
    day = room()
    day("take", "3", leaf="SE-1", grams=60.0, moisture=0.13)
    assert found(day, close=False) == ()
    (one,) = found(day)
    assert (one.bench, one.reason, one.n) == (3, "leaf_over", 190)
    assert one.value == pytest.approx(60 / 190)
    assert one.against == pytest.approx(10.0)


def test_too_little_leaf_is_told_too() -> None:
    day = room()
    day("back", "3", leaf="SE-1", grams=100.0, moisture=0.13)
    (one,) = found(day)
    assert one.reason == "leaf_under"
    assert one.value == pytest.approx(-100 / 190)


def test_cuttings_explain_it() -> None:
    day = room()
    day("take", "3", leaf="SE-1", grams=60.0, moisture=0.13)
    day("scrap", "3", leaf="SE-1", grams=60.0, moisture=0.13)
    assert found(day) == ()


def test_a_bench_without_a_check_all_day() -> None:
    day = room(without="8")
    assert found(day, close=False) == ()
    (one,) = found(day)
    assert (one.bench, one.reason, one.n, one.tells) == (8, "unchecked", 200, None)


def test_the_furthest_stands_first() -> None:
    day = room(without="8")
    day("take", "3", leaf="SE-1", grams=300.0, moisture=0.13)
    day("take", "5", leaf="SE-1", grams=90.0, moisture=0.13)
    assert [(one.bench, one.reason) for one in found(day)] == [
        (3, "leaf_over"),
        (5, "leaf_over"),
        (8, "unchecked"),
    ]


def test_chance_alone_names_few() -> None:
    """
    200 days of ten benches, all alike: 2,000 benches at 1 in 370 (either side) name about 5
    by weight, and by 1 in 740 about 3 by what passed; three standard errors on top.
    """
    dice = random.Random(9)
    named = {"heavy": 0, "light": 0, "first_pass": 0}
    for _ in range(200):
        day = Writer(ROOM)
        for bench in BENCHES:
            rejected = sum(dice.random() < 0.06 for _ in range(200))
            day("good", bench, n=200 - rejected)
            day("fail", bench, faults={"torn": rejected})
            for _ in range(6):
                day.check(12.0 + dice.gauss(0, 0.2), 12.0 + dice.gauss(0, 0.2), bench=bench)
        for one in found(day, close=False):
            named[one.reason] += 1
    assert named["heavy"] + named["light"] <= 5.4 + 3 * 5.4**0.5
    assert named["first_pass"] <= 2.7 + 3 * 2.7**0.5
