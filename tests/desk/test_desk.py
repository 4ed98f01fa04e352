"""The desk: lines in, outcomes out, on records that are really on the disk."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Go, Mistake, NotSaved, Question, Recorded
from core.problems import BadInput, StoreUnusable
from tests.desk.conftest import HOUSE_TOML, HandClock, load


def recorded(desk: Desk, line: str, at: str | None = None) -> Recorded:
    outcome = desk.enter(line, at)
    assert isinstance(outcome, Recorded), outcome
    return outcome


def refused(desk: Desk, line: str, at: str | None = None) -> str:
    entries = desk.report().entries
    outcome = desk.enter(line, at)
    assert isinstance(outcome, Mistake), outcome
    assert desk.report().entries == entries
    return outcome.says


def bench(desk: Desk, number: int | str) -> object:
    return next(row for row in desk.report().benches if row.bench == number)


def test_without_a_house_book_it_says_what_to_load(desk_at: Callable[..., Desk]) -> None:
    desk = desk_at()
    assert desk.house is None
    assert desk.board() == ()
    assert isinstance(desk.enter("7 15.3", None), Mistake)
    assert "house load" in desk.meaning("7", None).says
    with pytest.raises(BadInput, match="house load"):
        desk.card("7")


def test_a_check_is_judged_when_it_is_typed_and_when_it_is_saved(desk: Desk) -> None:
    # Bunch target: 10 g of filler and the binder on it, ± 0.6 g.
    target = desk.card("7").targets["bunch"].target_g
    line = f"7 {target:.1f} {target + 0.2:.1f} {target + 0.9:.1f}"
    assert "heavy" in desk.meaning(line, None).says
    outcome = recorded(desk, line)
    assert outcome.verdict is not None
    assert outcome.verdict.places == ("within", "within", "heavy")
    assert outcome.verdict.state == "out"
    assert "saved, entry 1" in outcome.says
    seen = desk.recent_checks("7")
    assert [check.id for check in seen] == [1]


def test_readings_on_a_card_are_safe_one_by_one_and_make_a_check(desk: Desk) -> None:
    for nth, reading in enumerate(("10.8", "10.9"), start=1):
        assert f"reading {nth} of 3" in recorded(desk, reading, at="7").says
    open_check = desk.open_check("7")
    assert open_check is not None
    assert open_check.readings == (10.8, 10.9)
    line = desk.bench_line("7")
    assert (line.open, line.checks, line.due) == ((2, 3), 0, None)
    closed = recorded(desk, "11.4 g", at="7")
    assert closed.says == (
        "saved, entry 3: bench 7, toro: first piece: check of 3 closed, mean 11.0 g, "
        "target 10.8 ± 0.6: mean within, but 1 of 3 heavy, unsteady"
    )
    assert desk.open_check("7") is None
    line = desk.bench_line("7")
    assert (line.open, line.checks, line.out) == (None, 1, 1)
    recorded(desk, "10.7", at="7")
    assert desk.bench_line("7").checks == 1


def test_a_blank_line_on_the_card_closes_the_open_check(desk: Desk) -> None:
    recorded(desk, "10.8", at="7")
    recorded(desk, "", at="7")
    assert desk.open_check("7") is None
    assert "no open check" in refused(desk, "", at="7")


def test_two_terminals_on_one_bench_each_keep_their_own_readings(
    desk: Desk, desk_at: Callable[..., Desk]
) -> None:
    other = desk_at("T2")
    recorded(desk, "10.8", at="7")
    recorded(other, "10.2", at="7")
    recorded(desk, "10.9", at="7")
    desk.follow()
    mine, theirs = desk.open_check("7"), other.open_check("7")
    assert mine is not None
    assert theirs is not None
    assert (mine.readings, theirs.readings) == ((10.8, 10.9), (10.2,))


def test_what_another_terminal_records_is_told_by_bench(
    desk: Desk, desk_at: Callable[..., Desk]
) -> None:
    other = desk_at("T2")
    desk.follow()
    assert desk.follow() is None
    recorded(other, "8 made 40")
    assert desk.follow() == frozenset({"8", ""}) or desk.bench_line("8").made == 40
    recorded(other, "8 made 2")
    assert desk.follow() == frozenset({"8"})
    assert desk.bench_line("8").made == 42


def test_a_weight_far_off_is_asked_about_once(desk: Desk) -> None:
    outcome = desk.enter("7 51.5", None)
    assert isinstance(outcome, Question)
    assert "over target" in outcome.says
    assert desk.report().entries == 0
    assert isinstance(desk.enter("7 51.5", None, sure=True), Recorded)
    assert isinstance(desk.enter("7 51.5 !", None), Recorded)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("7 made 5000", "quota of 300"),
        ("7 fail plugged 301", "quota of 300"),
        ("8 good 100000", "great many"),
        ("7 take LI-1 45000", "3 times the quota's 1200 g"),
        ("7 back LI-1 900", "more than the 450 g"),
        ("LI-1 1,4 %", "13.0 % before"),
        ("7 roll corona 25000", "quota of 25000"),
    ],
)
def test_a_figure_that_is_hardly_meant_is_asked_about(desk: Desk, line: str, why: str) -> None:
    recorded(desk, "7 take LI-1 450")
    outcome = desk.enter(line, None)
    assert isinstance(outcome, Question)
    assert why in outcome.says
    assert isinstance(desk.enter(line, None, sure=True), Recorded)


def test_ring_and_length_are_not_called_light_or_heavy(desk: Desk) -> None:
    assert desk.meaning("7 ring 50", None).says.endswith("thin")
    assert desk.meaning("7 length 160", None).says.endswith("long")


def test_a_reading_is_shown_with_the_decimals_it_was_typed_with(desk: Desk) -> None:
    assert "10.85 g" in desk.meaning("7 10.85", None).says
    assert "10.0 g" in desk.meaning("7 10", None).says


def test_before_closing_one_is_told_what_is_late_open_or_beyond(
    desk: Desk, clock: HandClock
) -> None:
    recorded(desk, "7 10.8 10.9")
    recorded(desk, "8 good 5")
    recorded(desk, "8 10.8 10.8")
    recorded(desk, "6.6", at="7-A")
    clock.forward(hours=2)
    says = desk.closing()
    assert "good 5 of 300" in says
    assert "weigh-in late at 7, 8" in says
    assert "check open at 7-A" in says
    assert "unexplained SE-1 -30 g, LI-1 -20 g" in says


def test_a_closed_day_is_opened_again_from_the_line(desk: Desk) -> None:
    recorded(desk, "7 made 50")
    desk.close_day()
    assert "bundle found" in recorded(desk, "reopen bundle found").says
    assert not desk.closed


def test_the_same_line_twice_is_two_entries(desk: Desk) -> None:
    recorded(desk, "7 made 50")
    recorded(desk, "7 made 50")
    assert desk.bench_line("7").made == 100


def test_counts_faults_and_leaf_reach_the_day(desk: Desk) -> None:
    for line in ("7 made 50", "7 good 45", "7 fail plugged 2 torn 1", "7 rework 1"):
        recorded(desk, line)
    for line in ("7 take LI-1 450", "7 back LI-1 60", "7 scrap 35"):
        recorded(desk, line)
    report = desk.report()
    row = next(b for b in report.benches if b.bench == 7)
    assert (row.made, row.good, row.rework) == (50, 45, 1)
    assert row.rejected == {"plugged": 2, "torn": 1}
    ligero = next(r for r in report.leaf if r.leaf == "LI-1")
    assert ligero.used_standard_g == pytest.approx(390)
    assert ligero.in_good_g == pytest.approx(10 * 0.4 * 45)


def test_leaf_the_blend_does_not_use_is_refused(desk: Desk) -> None:
    extra = HOUSE_TOML + '\n[[leaf]]\ncode = "VI-1"\nuse = "filler"\nclass = "viso"\n'
    load(desk, extra + 'moisture = "13 %"\nhalf_leaf = "2 g"\n')
    says = refused(desk, "7 take VI-1 100")
    assert "VI-1" in says
    assert "SE-1, LI-1" in says


def test_a_change_of_vitola_changes_the_card_and_makes_a_first_piece_due(desk: Desk) -> None:
    recorded(desk, "7 10.8 10.9 11.0")
    assert desk.bench_line("7").due is not None
    recorded(desk, "7 roll corona 200")
    line = desk.bench_line("7")
    assert (line.vitola, line.quota, line.due, line.last_mean) == ("corona", 200, None, None)
    assert desk.card("7").filler_g == pytest.approx(6.0)


def test_a_measured_moisture_changes_every_card(desk: Desk) -> None:
    """The card's grams follow (1 - M0)/(1 - M): 6 g of seco at 13 % are 6.1 at 14.5 %."""
    before = desk.card("7").classes[0].g
    recorded(desk, "SE-1 14.5%")
    after = desk.card("7").classes[0]
    assert (before, after.g) == (6.0, 6.1)
    assert after.exact_g == pytest.approx(6.0 * 0.87 / 0.855)
    assert desk.moisture_age("SE-1")[1] == desk.now()
    assert desk.moisture_age("LI-1")[1] is None


def test_undo_voids_this_terminals_last_and_says_what_it_was(
    desk: Desk, desk_at: Callable[..., Desk]
) -> None:
    recorded(desk, "7 made 50")
    recorded(desk_at("T2"), "7 made 9")
    assert "50 bunches made" in recorded(desk, "undo").says
    assert desk.bench_line("7").made == 9
    assert "no entry" in refused(desk, "undo")
    assert "already void" in refused(desk, "undo 1")
    assert "cannot be undone" in refused(desk, "undo 3")
    assert "no entry 44" in refused(desk, "undo 44")
    asked = desk.enter("undo 2 wrong bench", None)
    assert isinstance(asked, Question)
    assert "another terminal, T2" in asked.says
    assert recorded(desk, "undo 2 wrong bench!").says.endswith("wrong bench")


def test_the_log_tells_what_was_recorded_newest_first(desk: Desk, clock: HandClock) -> None:
    recorded(desk, "7 made 50")
    clock.forward(minutes=10)
    recorded(desk, "undo 1 wrong bench")
    undo, made = desk.log()
    assert (undo.id, made.id) == (2, 1)
    assert made.voided_by == 2
    assert made.void_reason == "wrong bench"
    assert (made.at.hour, made.at.minute, undo.at.minute) == (8, 0, 10)
    assert len(desk.log(limit=1)) == 1


def test_a_closed_day_takes_no_entries_until_it_is_opened_again(desk: Desk) -> None:
    recorded(desk, "7 made 50")
    assert isinstance(desk.close_day(), Recorded)
    assert desk.closed
    assert "closed" in refused(desk, "7 made 1")
    assert isinstance(desk.close_day(), Mistake)
    assert isinstance(desk.reopen(""), Mistake)
    assert isinstance(desk.reopen("bundle found"), Recorded)
    recorded(desk, "7 made 1")
    assert desk.bench_line("7").made == 51


def test_the_next_day_starts_with_what_was_rolled_and_measured(
    desk: Desk, clock: HandClock, desk_at: Callable[..., Desk]
) -> None:
    recorded(desk, "7 roll corona")
    recorded(desk, "SE-1 14.5%")
    clock.forward(days=1)
    desk.follow()
    assert desk.day == dt.date(2026, 5, 5)
    assert desk.report().entries == 0
    assert desk.bench_line("7").vitola == "corona"
    assert desk.moisture_age("SE-1")[0] == pytest.approx(0.145)
    recorded(desk, "8 made 5")
    assert desk_at("T2").bench_line("7").vitola == "corona"


def test_a_floor_left_open_over_midnight_writes_to_the_new_day(
    desk: Desk, clock: HandClock
) -> None:
    recorded(desk, "7 made 50")
    clock.forward(days=1)
    assert recorded(desk, "7 made 10").entry == 1
    assert desk.day == dt.date(2026, 5, 5)


def test_a_night_shift_belongs_to_the_day_it_began(desk: Desk, clock: HandClock) -> None:
    load(desk, HOUSE_TOML.replace("[house]", '[house]\nday_begins = "05:00"'))
    clock.forward(hours=18)  # two in the morning of the 5th
    desk.follow()
    assert desk.day == dt.date(2026, 5, 4)


def test_a_question_as_of_a_time_leaves_out_what_came_later(
    desk: Desk, clock: HandClock, desk_at: Callable[..., Desk]
) -> None:
    recorded(desk, "SE-1 14.0%")
    clock.forward(hours=2)
    recorded(desk, "SE-1 12.0%")
    clock.forward(hours=-1)
    assert desk_at(as_of=True).moisture_age("SE-1")[0] == pytest.approx(0.14)
    assert desk_at().moisture_age("SE-1")[0] == pytest.approx(0.12)


def test_a_new_house_book_is_followed_and_the_old_one_still_judges_its_entries(
    desk: Desk, desk_at: Callable[..., Desk]
) -> None:
    recorded(desk, "7 good 10")
    other = desk_at("T2")
    load(other, HOUSE_TOML.replace('filler = "10.0 g"', 'filler = "12.0 g"'))
    assert "" in (desk.follow() or ())
    assert desk.card("7").filler_g == pytest.approx(12.0)
    recorded(desk, "7 good 10")
    seco = next(r for r in desk.report().leaf if r.leaf == "SE-1")
    assert seco.in_good_g == pytest.approx(0.6 * (10 * 10 + 10 * 12))


def test_a_disk_that_will_not_take_it_leaves_the_line_and_a_retry_is_one_entry(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = desk.folder.day(desk.day)
    really = type(book).append

    def full(*_args: object, **_more: object) -> None:
        raise StoreUnusable("the disk is full")

    monkeypatch.setattr(type(book), "append", full)
    outcome = desk.enter("7 made 50", None)
    assert isinstance(outcome, NotSaved)
    assert (outcome.line, outcome.says) == ("7 made 50", "the disk is full")
    monkeypatch.setattr(type(book), "append", really)
    recorded(desk, "7 made 50")
    assert desk.bench_line("7").made == 50


def test_screens_and_cards_are_places_to_go(desk: Desk) -> None:
    assert desk.enter("7", None) == Go("card", "7")
    assert desk.enter("/8", "7") == Go("card", "8")
    assert desk.enter("day", "7") == Go("day", "7")
    assert desk.enter("only toro", None) == Go("only", None, "toro")


def test_what_was_recorded_is_there_for_the_next_process(
    desk: Desk, desk_at: Callable[..., Desk], tmp_path: Path
) -> None:
    recorded(desk, "7 made 50")
    assert (tmp_path / "data" / "days" / "2026-05-04.jsonl").exists()
    assert desk_at("T2").bench_line("7").made == 50


@pytest.mark.parametrize("line", ["7 made 50000", "7 21", "7 take SE-1 90000"])
def test_what_would_be_asked_about_says_so_before_enter(desk: Desk, line: str) -> None:
    assert desk.meaning(line, None).says.endswith("(asks first)")
    assert isinstance(desk.enter(line, None), Question)
    assert "asks first" not in desk.meaning(line + "!", None).says
    assert isinstance(desk.enter(line + "!", None), Recorded)


def test_what_is_usual_is_asked_about_neither_before_nor_after(desk: Desk) -> None:
    assert "asks first" not in desk.meaning("7 made 50", None).says
    assert isinstance(desk.enter("7 made 50", None), Recorded)
