"""Does the line taste alike in every size? One answer a trait, and what it rests on."""

from __future__ import annotations

from math import factorial
from statistics import fmean
from typing import Literal, NamedTuple

from core.panel.apart import LEVEL, Difference, differences
from core.panel.friedman import Friedman, friedman
from core.panel.session import Session
from core.say import Said, say

FEWEST_TASTERS = 3
"""Fewer are shown, not judged."""


def fewest(sizes: int) -> int:
    """How many tasters it takes to judge so many sizes: fewer could not tell them apart at all.

    If all tasters rank alike, p is that of one order in `sizes`! for each but the first: of two
    sizes five tasters come to 1/16 at the least.
    """
    tasters = FEWEST_TASTERS
    while factorial(sizes) ** (1 - tasters) >= LEVEL:
        tasters += 1
    return tasters


def too_few(tasters: int, sizes: int) -> Said:
    """Why so many tasters cannot judge so many sizes, and how many can."""
    needs = fewest(sizes)
    if not tasters:
        return say(
            "nobody has scored every size yet; to judge {sizes} sizes it takes {needs} tasters who"
            " score them all",
            sizes=sizes,
            needs=needs,
        )
    return say(
        "too few tasters to judge: {sizes} sizes take {needs} who score them all, {n} did; fewer"
        " can agree by chance",
        sizes=sizes,
        needs=needs,
        n=tasters,
    )


Verdict = Literal["hidden", "too few", "no difference", "apart", "differ"]


class Size(NamedTuple):
    """A vitola in one trait, its code while that is hidden; `mean` None: nobody scored it.

    `difference` is that from the chosen vitola; None of that one, and without paired scores.
    """

    vitola: str
    mean: float | None
    difference: Difference | None


class Judged(NamedTuple):
    """One trait. Means and differences are those of the `tasters` who scored every size.

    Where nobody did, means are over whoever scored a size. `left_out` scored some sizes only.
    `apart` names the sizes that stand apart: asked only where the test tells sizes apart.
    """

    trait: str
    sizes: tuple[Size, ...]
    tasters: tuple[str, ...]
    left_out: tuple[str, ...]
    test: Friedman | None
    verdict: Verdict
    apart: tuple[str, ...]


def judged(session: Session) -> tuple[Judged, ...]:
    """The session's traits, in the order they are scored.

    While codes are hidden, means stand under them and nothing is held against the chosen
    vitola, for that would tell which it is.
    """
    if session.hidden:
        return tuple(_hidden(session, trait) for trait in session.traits)
    return tuple(_trait(session, trait) for trait in session.traits)


def _hidden(session: Session, trait: str) -> Judged:
    codes = session.codes
    coded = session._replace(chosen=min(codes), codes={code: code for code in codes})
    told = {vitola: code for code, vitola in codes.items()}
    scores = {(t, told[v], of): score for (t, v, of), score in session.scores.items()}
    found = _trait(coded._replace(scores=scores), trait)
    sizes = tuple(size._replace(difference=None) for size in found.sizes)
    return found._replace(sizes=sizes, test=None, verdict="hidden", apart=())


def _trait(session: Session, trait: str) -> Judged:
    vitolas, scores = session.vitolas, session.scores
    scored = [t for t in session.tasters if any((t, v, trait) in scores for v in vitolas)]
    whole = tuple(t for t in scored if all((t, v, trait) in scores for v in vitolas))
    left_out = tuple(t for t in scored if t not in whole)
    columns = [
        [scores[t, v, trait] for t in whole or left_out if (t, v, trait) in scores] for v in vitolas
    ]
    found = differences(columns[0], columns[1:]) if whole else (None,) * (len(vitolas) - 1)
    sizes = tuple(
        Size(vitola, fmean(column) if column else None, difference)
        for vitola, column, difference in zip(vitolas, columns, (None, *found), strict=True)
    )
    if len(whole) < fewest(len(vitolas)):
        return Judged(trait, sizes, whole, left_out, None, "too few", ())
    test = friedman(list(zip(*columns, strict=True)))
    if test.p >= LEVEL:
        return Judged(trait, sizes, whole, left_out, test, "no difference", ())
    apart = tuple(s.vitola for s in sizes if s.difference is not None and s.difference.apart)
    return Judged(trait, sizes, whole, left_out, test, "apart" if apart else "differ", apart)
