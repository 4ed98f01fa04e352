"""An entry in words: what a line would do, what was saved, what the log shows."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, cast

from core.checks import Window
from core.day.bench import CheckMade, draw_of
from core.day.calendar import local
from core.day.ledger import Ledger
from core.desk.figures import amount, fixed, percent, places_of, shown, unit_of
from core.desk.verdicts import judged_words, what_words, window_words
from core.entry import requests as ask
from core.entry.faults import fault_name
from core.house.model import HouseBook
from core.measure import DrawScale
from core.say import Said, joined, say, say_many

if TYPE_CHECKING:
    from core.day.entries import (
        CheckEntry,
        CountEntry,
        Entry,
        FailEntry,
        LeafEntry,
        OutputEntry,
        ReadingEntry,
        ReceiveEntry,
        RollEntry,
        ScrapEntry,
        StocktakeEntry,
        SweepEntry,
    )


def describe(entry: Entry, ledger: Ledger, division_g: float) -> str:
    """One entry in one line of plain words."""
    if entry["kind"] == "check":
        return _check(entry, ledger, division_g)
    if entry["kind"] == "reading":
        return _reading(entry, ledger, division_g)
    if entry["kind"] == "moisture":
        share = percent(entry["moisture"])
        return say("{leaf}: moisture {share} from now on", leaf=entry["leaf"], share=share)
    if entry["kind"] == "undo":
        return _because(_undone(entry["voids"], ledger, division_g), entry.get("reason"))
    if entry["kind"] == "note":
        note = _BENCH_NOTE if "bench" in entry else _NOTE
        return note.format(bench=entry.get("bench"), text=entry["text"])
    if entry["kind"] == "close" or entry["kind"] == "reopen":
        ended = say("day closed") if entry["kind"] == "close" else say("day opened again")
        return _because(ended, entry.get("reason"))
    if entry["kind"] == "sweepings":
        return _offcuts(entry, division_g)
    if entry["kind"] == "receive" or entry["kind"] == "stocktake":
        return _in_stock(entry)
    says = _at_bench(entry, division_g)
    return say("bench {bench}, {says}", bench=entry["bench"], says=says)


_NOTE = say("note: {text}")
_BENCH_NOTE = say("bench {bench}: note: {text}")


def _undone(voids: int, ledger: Ledger, division_g: float) -> str:
    voided = ledger.entries.get(voids)
    if voided is None:
        return say("entry {entry} void", entry=voids)
    was = describe(voided, ledger, division_g)
    return say("entry {entry} void ({was})", entry=voids, was=was)


def _because(says: str, reason: str | None) -> str:
    return joined(": ", (says, reason)) if reason else says


def _in_stock(entry: ReceiveEntry | StocktakeEntry) -> str:
    """Leaf received or found on hand; stock is weighed on another scale, in kilograms."""
    says = (_FOUND if entry["kind"] == "stocktake" else _RECEIVED).format(
        leaf=entry["leaf"],
        lot=entry["lot"],
        kg=fixed(entry["grams"] / 1000, 2),
        share=percent(entry["moisture"]),
    )
    if entry["kind"] == "stocktake":
        return says
    told: list[str] = [says]
    if "crop" in entry:
        told.append(say("crop {crop}", crop=entry["crop"]))
    if "bales" in entry:
        told.append(say_many(entry["bales"], "{n} bale", "{n} bales"))
    if "price_per_kg" in entry:
        told.append(say("{price} a kg", price=shown(entry["price_per_kg"], 2)))
    return joined(", ", told)


_FOUND = say("{leaf}, lot {lot}: {kg} kg at {share} moisture found on hand")
_RECEIVED = say("{leaf}, lot {lot}: {kg} kg at {share} moisture received")


def _at_bench(entry: Entry, division_g: float) -> str:
    if entry["kind"] in _COUNTS:
        count = cast("CountEntry | OutputEntry", entry)
        counted = _COUNTS[count["kind"]](count["n"])
        says = say("{vitola}: {counted}", vitola=count["vitola"], counted=counted)
        return _because(says, cast(str | None, entry.get("reason")))
    if entry["kind"] == "fail":
        return _failed(entry)
    if entry["kind"] == "take" or entry["kind"] == "back":
        return _moved(entry, division_g)
    if entry["kind"] == "scrap" or entry["kind"] == "stem":
        return _offcuts(entry, division_g)
    if entry["kind"] == "roll":
        return _rolls(entry)
    return say("check {check} closed", check=cast(dict[str, int], entry)["check"])


_COUNTS: dict[str, Callable[[int], str]] = {
    "made": lambda n: say_many(n, "{n} bunch made", "{n} bunches made"),
    "good": lambda n: say_many(n, "{n} cigar good", "{n} cigars good"),
    "rework": lambda n: say_many(n, "{n} piece reworked", "{n} pieces reworked"),
    "second": lambda n: say_many(n, "{n} cigar sold as seconds", "{n} cigars sold as seconds"),
    "hold": lambda n: say_many(n, "{n} cigar good but on hold", "{n} cigars good but on hold"),
    "release": lambda n: say_many(n, "{n} cigar on hold let go", "{n} cigars on hold let go"),
    "workers": lambda n: say_many(
        n, "{n} cigar given to the workers", "{n} cigars given to the workers"
    ),
    "panel": lambda n: say_many(n, "{n} cigar kept for the panel", "{n} cigars kept for the panel"),
}


def _failed(entry: FailEntry) -> str:
    faults = (say("{n} {fault}", n=n, fault=fault_name(f)) for f, n in entry["faults"].items())
    return say("{vitola}: failed {faults}", vitola=entry["vitola"], faults=joined(", ", faults))


def _moved(entry: LeafEntry, division_g: float) -> str:
    of = say("{leaf}, lot {lot}") if "lot" in entry else say("{leaf}")
    says = _ISSUED if entry["kind"] == "take" else _RETURNED
    return says.format(
        of=of.format(leaf=entry["leaf"], lot=entry.get("lot")),
        weight=amount(entry["grams"], division_g),
        share=percent(entry["moisture"]),
    )


_ISSUED = say("{of}: {weight} issued, at {share} moisture")
_RETURNED = say("{of}: {weight} returned, at {share} moisture")


def _offcuts(entry: ScrapEntry | SweepEntry, division_g: float) -> str:
    one, of_leaf = _OFFCUTS[entry["kind"]]
    says = of_leaf if "leaf" in entry else one
    return says.format(leaf=entry.get("leaf"), weight=amount(entry["grams"], division_g))


_OFFCUTS: dict[str, tuple[Said, Said]] = {
    "scrap": (say("cuttings: {weight}"), say("cuttings of {leaf}: {weight}")),
    "stem": (say("stem: {weight}"), say("stem of {leaf}: {weight}")),
    "sweepings": (say("sweepings: {weight}"), say("sweepings of {leaf}: {weight}")),
}


def _rolls(entry: RollEntry) -> str:
    says = _ROLLS_QUOTA if "quota" in entry else _ROLLS
    return says.format(vitola=entry["vitola"], blend=entry["blend"], quota=entry.get("quota"))


_ROLLS = say("rolls {vitola} of {blend} from now on")
_ROLLS_QUOTA = say("rolls {vitola} of {blend} from now on, quota {quota}")


def check_done(
    check: CheckMade, bench: str, house: HouseBook, division_g: float, *, first: bool
) -> str:
    """A check that has just closed, with its verdict; `first` where it is a first piece."""
    places, n = places_of(check.measure, division_g, check.draw), len(check.readings)
    what = _led(what_words(check.measure, check.of, check.leaf, house), first=first)
    says = say(
        "bench {bench}, {vitola}: {what}check of {n} closed, mean {mean} {unit}",
        bench=bench,
        vitola=check.run.vitola,
        what=what,
        n=n,
        mean=fixed(sum(check.readings) / n, places),
        unit=unit_of(check.measure, check.draw),
    )
    if check.window is None:
        return says
    judged = judged_words(check.readings, check.window, check.measure, division_g, check.draw)
    return joined(", ", (says, judged))


def begun(what: ask.Begin, house: HouseBook, draw: DrawScale | None, window: Window | None) -> str:
    """What the readings to come will be of, and what they will be judged by."""
    division_g = house.house.scale_division_g
    says = say(
        "bench {bench}: {what}, readings follow on its card, in {unit}",
        bench=what.bench,
        what=what_words(what.measure, 1, what.leaf, house) or say("bunch"),
        unit=unit_of(what.measure, draw),
    )
    if window is None:
        return joined(", ", (says, _NO_WINDOW))
    return joined(", ", (says, window_words(window, what.measure, division_g, draw)))


_NO_WINDOW = say("the house book gives no window")


def counted_today(kind: str, total: int, quota: int | None) -> str:
    """A bench's count of the day after an entry, against its quota where good is counted."""
    if kind == "good" and quota is not None:
        return say("; {total} of {quota} today", total=total, quota=quota)
    return say("; {total} today", total=total)


def _check(entry: CheckEntry, ledger: Ledger, division_g: float) -> str:
    readings, draw = entry["readings"], draw_of(entry)
    places = places_of(entry["measure"], division_g, draw)
    if len(readings) > 1:
        mean = fixed(sum(readings) / len(readings), places)
        told: str = say("{n} readings, mean {mean}", n=len(readings), mean=mean)
    else:
        told = shown(readings[0], places)
    says = say(
        "bench {bench}, {vitola}: {what}{told} {unit}",
        bench=entry["bench"],
        vitola=entry["vitola"],
        what=_of(entry, ledger),
        told=told,
        unit=unit_of(entry["measure"], draw),
    )
    return joined(", ", (says, _against(entry, readings, division_g)))


def _of(entry: CheckEntry | ReadingEntry, ledger: Ledger) -> str:
    """What was measured, and whether it is a first piece: so are not those that are void."""
    counts = ledger.live(entry["id"]) or entry["id"] > ledger.latest
    first = counts and ledger.bench(entry["bench"]).is_first(entry)
    house = ledger.houses[entry["house"]]
    what = what_words(entry["measure"], entry.get("of", 1), entry.get("leaf"), house)
    return _led(what, first=first)


def _led(what: str, *, first: bool) -> str:
    """What leads on to the figures; nothing for a bunch that is no first piece."""
    if first:
        return say("first piece: {what}, ", what=what) if what else say("first piece: ")
    return joined("", (what, ", ")) if what else ""


def _reading(entry: ReadingEntry, ledger: Ledger, division_g: float) -> str:
    draw = draw_of(entry)
    says = say(
        "bench {bench}: {what}reading {nth} of {needs}, {figure} {unit}",
        bench=entry["bench"],
        what=_of(entry, ledger),
        nth=ledger.nth(entry),
        needs=entry["needs"],
        figure=shown(entry["reading"], places_of(entry["measure"], division_g, draw)),
        unit=unit_of(entry["measure"], draw),
    )
    return joined(", ", (says, _against(entry, [entry["reading"]], division_g)))


def _against(entry: CheckEntry | ReadingEntry, readings: list[float], division_g: float) -> str:
    if "target" not in entry:
        return _NO_WINDOW
    window = Window(entry["target"], entry["low"], entry["high"])
    return judged_words(readings, window, entry["measure"], division_g, draw_of(entry))


def already(entry: Entry) -> str:
    """What to ask where a line comes again whose entry was not confirmed at first."""
    made = local(entry["at"], entry["offset"])
    return say(
        "entry {entry} of {made:%H:%M} says this already, and is saved now; this would be another",
        entry=entry["id"],
        made=made,
    )
