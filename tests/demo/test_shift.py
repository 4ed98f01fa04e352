"""A simulated day: its order, its physics, and that every line of it can be typed."""

from __future__ import annotations

import math

import pytest

from core.entry import requests as ask
from core.entry.faults import FAULTS as KNOWN_FAULTS
from core.entry.parse import parse
from core.house.model import HouseBook
from demo import habits, story
from demo.cards import Cards
from demo.shift import WORKING_DAYS, shift
from demo.today import Typed
from tests.demo.typing_it import typed

ORDINARY, LEAF_GONE, LAST = 3, next(iter(story.MISSING)), len(WORKING_DAYS) - 1


@pytest.fixture(scope="module")
def ordinary(house: HouseBook, cards: Cards) -> tuple[Typed, ...]:
    return shift(house, ORDINARY, cards)


def test_two_weeks_are_twelve_working_days_from_monday_to_monday() -> None:
    assert len(WORKING_DAYS) == 12
    assert [day.strftime("%A") for day in (WORKING_DAYS[0], WORKING_DAYS[-1])] == ["Monday"] * 2
    assert "Sunday" not in {day.strftime("%A") for day in WORKING_DAYS}


def test_the_same_seed_gives_the_same_lines_and_another_gives_others(
    house: HouseBook, cards: Cards, ordinary: tuple[Typed, ...]
) -> None:
    other = habits.HABITS._replace(seed="another")
    assert shift(house, ORDINARY, cards) == ordinary
    assert shift(house, ORDINARY, cards, other) != ordinary


def test_lines_come_in_the_order_of_the_clock_and_within_the_shift(
    ordinary: tuple[Typed, ...],
) -> None:
    clock = [line.at for line in ordinary]
    assert clock == sorted(clock)
    assert habits.MEASURED[0] <= clock[0]
    assert clock[-1] <= habits.CLOSED


@pytest.mark.parametrize("working_day", [0, *story.COUNTED, *story.FOR_PANEL, LEAF_GONE, LAST])
def test_every_line_can_be_typed_and_is_read_as_what_was_meant(
    house: HouseBook, days: list[tuple[Typed, ...]], working_day: int
) -> None:
    for line in days[working_day]:
        text, at = typed(line.request)
        assert parse(text, house, at) == ask.Parsed(line.request), text


def test_the_two_weeks_use_every_kind_of_line(days: list[tuple[Typed, ...]]) -> None:
    requests = [line.request for day in days for line in day]
    # The others are screens, who is at the terminal, and what the panel's own book keeps.
    others = (
        ask.Initials,
        ask.OpenBench,
        ask.Begin,
        ask.Reopen,
        ask.Show,
        ask.Chart,
        ask.Try,
        ask.Approve,
        ask.Panel,
    )
    assert {type(each) for each in requests} == set(ask.Request.__args__) - set(others)
    kinds = {each.kind for each in requests if isinstance(each, (ask.Count, ask.Leaf, ask.Scrap))}
    counts = {"made", "good", "rework", "second", "release", "workers", "panel"}
    assert kinds == counts | {"take", "back", "scrap", "stem"}


def test_each_filler_leaf_in_use_is_wetter_in_the_morning_than_at_noon_than_at_night(
    house: HouseBook, ordinary: tuple[Typed, ...]
) -> None:
    for leaf in house.blend["B4"].shares:
        moistures = [
            line.request.moisture
            for line in ordinary
            if isinstance(line.request, ask.Moisture) and line.request.leaf == leaf
        ]
        assert len(moistures) == 3
        assert moistures == sorted(moistures, reverse=True)
        # 12 to 16 % at bunching: common practice, no source.
        assert all(0.12 <= moisture <= 0.16 for moisture in moistures)


def test_readings_are_whole_divisions_of_the_bench_scale(
    house: HouseBook, ordinary: tuple[Typed, ...]
) -> None:
    division_g = house.house.scale_division_g
    for line in ordinary:
        if isinstance(line.request, ask.Check) and line.request.measure != "draw":
            for reading in line.request.readings:
                assert math.isclose(reading / division_g, round(reading / division_g))


@pytest.mark.parametrize("working_day", [ORDINARY, LEAF_GONE])
def test_every_bunch_of_a_bench_is_passed_or_failed_and_not_mended_by_the_days_end(
    house: HouseBook, cards: Cards, working_day: int
) -> None:
    lines = _without_undone(shift(house, working_day, cards))
    for bench in house.bench:
        n = dict.fromkeys(("made", "good", "rework", "second", "failed", "workers"), 0)
        for request in lines:
            if isinstance(request, ask.Count) and request.bench == bench and request.kind in n:
                n[request.kind] += request.n
            if isinstance(request, ask.Fail) and request.bench == bench:
                n["failed"] += sum(count for _, count in request.faults)
        assert n["made"] == n["good"] + n["second"] + n["failed"] - n["rework"]
        assert n["made"] > 100
        assert n["workers"] == habits.HABITS.workers


def test_no_bench_gives_back_more_of_a_leaf_than_it_took(house: HouseBook, cards: Cards) -> None:
    for working_day in range(len(WORKING_DAYS)):
        left: dict[tuple[str, str], float] = {}
        for line in shift(house, working_day, cards):
            if isinstance(line.request, ask.Leaf):
                way = 1 if line.request.kind == "take" else -1
                at = (line.request.bench, line.request.leaf)
                left[at] = left.get(at, 0.0) + way * line.request.grams
        assert all(grams > 0 for grams in left.values())


def test_faults_are_ones_the_entry_line_knows() -> None:
    assert {fault.code for fault in habits.FAULTS} <= {fault.code for fault in KNOWN_FAULTS}


def test_the_story_names_benches_leaf_vitolas_and_days_that_are_there(house: HouseBook) -> None:
    benches = {story.DRIFT.bench, *story.UNSTEADY}
    for asides in story.SET_ASIDE.values():
        benches |= {aside.request.bench for aside in asides}
    for tasted in story.FOR_PANEL.values():
        benches |= set(tasted)
    for lots in story.DELIVERIES.values():
        assert {lot.leaf for lot in lots} <= set(house.leaf)
    assert all(counted.leaf in house.filler for counted in story.COUNTED.values())
    for missing in story.MISSING.values():
        benches.add(missing.bench)
        assert missing.leaf in house.filler
    for change in story.CHANGES.values():
        benches.add(change.bench)
        assert change.vitola in house.vitola
        assert habits.STRETCHES[change.after].counted is not None
    for slip in story.SLIPS.values():
        benches |= {slip.bench, slip.typed_for}
        assert habits.STRETCHES[slip.after].counted is not None
    assert benches <= set(house.bench)
    days = {*story.MISSING, *story.CHANGES, *story.SLIPS, *story.REMARKS, story.DRIFT.since}
    days |= {*story.SET_ASIDE, *story.FOR_PANEL, *story.DELIVERIES, *story.COUNTED}
    assert max(days) < len(WORKING_DAYS)


def _without_undone(lines: tuple[Typed, ...]) -> list[ask.Request]:
    """Requests that stand: each undo takes its terminal's last."""
    standing: list[Typed] = []
    for line in lines:
        if isinstance(line.request, ask.Undo):
            last = max(i for i, each in enumerate(standing) if each.terminal == line.terminal)
            del standing[last]
        else:
            standing.append(line)
    return [line.request for line in standing]
