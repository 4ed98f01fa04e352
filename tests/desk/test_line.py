"""The Line at a desk: which blend is looked at, what is tried on it, and what becomes of that."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Go, Mistake
from core.desk.line import LineShown
from core.line.new_parts import NewParts, NoParts
from core.problems import BadInput
from tests.desk.conftest import HOUSE_TOML, load

SECOND_BLEND = HOUSE_TOML.replace(
    "[[vitola]]",
    '[[blend]]\ncode = "B2"\nparts = { "SE-1" = 1 }\nbinder = "BI-1"\nwrapper = "WR-1"\n'
    "\n[[vitola]]",
    1,
)


def test_the_blend_that_most_benches_roll_is_looked_at(desk_at: Callable[..., Desk]) -> None:
    desk = desk_at()
    load(desk, SECOND_BLEND)
    assert desk.enter("line", None) == Go("line", None, "B1")
    for bench in ("7", "8"):
        desk.enter(f"{bench} roll toro B2", None)
    assert desk.enter("line", None) == Go("line", None, "B2")
    assert desk.enter("línea b1", None) == Go("line", None, "B1")
    assert desk.line.shown().sheet.blend == "B1"


def test_what_is_tried_stands_beside_today(desk: Desk) -> None:
    assert desk.enter("try LI-1=1.5 toro.ring=50", None) == Go("line", None, "B1")
    shown = desk.line.shown()
    assert shown.tried is not None
    ring = next(d for d in shown.tried.differences if (d.vitola, d.figure) == ("toro", "ring"))
    assert (ring.today, ring.changed) == (52, 50)
    assert shown.sheet.vitolas[0].ring == 52
    desk.enter("drop", None)
    assert desk.line.shown().tried is None


@pytest.mark.parametrize("spanish", ["toro.cepo=50", "toro.largo=140", "LI-1.humedad=15%"])
def test_what_can_be_changed_has_its_spanish_word(desk: Desk, spanish: str) -> None:
    assert isinstance(desk.enter(f"prueba {spanish}", None), Go)
    trial = desk.line.shown().trial
    assert trial is not None
    assert [change.said for change in trial.changes] == [spanish]


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("try LI-9=1", "did you mean LI-1"),
        ("try LI-1", "is no change"),
        ("try toro.ring=500", "outside"),
        ("try SE-1=0 LI-1=0", "leave no filler"),
        ("try without", "expected leaf of B1"),
        ("try without BI-1", "has no BI-1"),
        ("try sin LI-1 SE-1=2", "leave out changes of parts"),
    ],
)
def test_what_cannot_be_tried_says_why_and_leaves_what_was(desk: Desk, line: str, why: str) -> None:
    desk.enter("try LI-1=3", None)
    before = desk.line.shown().trial
    refused = desk.enter(line, None)
    assert isinstance(refused, Mistake)
    assert why in refused.says
    assert desk.line.shown().trial == before


def test_the_line_says_beforehand_what_it_would_try(desk: Desk) -> None:
    meaning = desk.meaning("try without LI-1 toro.ring=50", None)
    assert meaning.ok
    assert meaning.says == "try in B1: without LI-1, toro.ring=50; nothing is saved"
    assert not desk.meaning("try without LI-2", None).ok
    assert desk.line.shown().trial is None


def test_new_parts_are_sought_apart_and_a_search_nobody_waits_for_is_let_go(desk: Desk) -> None:
    desk.enter("try without LI-1", None)
    shown = desk.line.shown()
    assert shown.trial is not None
    assert (shown.found, shown.tried) == (None, None)
    found = shown.trial.seek()
    assert isinstance(found, NewParts | NoParts)
    desk.line.drop()
    desk.line.settle(shown.trial, found)
    assert desk.line.shown().found is None


def test_without_another_leaf_the_search_says_so(desk: Desk) -> None:
    desk.enter("try without SE-1,LI-1", None)
    trial = desk.line.shown().trial
    assert trial is not None
    found = trial.seek()
    assert isinstance(found, BadInput)
    desk.line.settle(trial, found)
    assert desk.line.shown().found is found


def test_a_new_house_book_and_a_measured_moisture_change_the_sheet(desk: Desk) -> None:
    desk.enter("try LI-1=3", None)
    before = desk.line.shown()
    desk.enter("LI-1 16%", None)
    wetter = desk.line.shown()
    assert _today_g(wetter, "LI-1") > _today_g(before, "LI-1")
    load(desk, HOUSE_TOML.replace("ring = 52", "ring = 54"))
    anew = desk.line.shown()
    assert anew.sheet.vitolas[0].ring == 54
    assert anew.tried is not None
    assert anew.tried.changed.vitolas[0].ring == 54


def _today_g(shown: LineShown, leaf: str) -> float:
    return next(each.exact_g for each in shown.sheet.vitolas[0].classes if each.leaf == leaf)


def test_nothing_tried_is_recorded(desk: Desk) -> None:
    before = desk.log()
    for line in ("line B1", "try LI-1=3", "try without LI-1", "drop"):
        desk.enter(line, None)
    assert desk.log() == before
    assert desk.house_version == 1
