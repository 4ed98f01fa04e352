"""The panel at several desks: what one adds the others judge by, and what a full disk does."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake, NotSaved, Recorded
from core.problems import StoreUnusable
from core.records.book import Book
from tests.desk.conftest import HOUSE_TOML, HandClock, load


def test_two_terminals_score_one_session(desk: Desk, desk_at: Callable[..., Desk]) -> None:
    other = desk_at("T2")
    assert isinstance(desk.enter("panel open B1", None), Recorded)
    assert isinstance(other.enter("panel T1 toro 7 6 8 7", None), Recorded)
    assert isinstance(desk.enter("panel T2 toro 7 6 8 7", None), Recorded)
    for each in (desk, other):
        sheet = each.panel()
        assert sheet is not None
        assert sheet.session.tasters == ("T1", "T2")


def test_what_is_added_elsewhere_is_news_once(desk: Desk, desk_at: Callable[..., Desk]) -> None:
    other = desk_at("T2")
    desk.enter("panel open B1", None)
    assert desk.panel() is not None
    desk.follow()
    other.enter("panel T1 toro 7 6 8 7", None)
    assert desk.follow() is not None
    assert desk.follow() is None


def test_a_reveal_at_one_desk_ends_the_scores_at_another(
    desk: Desk, desk_at: Callable[..., Desk]
) -> None:
    other = desk_at("T2")
    desk.enter("panel open B1 blind", None)
    desk.enter("panel T1 A 7 6 8 7", None)
    assert other.meaning("panel T2 A 7 6 8 7", None).ok
    desk.enter("panel reveal", None)
    outcome = other.enter("panel T2 A 7 6 8 7", None)
    assert isinstance(outcome, Mistake)
    assert "not be blind" in outcome.says


def test_what_enter_would_do_is_told_and_nothing_kept(desk: Desk) -> None:
    desk.enter("panel open B1", None)
    told = desk.meaning("panel T1 toro 7,5 6 - 7", None)
    assert (told.ok, told.says) == (True, "T1 scores toro: strength 7.5, balance 6, draw 7")
    wrong = desk.meaning("panel T1 toro 7 six 8 7", None)
    assert (wrong.ok, wrong.at) == (False, len("panel T1 toro 7 "))
    sheet = desk.panel()
    assert sheet is not None
    assert not sheet.session.scores


def test_the_house_book_smoked_stays_with_what_follows(desk: Desk, clock: HandClock) -> None:
    desk.enter("panel open B1", None)
    clock.forward(hours=1)
    load(desk, HOUSE_TOML.replace('tolerance = "0.6 g"', 'tolerance = "0.5 g"'))
    desk.enter("panel note dry", None)
    sheet = desk.panel()
    assert desk.house_version == 2
    assert sheet is not None
    assert [note.house for note in sheet.session.notes] == [1]


def test_a_score_that_was_written_and_not_confirmed_is_not_kept_twice(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk.enter("panel open B1", None)
    append = Book.append

    def unconfirmed(self: Book, *args: object, **more: object) -> object:
        append(self, *args, **more)  # type: ignore[arg-type]
        raise StoreUnusable("the disk did not confirm it")

    monkeypatch.setattr(Book, "append", unconfirmed)
    assert isinstance(desk.enter("panel T1 toro 7 6 8 7", None), NotSaved)
    monkeypatch.setattr(Book, "append", append)
    assert isinstance(desk.enter("panel T1 toro 7 6 8 7", None), Recorded)
    assert len(desk.folder.year(desk.day.year).table("panel")) == 2
