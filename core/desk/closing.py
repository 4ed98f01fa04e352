"""What to know before a day is closed, in one sentence that fits under the entry line."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from core.desk.faces import BenchLine
from core.desk.figures import fixed
from core.house.language import LANGUAGES
from core.say import Said, joined, say, say_many, told
from core.tongue import tongue_of

if TYPE_CHECKING:
    from core.day.report import DayReport
    from core.stock.stock import LeafStock

MUCH = 0.05
"""Leaf left on the benches is told of over this share of what was issued (common practice)."""
ROOM = 112
"""Signs that fit beside the question in two rows of an 80-column terminal."""


class _Named(NamedTuple):
    """How many are named before only their number, or sum, is told.

    `left` are leaves on the benches, `lost` those unexplained.
    """

    benches: int
    left: int
    lost: int


_SHORTER = (
    _Named(6, 2, 2),
    _Named(6, 1, 2),
    _Named(6, 0, 2),
    _Named(3, 0, 1),
    _Named(0, 0, 1),
    _Named(0, 0, 0),
)
"""Longest first: the first that fits is said."""


def closing_words(
    board: Sequence[BenchLine], report: DayReport, stock: Sequence[LeafStock], now: dt.datetime
) -> str:
    """Good against quota, and what is open: weigh-ins, checks, cigars on hold, leaf.

    Leaf on the benches is issued − returned − what the bunches made used, standard grams.
    What it explains of a leaf is not told a second time as unexplained.
    """
    left = {
        row.leaf: row.on_benches_g for row in stock if row.on_benches_g > MUCH * row.issued_g > 0
    }
    unexplained = _unexplained(report, left)
    for named in _SHORTER:
        says = joined("; ", _said(board, report, left, unexplained, now, named))
        if _length(says) <= ROOM:
            break
    return says


def _length(says: Said) -> int:
    """Its length in the language that takes most words."""
    return max(len(told(says, tongue_of(language))) for language in LANGUAGES)


def _said(
    board: Sequence[BenchLine],
    report: DayReport,
    left: Mapping[str, float],
    unexplained: Mapping[str, float],
    now: dt.datetime,
    named: _Named,
) -> list[str]:
    quota, totals = sum(line.quota or 0 for line in board), report.totals
    late = [line.number for line in board if line.due is not None and line.due < now]
    waiting = [line.number for line in board if line.open]
    said: list[str] = [
        say("good {good} of {quota}", good=totals.good, quota=quota)
        if quota
        else say("good {good}", good=totals.good)
    ]
    if 0 < len(late) <= named.benches:
        said.append(say("weigh-in late at {benches}", benches=joined(", ", late)))
    elif late:
        said.append(say_many(len(late), "{n} weigh-in late", "{n} weigh-ins late"))
    if 0 < len(waiting) <= named.benches:
        said.append(say("check open at {benches}", benches=joined(", ", waiting)))
    elif waiting:
        said.append(say_many(len(waiting), "{n} check open", "{n} checks open"))
    if totals.held > 0:
        said.append(say("{held} on hold", held=totals.held))
    if left:
        leaves = _leaves(left, named.left)
        kg = sum(left.values()) / 1000
        said.append(
            say("on benches {leaves}", leaves=leaves)
            if leaves
            else say("{kg} kg on benches", kg=fixed(kg, 0 if kg >= 10 else 1))
        )
    if unexplained:
        leaves = _leaves(unexplained, named.lost, "+")
        said.append(
            say("unexplained {leaves}", leaves=leaves)
            if leaves
            else say_many(len(unexplained), "{n} leaf unexplained", "{n} leaves unexplained")
        )
    return said


def _unexplained(report: DayReport, left: Mapping[str, float]) -> dict[str, float]:
    """Leaf unexplained beyond what checks tell, less what lies on the benches; most first."""
    found = {
        row.leaf: row.unexplained_g - left.get(row.leaf, 0.0)
        for row in report.leaf
        if row.beyond
        and (row.leaf not in left or row.unexplained_g > left[row.leaf] + MUCH * row.issued_g)
    }
    return dict(sorted(found.items(), key=lambda one: -abs(one[1])))


def _leaves(grams: Mapping[str, float], named: int, sign: str = "") -> str:
    """The leaves there is most of by name, and how many more; nothing where none is to be named."""
    if not named:
        return ""
    first = sorted(grams, key=lambda leaf: -abs(grams[leaf]))[:named]
    names = joined(", ", (f"{leaf} {grams[leaf]:{sign}.0f} g" for leaf in first))
    if len(grams) <= named:
        return names
    return say("{names} and {n} more", names=names, n=len(grams) - named)
