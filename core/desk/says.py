"""An entry in words: what a line would do, what was saved, what the log shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from core.checks import Verdict, Window, judge
from core.day.bench import CheckMade, draw_of
from core.day.calendar import local
from core.day.entries import (
    CheckEntry,
    Entry,
    OutputEntry,
    ReadingEntry,
    ReceiveEntry,
    StocktakeEntry,
)
from core.day.ledger import Ledger
from core.desk.figures import amount, fixed, percent, places_of, shown, unit_of
from core.entry import requests as ask
from core.house.model import HouseBook
from core.measure import DrawScale, Measure


def window_words(
    window: Window, measure: Measure, division_g: float, draw: DrawScale | None = None
) -> str:
    """`target 15.2 ± 0.6`, or the two limits where they are not alike on both sides."""
    places = places_of(measure, division_g, draw)
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


def place_words(place: str, measure: Measure, draw: DrawScale | None = None) -> str:
    """A place in the measure's own words; on some dials the higher draw is the looser one."""
    low, high = _LOW_AND_HIGH.get(measure, ("light", "heavy"))
    if draw is not None and draw.rises == "looser":
        low, high = high, low
    return {"light": low, "heavy": high}.get(place, place)


def verdict_words(verdict: Verdict, measure: Measure, draw: DrawScale | None = None) -> str:
    """The mean's place; then what the readings say where it is not the same."""
    out = [place_words(place, measure, draw) for place in verdict.places if place != "within"]
    words = place_words(verdict.mean_place, measure, draw)
    if out and words == "within":
        kinds = " and ".join(dict.fromkeys(out))
        words = f"mean within, but {len(out)} of {len(verdict.places)} {kinds}"
    return words + (", unsteady" if verdict.steady is False else "")


def describe(entry: Entry, ledger: Ledger, division_g: float) -> str:
    """One entry in one line of plain words."""
    if entry["kind"] == "check":
        return _check(entry, ledger, division_g)
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
    if entry["kind"] == "sweepings":
        of = f" of {entry['leaf']}" if "leaf" in entry else ""
        return f"sweepings{of}: {amount(entry['grams'], division_g)}"
    if entry["kind"] == "receive" or entry["kind"] == "stocktake":
        return _in_stock(entry)
    return f"bench {entry['bench']}, " + _at_bench(entry, division_g)


def _in_stock(entry: ReceiveEntry | StocktakeEntry) -> str:
    """Leaf received or found on hand; stock is weighed on another scale, in kilograms."""
    weight = f"{fixed(entry['grams'] / 1000, 2)} kg at {percent(entry['moisture'])} moisture"
    if entry["kind"] == "stocktake":
        return f"{entry['leaf']}, lot {entry['lot']}: {weight} found on hand"
    told = [f"{entry['leaf']}, lot {entry['lot']}: {weight} received"]
    if "crop" in entry:
        told.append(f"crop {entry['crop']}")
    if "bales" in entry:
        told.append(_pieces(entry["bales"], "bale", "bales"))
    if "price_per_kg" in entry:
        told.append(f"{shown(entry['price_per_kg'], 2)} a kg")
    return ", ".join(told)


def _because(reason: str | None) -> str:
    return f": {reason}" if reason else ""


def _at_bench(entry: Entry, division_g: float) -> str:
    if entry["kind"] == "made":
        return f"{entry['vitola']}: {_pieces(entry['n'], 'bunch', 'bunches')} made"
    if entry["kind"] == "good":
        return f"{entry['vitola']}: {_pieces(entry['n'], 'cigar', 'cigars')} good"
    if entry["kind"] == "rework":
        return f"{entry['vitola']}: {_pieces(entry['n'], 'piece', 'pieces')} reworked"
    if entry["kind"] in _OUTPUT:
        output = cast(OutputEntry, entry)
        told = _OUTPUT[output["kind"]].format(_pieces(output["n"], "cigar", "cigars"))
        return f"{output['vitola']}: {told}" + _because(output.get("reason"))
    if entry["kind"] == "fail":
        faults = ", ".join(f"{n} {fault}" for fault, n in entry["faults"].items())
        return f"{entry['vitola']}: failed {faults}"
    if entry["kind"] == "take" or entry["kind"] == "back":
        way = "issued" if entry["kind"] == "take" else "returned"
        weight = amount(entry["grams"], division_g)
        lot = f", lot {entry['lot']}" if "lot" in entry else ""
        return f"{entry['leaf']}{lot}: {weight} {way}, at {percent(entry['moisture'])} moisture"
    if entry["kind"] == "scrap" or entry["kind"] == "stem":
        of = f" of {entry['leaf']}" if "leaf" in entry else ""
        what = "cuttings" if entry["kind"] == "scrap" else "stem"
        return f"{what}{of}: {amount(entry['grams'], division_g)}"
    if entry["kind"] == "roll":
        quota = f", quota {entry['quota']}" if "quota" in entry else ""
        return f"rolls {entry['vitola']} of {entry['blend']} from now on{quota}"
    return f"check {cast(dict[str, int], entry)['check']} closed"


_OUTPUT = {
    "second": "{} sold as seconds",
    "hold": "{} good but on hold",
    "release": "{} on hold let go",
    "workers": "{} given to the workers",
    "panel": "{} kept for the panel",
}


def _pieces(n: int, one: str, many: str) -> str:
    return f"{n} {one if n == 1 else many}"


def check_done(
    check: CheckMade, bench: str, house: HouseBook, division_g: float, *, first: bool
) -> str:
    """A check that has just closed, with its verdict; `first` where it is a first piece."""
    places, n = places_of(check.measure, division_g, check.draw), len(check.readings)
    what = what_words(check.measure, check.of, check.leaf, house)
    text = f"bench {bench}, {check.run.vitola}: {FIRST if first else ''}{what}check of {n} closed, "
    mean = fixed(sum(check.readings) / n, places)
    text += f"mean {mean} {unit_of(check.measure, check.draw)}"
    if check.window is None:
        return text
    judged = _judged(check.readings, check.window, check.measure, division_g, check.draw)
    return f"{text}, {judged}"


def begun(what: ask.Begin, house: HouseBook, draw: DrawScale | None, window: Window | None) -> str:
    """What the readings to come will be of, and what they will be judged by."""
    division_g = house.house.scale_division_g
    of = what_words(what.measure, 1, what.leaf, house) or "bunch, "
    text = f"bench {what.bench}: {of}readings follow on its card, in {unit_of(what.measure, draw)}"
    if window is None:
        return f"{text}, the house book gives no window"
    return f"{text}, {window_words(window, what.measure, division_g, draw)}"


def counted_today(kind: str, total: int, quota: int | None) -> str:
    """A bench's count of the day after an entry, against its quota where good is counted."""
    of = f" of {quota}" if kind == "good" and quota is not None else ""
    return f"; {total}{of} today"


def _check(entry: CheckEntry, ledger: Ledger, division_g: float) -> str:
    measure, readings, draw = entry["measure"], entry["readings"], draw_of(entry)
    places, unit = places_of(measure, division_g, draw), unit_of(measure, draw)
    mean = fixed(sum(readings) / len(readings), places)
    several = len(readings) > 1
    told = f"{len(readings)} readings, mean {mean}" if several else shown(readings[0], places)
    text = f"bench {entry['bench']}, {entry['vitola']}: {_of(entry, ledger)}{told} {unit}"
    return text + _against(entry, readings, division_g)


def _of(entry: CheckEntry | ReadingEntry, ledger: Ledger) -> str:
    """What was measured, and whether it is a first piece: so are not those that are void."""
    counts = ledger.live(entry["id"]) or entry["id"] > ledger.latest
    first = counts and ledger.bench(entry["bench"]).is_first(entry)
    house = ledger.houses[entry["house"]]
    what = what_words(entry["measure"], entry.get("of", 1), entry.get("leaf"), house)
    return f"{FIRST if first else ''}{what}"


FIRST = "first piece: "


def what_words(measure: Measure, of: int, leaf: str | None, house: HouseBook) -> str:
    """What is measured, and a comma; nothing for bunches. A portion is of a class and leaf."""
    known = house.filler.get(leaf or "")
    name = f"{known.leaf_class} {leaf}" if known else leaf
    return _WHAT[measure].format(of=of, leaf=name)


_WHAT: dict[Measure, str] = {
    "bunch": "",
    "portion": "{leaf} portion, ",
    "filler": "filler, ",
    "cigar": "cigar, ",
    "bundle": "bundle of {of}, ",
    "ring": "ring, ",
    "length": "length, ",
    "draw": "draw, ",
}
"""A bunch is what is weighed where nothing else is said."""


def _reading(entry: ReadingEntry, ledger: Ledger, division_g: float) -> str:
    measure, draw = entry["measure"], draw_of(entry)
    nth = f"reading {ledger.nth(entry)} of {entry['needs']}"
    figure = shown(entry["reading"], places_of(measure, division_g, draw))
    text = f"bench {entry['bench']}: {_of(entry, ledger)}{nth}, {figure} {unit_of(measure, draw)}"
    return text + _against(entry, [entry["reading"]], division_g)


def _against(entry: CheckEntry | ReadingEntry, readings: list[float], division_g: float) -> str:
    if "target" not in entry:
        return ", the house book gives no window"
    window = Window(entry["target"], entry["low"], entry["high"])
    return ", " + _judged(readings, window, entry["measure"], division_g, draw_of(entry))


def _judged(
    readings: Sequence[float],
    window: Window,
    measure: Measure,
    division_g: float,
    draw: DrawScale | None,
) -> str:
    words = window_words(window, measure, division_g, draw)
    return f"{words}: {verdict_words(judge(readings, window), measure, draw)}"


def already(entry: Entry) -> str:
    """What to ask where a line comes again whose entry was not confirmed at first."""
    made = local(entry["at"], entry["offset"])
    return (
        f"entry {entry['id']} of {made:%H:%M} says this already, and is saved now;"
        " this would be another"
    )
