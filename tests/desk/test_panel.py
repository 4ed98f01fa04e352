"""The panel at several desks: what one adds the others judge by, and what a full disk does."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake, NotSaved, Recorded
from core.panel.session import missing
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


def test_a_session_names_the_house_book_its_cigars_were_made_by(
    desk: Desk, clock: HandClock
) -> None:
    first = desk.day.isoformat()
    clock.forward(hours=24)
    load(desk, HOUSE_TOML.replace('tolerance = "0.6 g"', 'tolerance = "0.5 g"'))
    clock.forward(hours=1)
    for named, house in (("", 2), (" book 1", 1), (f" libro {first}", 1), (f" book {desk.day}", 2)):
        told = desk.enter(f"panel open B1{named}", None)
        assert isinstance(told, Recorded), told
        assert f"house book {house}, against" in told.says
        desk.enter("panel T1 toro 7 6 8 7", None)
        sheet = desk.panel()
        assert sheet is not None
        assert sheet.session.house == house
    kept = desk.folder.year(desk.day.year).table("panel").all()
    assert [each["house"] for each in kept if each["kind"] == "score"] == [2, 1, 1, 2]


@pytest.mark.parametrize(
    ("named", "why"),
    [
        ("book 3", "there is no house book 3; the versions are 1 to 1"),
        ("book 0", "there is no house book 0"),
        ("book 2001-01-01", "no house book was in force on 2001-01-01; the first was loaded on"),
        ("book 2199-01-01", "2199-01-01 has not come yet"),
        ("book last", "expected the house book's version, or the day"),
        ("blind book", "expected the house book's version, or the day"),
    ],
)
def test_a_house_book_that_cannot_be_named_is_a_sentence(desk: Desk, named: str, why: str) -> None:
    for outcome in (
        desk.meaning(f"panel open B1 {named}", None),
        desk.enter(f"panel open B1 {named}", None),
    ):
        assert why in outcome.says  # type: ignore[union-attr]
    assert desk.panel() is None


def test_blind_and_book_stand_in_any_order_behind_the_sizes(desk: Desk) -> None:
    for line in (
        "panel open B1 toro,corona blind book 1",
        "panel open B1 toro corona book 1 blind",
    ):
        told = desk.enter(line, None)
        assert isinstance(told, Recorded)
        assert told.says.endswith("house book 1, against toro: codes A, B, blind")


def test_a_score_given_again_says_what_it_takes_the_place_of(desk: Desk) -> None:
    desk.enter("panel open B1", None)
    desk.enter("panel T1 toro 7 6 8 7", None)
    again = desk.meaning("panel t1 toro 7 5 - 8", None)
    assert again.says == "T1 scores toro: strength 7, balance 5, draw 8; before: balance 6, draw 7"
    told = desk.enter("panel t1 toro 7 5 - 8", None)
    assert isinstance(told, Recorded)
    assert told.says.endswith("before: balance 6, draw 7")


def test_what_is_not_scored_yet_is_told_under_the_codes(desk: Desk) -> None:
    desk.enter("panel open B1 toro,corona blind", None)
    desk.enter("panel T1 A 7 6 8 -", None)
    desk.enter("panel T2 A 7 6 8 7", None)
    desk.enter("panel T2 B 7 6 8 7", None)
    sheet = desk.panel()
    assert sheet is not None
    assert missing(sheet.session) == ("T1 A (draw)", "T1 B")


def test_a_scored_blind_session_is_not_buried_by_the_next(desk: Desk) -> None:
    desk.enter("panel open B1 blind", None)
    assert isinstance(desk.enter("panel open B1 blind", None), Recorded)
    desk.enter("panel T1 A 7 6 8 7", None)
    refused = desk.enter("panel open B1", None)
    assert isinstance(refused, Mistake)
    assert "panel reveal" in refused.says
    desk.enter("panel reveal", None)
    assert isinstance(desk.enter("panel open B1", None), Recorded)
