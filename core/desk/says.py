"""An entry in words: what a line would do, what was saved, what the log shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from core.checks import Verdict, Window, judge
from core.day.bench import CheckMade
from core.day.entries import CheckEntry, Entry, ReadingEntry
from core.day.ledger import Ledger
from core.desk.figures import UNITS, amount, fixed, percent, places_of, shown
from core.measure import Measure


def window_words(window: Window, measure: Measure, division_g: float) -> str:
    """`target 15.2 ± 0.6`, or the two limits where they are not alike on both sides."""
    places = places_of(measure, division_g)
    above, below = window.high - window.target, window.target - window.low
    if abs(above - below) > 1e-6:
        return f"window {fixed(window.low, places)} to {fixed(window.high, places)}"
    return f"target {fixed(window.target, places)} ± {fixed(above, places)}"


_LOW_AND_HIGH: dict[Measure, tuple[str, str]] = {
    "ring": ("thin", "thick"),
    "length": ("short", "long"),
    "draw": ("loose", "tight"),
}
"""What light and heavy are called where no weight is meant."""


def place_words(place: str, measure: Measure) -> str:
    """A place in the measure's own words."""
    low, high = _LOW_AND_HIGH.get(measure, ("light", "heavy"))
    return {"light": low, "heavy": high}.get(place, place)


def verdict_words(verdict: Verdict, measure: Measure) -> str:
    """The mean's place; then what the readings say where it is not the same."""
    out = [place_words(place, measure) for place in verdict.places if place != "within"]
    words = place_words(verdict.mean_place, measure)
    if out and words == "within":
        kinds = " and ".join(dict.fromkeys(out))
        words = f"mean within, but {len(out)} of {len(verdict.places)} {kinds}"
    return words + (", unsteady" if verdict.steady is False else "")


def describe(entry: Entry, ledger: Ledger, division_g: float) -> str:
    """One entry in one line of plain words."""
    if entry["kind"] == "check":
        return _check(entry, division_g)
    if entry["kind"] == "reading":
        return _reading(entry, ledger, division_g)
    if entry["kind"] == "moisture":
        return f"{entry['leaf']}: moisture {percent(entry['moisture'])} from now on"
    if entry["kind"] == "undo":
        voided = ledger.entries.get(entry["voids"])
        was = f" ({describe(voided, ledger, division_g)})" if voided else ""
        return f"entry {entry['voids']} void{was}" + _because(entry.get("reason"))
    if entry["kind"] == "note":
        where = f"bench {entry['bench']}: " if "bench" in entry else ""
        return f"{where}note: {entry['text']}"
    if entry["kind"] == "close" or entry["kind"] == "reopen":
        words = "day closed" if entry["kind"] == "close" else "day opened again"
        return words + _because(entry.get("reason"))
    return f"bench {entry['bench']}, " + _at_bench(entry, division_g)


def _because(reason: str | None) -> str:
    return f": {reason}" if reason else ""


def _at_bench(entry: Entry, division_g: float) -> str:
    if entry["kind"] == "made":
        return f"{entry['vitola']}: {_pieces(entry['n'], 'bunch', 'bunches')} made"
    if entry["kind"] == "good":
        return f"{entry['vitola']}: {_pieces(entry['n'], 'cigar', 'cigars')} good"
    if entry["kind"] == "rework":
        return f"{entry['vitola']}: {_pieces(entry['n'], 'piece', 'pieces')} reworked"
    if entry["kind"] == "fail":
        faults = ", ".join(f"{n} {fault}" for fault, n in entry["faults"].items())
        return f"{entry['vitola']}: failed {faults}"
    if entry["kind"] == "take" or entry["kind"] == "back":
        way = "issued" if entry["kind"] == "take" else "returned"
        weight = amount(entry["grams"], division_g)
        return f"{entry['leaf']}: {weight} {way}, at {percent(entry['moisture'])} moisture"
    if entry["kind"] == "scrap":
        of = f" of {entry['leaf']}" if "leaf" in entry else ""
        return f"cuttings{of}: {amount(entry['grams'], division_g)}"
    if entry["kind"] == "roll":
        quota = f", quota {entry['quota']}" if "quota" in entry else ""
        return f"rolls {entry['vitola']} of {entry['blend']} from now on{quota}"
    return f"check {cast(dict[str, int], entry)['check']} closed"


def _pieces(n: int, one: str, many: str) -> str:
    return f"{n} {one if n == 1 else many}"


def check_done(check: CheckMade, bench: str, division_g: float) -> str:
    """A check that has just closed, with its verdict."""
    places, unit = places_of(check.measure, division_g), UNITS[check.measure]
    n = len(check.readings)
    text = f"bench {bench}, {check.run.vitola}: check of {n} closed, "
    mean = f"mean {fixed(sum(check.readings) / n, places)} {unit}"
    if check.window is None:
        return text + mean
    return f"{text}{mean}, " + _judged(check.readings, check.window, check.measure, division_g)


def counted_today(kind: str, total: int, quota: int | None) -> str:
    """A bench's count of the day after an entry, against its quota where good is counted."""
    of = f" of {quota}" if kind == "good" and quota is not None else ""
    return f"; {total}{of} today"


def _check(entry: CheckEntry, division_g: float) -> str:
    measure, readings = entry["measure"], entry["readings"]
    places, unit = places_of(measure, division_g), UNITS[measure]
    mean = fixed(sum(readings) / len(readings), places)
    several = len(readings) > 1
    told = f"{len(readings)} readings, mean {mean}" if several else shown(readings[0], places)
    what = _WHAT[measure].format(of=entry.get("of", 1))
    text = f"bench {entry['bench']}, {entry['vitola']}: {what}{told} {unit}"
    return text + _against(entry, readings, division_g)


_WHAT: dict[Measure, str] = {
    "bunch": "",
    "filler": "filler, ",
    "cigar": "cigar, ",
    "bundle": "bundle of {of}, ",
    "ring": "ring, ",
    "length": "length, ",
    "draw": "draw, ",
}
"""A bunch is what is weighed where nothing else is said."""


def _reading(entry: ReadingEntry, ledger: Ledger, division_g: float) -> str:
    places = places_of(entry["measure"], division_g)
    nth = f"reading {ledger.nth(entry)} of {entry['needs']}"
    weight = f"{shown(entry['reading'], places)} {UNITS[entry['measure']]}"
    text = f"bench {entry['bench']}: {nth}, {weight}"
    return text + _against(entry, [entry["reading"]], division_g)


def _against(entry: CheckEntry | ReadingEntry, readings: list[float], division_g: float) -> str:
    if "target" not in entry:
        return ", the house book gives no window"
    window = Window(entry["target"], entry["low"], entry["high"])
    return ", " + _judged(readings, window, entry["measure"], division_g)


def _judged(readings: Sequence[float], window: Window, measure: Measure, division_g: float) -> str:
    words = window_words(window, measure, division_g)
    return f"{words}: {verdict_words(judge(readings, window), measure)}"
