"""A reading's limits and a check's verdict in words: `target 15.2 ± 0.6`, `heavy, unsteady`."""

from __future__ import annotations

from collections.abc import Sequence

from core.checks import Verdict, Window, judge
from core.desk.figures import fixed, places_of
from core.house.model import HouseBook
from core.measure import DrawScale, Measure
from core.say import Said, joined, listed, say, say_as


def window_words(
    window: Window, measure: Measure, division_g: float, draw: DrawScale | None = None
) -> str:
    """`target 15.2 ± 0.6`, or the two limits where they are not alike on both sides."""
    limits = limits_words(window, measure, division_g, draw)
    if _even(window):
        return say("target {limits}", limits=limits)
    return say("window {limits}", limits=limits)


def limits_words(
    window: Window, measure: Measure, division_g: float, draw: DrawScale | None = None
) -> str:
    """`15.2 ± 0.6`, or `14.6 to 15.9`."""
    places = places_of(measure, division_g, draw)
    if _even(window):
        return f"{fixed(window.target, places)} ± {fixed(window.high - window.target, places)}"
    return say("{low} to {high}", low=fixed(window.low, places), high=fixed(window.high, places))


def _even(window: Window) -> bool:
    """Whether both limits are as far from target."""
    above, below = window.high - window.target, window.target - window.low
    return abs(above - below) <= 1e-6


_PLACES: dict[str, str] = {"within": say("within"), "light": say("light"), "heavy": say("heavy")}
_WITHIN = say_as("ring, length or draw", "within")
_LOW_AND_HIGH: dict[Measure, tuple[str, str]] = {
    "ring": (say("thin"), say("thick")),
    "length": (say("short"), say("long")),
    "draw": (say("loose"), say("tight")),
}
"""What light and heavy are called where no weight is meant."""


def place_words(place: str, measure: Measure, draw: DrawScale | None = None) -> str:
    """A place in the measure's own words; on some dials the higher draw is the looser one."""
    if measure not in _LOW_AND_HIGH:
        return _PLACES[place]
    if place == "within":
        return _WITHIN
    low, high = _LOW_AND_HIGH[measure]
    if draw is not None and draw.rises == "looser":
        low, high = high, low
    return low if place == "light" else high


def verdict_words(verdict: Verdict, measure: Measure, draw: DrawScale | None = None) -> str:
    """The mean's place; then what the readings say where it is not the same."""
    out = [place_words(place, measure, draw) for place in verdict.places if place != "within"]
    words = place_words(verdict.mean_place, measure, draw)
    if out and words == "within":
        words = say(
            "mean within, but {out} of {readings} {places}",
            out=len(out),
            readings=len(verdict.places),
            places=listed(dict.fromkeys(out)),
        )
    return say("{verdict}, unsteady", verdict=words) if verdict.steady is False else words


def judged_words(
    readings: Sequence[float],
    window: Window,
    measure: Measure,
    division_g: float,
    draw: DrawScale | None,
) -> Said:
    """The limits, and the verdict by them."""
    limits = window_words(window, measure, division_g, draw)
    verdict = verdict_words(judge(readings, window), measure, draw)
    return say("{limits}: {verdict}", limits=limits, verdict=verdict)


def what_words(measure: Measure, of: int, leaf: str | None, house: HouseBook) -> str:
    """What is measured; nothing for bunches. A portion is of a class and leaf."""
    known = house.filler.get(leaf or "")
    name = f"{known.leaf_class} {leaf}" if known else leaf
    return _WHAT[measure].format(of=of, leaf=name)


_WHAT: dict[Measure, Said] = {
    "bunch": joined("", ()),
    "portion": say("{leaf} portion"),
    "filler": say("filler"),
    "cigar": say("cigar"),
    "bundle": say("bundle of {of}"),
    "ring": say("ring"),
    "length": say("length"),
    "draw": say("draw"),
}
"""A bunch is what is weighed where nothing else is said."""
