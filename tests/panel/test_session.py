"""What is typed for the panel, the documents it becomes, and what they add up to."""

from __future__ import annotations

from typing import Any

import pytest

from core.entry.requests import Unread
from core.panel.compose import composed
from core.panel.friedman import friedman
from core.panel.judge import Judged, fewest, judged
from core.panel.line import read
from core.panel.session import FORMAT, Kept, Session, sessions
from core.problems import BadInput, StoreUnusable
from tests.floor.hall import small_house

HOUSE = small_house()
KEPT: Kept = {
    "format": FORMAT,
    "at": "2026-05-04T15:00:00.000Z",
    "offset": 0,
    "event": "e1",
    "terminal": "T1",
    "who": None,
    "house": 1,
}


class Sitting:
    """Lines typed one after the other, as the year's book would keep them."""

    def __init__(self, *lines: str) -> None:
        self.documents: list[tuple[int, Any]] = []
        for line in lines:
            self.type(line)

    def type(self, line: str) -> None:
        request = read(line)
        assert not isinstance(request, Unread), request
        number = len(self.documents) + 1
        newest = self.session if self.documents else None
        self.documents.append((number, composed(request, newest, HOUSE, KEPT)))

    @property
    def session(self) -> Session:
        return sessions(self.documents)[-1]

    def trait(self, name: str) -> Judged:
        return next(each for each in judged(self.session) if each.trait == name)


def scores(*rows: tuple[str, int, int]) -> list[str]:
    """Lines by taster, toro's strength and corona's; the other traits all 5."""
    lines = []
    for taster, toro, corona in rows:
        lines += [f"{taster} toro {toro} 5 5 5", f"{taster} corona {corona} 5 5 5"]
    return lines


@pytest.mark.parametrize(
    ("line", "says", "at"),
    [
        ("", "expected open BLEND", 0),
        ("open", "blend's code", 0),
        ("Ana toro 7 6 8 7", "never a name", 0),
        ("T1 toro", "its scores", 3),
        ("T1 toro 7 6 11 7", "from 0 to 10", 12),
        ("T1 toro 7 6 x 7", "from 0 to 10", 12),
        ("reveal all", "nothing after", 7),
        ("note", "text of the note", 4),
    ],
)
def test_what_cannot_be_read_is_told_with_its_place(line: str, says: str, at: int) -> None:
    found = read(line)
    assert isinstance(found, Unread)
    assert says in found.says
    assert found.at == at


@pytest.mark.parametrize(
    ("english", "spanish"),
    [
        ("open B1 toro,corona blind", "abre B1 toro corona ciega"),
        ("reveal", "revela"),
        ("note too dry", "nota too dry"),
        ("T1 A 7.5 6 - 7", "t1 A 7,5 6 - 7"),
    ],
)
def test_spanish_twins(english: str, spanish: str) -> None:
    assert read(english) == read(spanish)
    assert not isinstance(read(english), Unread)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (["T1 toro 7 6 8 7"], "no session"),
        (["open B9"], 'no blend "B9"'),
        (["open B1 toro,lancero"], 'no vitola "lancero"'),
        (["open B1 toro"], "2 to 26 vitolas"),
        (["open B1 toro,toro"], "named twice"),
        (["open B1 toro,corona", "T1 gordo 7 6 8 7"], "no code in this session"),
        (["open B1 toro,corona", "T1 toro 7 6 8"], "4 scores, strength, balance, burn, draw"),
        (["open B1 toro,corona", "T1 toro - - - -"], "one trait at least"),
        (["open B1 toro,corona", "reveal"], "not blind"),
        (["open B1 toro,corona blind", "reveal"], "nothing is scored"),
        (["open B1 toro,corona blind", "T1 toro 7 6 8 7"], "no code in this session"),
        (["open B1 toro,corona blind", "T1 A 7 6 8 7", "reveal", "T1 B 7 6 8 7"], "not be blind"),
    ],
)
def test_what_the_session_cannot_take(lines: list[str], says: str) -> None:
    sitting = Sitting(*lines[:-1])
    with pytest.raises(BadInput, match=says):
        sitting.type(lines[-1])


def test_without_vitolas_it_is_about_those_the_blend_is_rolled_in() -> None:
    assert set(Sitting("open b1").session.vitolas) == {"toro", "corona"}


def test_a_changed_score_counts_in_its_place_and_the_others_stay() -> None:
    sitting = Sitting("open B1 toro,corona", "T1 toro 7 6 8 7", "T1 toro - - 4 -")
    assert len(sitting.documents) == 3
    of_toro = {t: s for (_, vitola, t), s in sitting.session.scores.items() if vitola == "toro"}
    assert of_toro == {"strength": 7, "balance": 6, "burn": 4, "draw": 7}


def test_two_tasters_are_shown_and_not_judged() -> None:
    sitting = Sitting("open B1 toro,corona", *scores(("T1", 7, 3), ("T2", 8, 4)))
    found = sitting.trait("strength")
    assert (found.verdict, found.test) == ("too few", None)
    assert [size.mean for size in found.sizes] == [7.5, 3.5]
    assert found.sizes[1].difference is not None
    assert found.sizes[1].difference.mean == -4


def test_who_scored_some_sizes_only_is_left_out_and_named() -> None:
    sitting = Sitting(
        "open B1 toro,corona", *scores(("T1", 7, 3), ("T2", 8, 4), ("T3", 7, 4)), "T4 toro 1 5 5 5"
    )
    found = sitting.trait("strength")
    assert (found.tasters, found.left_out) == (("T1", "T2", "T3"), ("T4",))
    assert found.sizes[0].mean == pytest.approx(22 / 3)


def test_a_size_that_all_find_weaker_stands_apart() -> None:
    rows = [(f"T{i}", 7 + i % 2, 4 + i % 3) for i in range(1, 8)]
    sitting = Sitting("open B1 toro,corona", *scores(*rows))
    assert (sitting.trait("strength").verdict, sitting.trait("strength").apart) == (
        "apart",
        ("corona",),
    )
    assert sitting.trait("burn").verdict == "no difference"


def test_codes_fall_by_chance_and_alike_for_the_same_event() -> None:
    orders = set()
    for i in range(20):
        request = read("open B1 toro,corona blind")
        assert not isinstance(request, Unread)
        kept: Kept = {**KEPT, "event": f"e{i}"}
        document = composed(request, None, HOUSE, kept)
        assert document == composed(request, None, HOUSE, kept)
        assert document["kind"] == "open"
        assert list(document["codes"]) == ["A", "B"]
        orders.add(tuple(document["codes"].values()))
    assert orders == {("toro", "corona"), ("corona", "toro")}


def test_a_blind_session_says_nothing_of_its_vitolas_before_the_codes_are_told() -> None:
    sitting = Sitting("open B1 toro,corona blind")
    for i in range(1, 6):
        sitting.type(f"T{i} A 8 5 5 5")
        sitting.type(f"T{i} B 4 5 5 {i}")
    hidden = sitting.trait("strength")
    assert [(size.vitola, size.mean) for size in hidden.sizes] == [("A", 8), ("B", 4)]
    assert all(size.difference is None for size in hidden.sizes)
    assert (hidden.verdict, hidden.test) == ("hidden", None)
    sitting.type("reveal")
    told = sitting.trait("strength")
    means = {size.vitola: size.mean for size in told.sizes}
    assert {code: means[vitola] for code, vitola in sitting.session.codes.items()} == {
        "A": 8,
        "B": 4,
    }


def test_notes_keep_the_house_book_version() -> None:
    sitting = Sitting("open B1 toro,corona", "note  corona burns hot ")
    assert [(n.house, n.text) for n in sitting.session.notes] == [(1, "corona burns hot")]


def test_a_newer_programs_document_is_refused_with_a_sentence() -> None:
    sitting = Sitting("open B1 toro,corona")
    sitting.documents[0][1]["format"] = FORMAT + 1
    with pytest.raises(StoreUnusable, match="newer version"):
        sessions(sitting.documents)


@pytest.mark.parametrize(("sizes", "tasters"), [(2, 6), (3, 3), (8, 3)])
def test_fewer_tasters_could_not_tell_the_sizes_apart(sizes: int, tasters: int) -> None:
    assert fewest(sizes) == tasters
    alike = [list(range(sizes))] * tasters
    assert friedman(alike).p < 0.05
    if tasters > 3:
        assert friedman(alike[1:]).p >= 0.05


def test_a_document_that_is_none_is_passed_over() -> None:
    sitting = Sitting("open B1 toro,corona", "T1 toro 7 6 8 7", "note dry")
    del sitting.documents[1][1]["scores"]
    assert sitting.session.tasters == ()
    assert len(sitting.session.notes) == 1
