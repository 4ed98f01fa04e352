"""What is asked about once before it is recorded: figures that are possible but hardly meant."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, cast

from core.day.calendar import local
from core.day.lots import LEFT_G, lots_of, short_by
from core.day.room import Room
from core.problems import BadInput
from core.recipe.moisture import at_standard, on_scale
from core.say import joined, say, say_many

if TYPE_CHECKING:
    from core.day.entries import Entry


FAR_OFF = 0.30
"""Share of the target beyond which a reading is asked about."""
SOON = dt.timedelta(minutes=15)
"""The same readings again within it are asked about: common practice, no source."""
MOISTURE_JUMP = 0.05
"""Change of a leaf's moisture (five points) that is asked about: common practice, no source."""
TIMES_NEEDED = 3.0
"""Leaf issued at once is asked about beyond this many times what the quota needs."""
FAR_OFF_STOCK = 0.10
"""Share of a lot by which a count is asked about: common practice, no source."""
LEAST_LOT_G, MOST_LOT_G = 500.0, 5_000_000.0
"""A lot is asked about below and beyond: kilograms typed as grams, or grams as kilograms."""
MOST_LEAF_G = 20_000.0
MOST_PIECES = 1_000
"""What is asked about where no quota says better: common practice, no source."""


def doubt(entry: Entry, room: Room) -> str | None:
    """Why the entry should be asked about, or None; it is judged before it is recorded."""
    asked = _ASKED.get(entry["kind"])
    return asked(cast(Mapping[str, Any], entry), room) if asked else None


def _weight(entry: Mapping[str, Any], _room: Room) -> str | None:
    target = entry.get("target")
    if not target or entry["measure"] == "draw":
        return None
    readings = entry["readings"] if entry["kind"] == "check" else [entry["reading"]]
    worst = max(((reading - target) / target for reading in readings), key=abs)
    if abs(worst) <= FAR_OFF:
        return None
    if worst > 0:
        return say("{percent:.0f} % over target", percent=100 * worst)
    return say("{percent:.0f} % under target", percent=-100 * worst)


def _check(entry: Mapping[str, Any], room: Room) -> str | None:
    return _weight(entry, room) or _typed_twice(entry, room)


def _typed_twice(entry: Mapping[str, Any], room: Room) -> str | None:
    """The very readings of the bench's latest check, soon after it; one reading may repeat."""
    checks, readings = room.ledger.bench(entry["bench"]).checks, tuple(entry["readings"])
    if not checks or len(readings) < 2:
        return None
    last = checks[-1]
    same = (last.measure, last.leaf, last.readings)
    was = local(last.at, last.offset)
    ago = local(entry["at"], entry["offset"]) - was
    if same != (entry["measure"], entry.get("leaf"), readings) or abs(ago) >= SOON:
        return None
    return say(
        "the same readings are recorded already, entry {id} at {time}",
        id=last.id,
        time=f"{was:%H:%M}",
    )


def _count(entry: Mapping[str, Any], room: Room) -> str | None:
    n = entry["n"] if "n" in entry else sum(entry["faults"].values())
    quota = room.ledger.seat(entry["bench"], room.version).quota
    if quota is not None and n > quota:
        return say("{n} at once is more than the day's quota of {quota}", n=n, quota=quota)
    return say("{n} at once is a great many", n=n) if quota is None and n > MOST_PIECES else None


def _of_the_good(entry: Mapping[str, Any], room: Room) -> str | None:
    """More set aside or given away than there are good ones, those of earlier days apart."""
    many = _count(entry, room)
    runs = room.ledger.bench(entry["bench"]).runs.values()
    good = sum(run.good for run in runs)
    away = sum(run.held + run.workers + run.panel for run in runs)
    if many or entry["n"] + away <= good:
        return many
    left = max(0, good - away)
    return say_many(
        left,
        "{set_aside} is more than the {n} good cigar at hand",
        "{set_aside} is more than the {n} good cigars at hand",
        set_aside=entry["n"],
    )


def _second(entry: Mapping[str, Any], room: Room) -> str | None:
    """More seconds than good ones so far: perhaps the one was typed for the other."""
    many = _count(entry, room)
    runs = room.ledger.bench(entry["bench"]).runs.values()
    good = sum(run.good for run in runs)
    seconds = entry["n"] + sum(run.second for run in runs)
    if many or seconds <= good:
        return many
    return say_many(
        good,
        "that makes {seconds} seconds, more than the {n} good cigar so far",
        "that makes {seconds} seconds, more than the {n} good cigars so far",
        seconds=seconds,
    )


def _release(entry: Mapping[str, Any], room: Room) -> str | None:
    held = room.ledger.held(entry["bench"])
    if entry["n"] <= held:
        return None
    return say("{n} is more than the {held} on hold", n=entry["n"], held=held)


def _take(entry: Mapping[str, Any], room: Room) -> str | None:
    return _too_much(entry, room) or _short(entry, room)


def _short(entry: Mapping[str, Any], room: Room) -> str | None:
    """More of a lot than there is of it, told as it would lie on the scale today."""
    if "lot" not in entry or not _is_short(entry, room):
        return None
    states = {state.lot: state for state in lots_of(room.ledger, entry["leaf"])}
    lot = entry["lot"]
    left_g = max(0.0, states[lot].on_hand_g) if lot in states else 0.0
    left_g = on_scale(left_g, room.house.house.standard_moisture, entry["moisture"])
    others = [s.lot for s in states.values() if s.lot != lot and s.on_hand_g >= LEFT_G]
    says = say("lot {lot}: by the records only {left_g:.0f} g are on hand", lot=lot, left_g=left_g)
    if not others:
        return says
    return say("{says}; there is more in {others}", says=says, others=joined(", ", others))


def _is_short(moved: Mapping[str, Any], room: Room) -> bool:
    """Whether taking so much would leave less than nothing, by more than the scale can tell."""
    leaf, lot = moved["leaf"], moved["lot"]
    lacks_g = short_by(room.ledger, leaf, lot, moved["grams"], moved["moisture"])
    return lacks_g > room.house.house.scale_division_g


def _receive(entry: Mapping[str, Any], room: Room) -> str | None:
    if any(state.lot == entry["lot"] for state in lots_of(room.ledger, entry["leaf"])):
        return say("lot {lot} is in stock already, and this adds to it", lot=entry["lot"])
    grams = entry["grams"]
    if grams < LEAST_LOT_G:
        return say(
            "{grams:g} g is little for a lot; kilograms are typed as {grams:g}kg", grams=grams
        )
    return say("a great deal for a lot") if grams > MOST_LOT_G else None


def _stocktake(entry: Mapping[str, Any], room: Room) -> str | None:
    state = next((s for s in lots_of(room.ledger, entry["leaf"]) if s.lot == entry["lot"]), None)
    if state is None:
        return say("lot {lot} of {leaf} was never received", lot=entry["lot"], leaf=entry["leaf"])
    standard = room.house.house.standard_moisture
    found_g = at_standard(entry["grams"], standard, entry["moisture"])
    off_g = found_g - state.on_hand_g
    if abs(off_g) <= FAR_OFF_STOCK * max(state.on_hand_g, found_g):
        return None
    off_kg = abs(off_g) / 1000
    if off_g > 0:
        return say("that is {off_kg:.1f} kg more than the records have on hand", off_kg=off_kg)
    return say("that is {off_kg:.1f} kg less than the records have on hand", off_kg=off_kg)


def _too_much(entry: Mapping[str, Any], room: Room) -> str | None:
    need_g = _needed_g(entry, room)
    if entry["grams"] <= (MOST_LEAF_G if need_g is None else TIMES_NEEDED * need_g):
        return None
    if need_g is None:
        return say("{grams:.0f} g at once is a great deal", grams=entry["grams"])
    return say(
        "{grams:.0f} g is over {times:g} times the quota's {need_g:.0f} g",
        grams=entry["grams"],
        times=TIMES_NEEDED,
        need_g=need_g,
    )


def _needed_g(entry: Mapping[str, Any], room: Room) -> float | None:
    """Grams of the leaf that the bench's quota needs at today's moisture; None where unknown."""
    quota = room.ledger.seat(entry["bench"], room.version).quota
    if quota is None:
        return None
    try:
        card = room.card(entry["blend"], entry["vitola"])
    except BadInput:
        return None
    filler = [row.exact_g for row in card.classes if row.leaf == entry["leaf"]]
    cover = [c.issued_g for c in (card.binder, card.wrapper) if c.leaf == entry["leaf"]]
    piece_g = sum(filler) + sum(cover)
    return quota * piece_g if piece_g else None


def _back(entry: Mapping[str, Any], room: Room) -> str | None:
    moved = [e for e in room.ledger.bench(entry["bench"]).leaf if e["leaf"] == entry["leaf"]]
    has_g = sum(e["grams"] if e["kind"] == "take" else -e["grams"] for e in moved)
    if entry["grams"] <= has_g or not moved:
        return (
            None
            if moved or entry["grams"] <= MOST_LEAF_G
            else say("a great deal to return at once")
        )
    return say(
        "{grams:.0f} g is more than the {has_g:.0f} g the bench has of it",
        grams=entry["grams"],
        has_g=has_g,
    )


def _scrap(entry: Mapping[str, Any], _room: Room) -> str | None:
    return _OFFCUTS[entry["kind"]] if entry["grams"] > MOST_LEAF_G else None


_OFFCUTS = {
    "scrap": say("a great deal of cuttings at once"),
    "stem": say("a great deal of stem at once"),
    "sweepings": say("a great deal of sweepings at once"),
}


def _moisture(entry: Mapping[str, Any], room: Room) -> str | None:
    was = room.ledger.moisture(entry["leaf"], room.version).moisture
    if abs(entry["moisture"] - was) <= MOISTURE_JUMP:
        return None
    return say(
        "it was {was:.1f} % before, and every card with this leaf will change", was=100 * was
    )


def _roll(entry: Mapping[str, Any], room: Room) -> str | None:
    quota = entry.get("quota")
    was = room.ledger.seat(entry["bench"], room.version).quota
    if quota is None or quota <= (MOST_PIECES if was is None else max(MOST_PIECES, 3 * was)):
        return None
    return say("a quota of {quota} is a great many", quota=quota)


def _undo(entry: Mapping[str, Any], room: Room) -> str | None:
    voided = room.ledger.entries[entry["voids"]]
    if voided["terminal"] != entry["terminal"]:
        return say(
            "entry {voids} was made at another terminal, {terminal}",
            voids=entry["voids"],
            terminal=voided["terminal"],
        )
    return _issued_since(cast(Mapping[str, Any], voided), room)


def _issued_since(voided: Mapping[str, Any], room: Room) -> str | None:
    """Leaf that came in or back and is issued again; a later count stands without it."""
    if voided["kind"] not in ("receive", "back") or "lot" not in voided:
        return None
    lot, moves = voided["lot"], room.ledger.stock_entries(voided["leaf"])
    counted = any(
        e["kind"] == "stocktake" and e["lot"] == lot and e["id"] > voided["id"] for e in moves
    )
    if counted or not _is_short(voided, room):
        return None
    return say(
        "leaf of lot {lot} was issued since: by the records less than none would be on hand",
        lot=lot,
    )


_ASKED: dict[str, Callable[[Mapping[str, Any], Room], str | None]] = {
    "check": _check,
    "reading": _weight,
    "made": _count,
    "good": _count,
    "rework": _count,
    "fail": _count,
    "take": _take,
    "back": _back,
    "scrap": _scrap,
    "stem": _scrap,
    "sweepings": _scrap,
    "second": _second,
    "hold": _of_the_good,
    "workers": _of_the_good,
    "panel": _of_the_good,
    "release": _release,
    "receive": _receive,
    "stocktake": _stocktake,
    "moisture": _moisture,
    "roll": _roll,
    "undo": _undo,
}
