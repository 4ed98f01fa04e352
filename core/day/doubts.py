"""What is asked about once before it is recorded: figures that are possible but hardly meant."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, cast

from core.day.entries import Entry
from core.day.lots import LEFT_G, lots_of, short_by
from core.day.room import Room
from core.problems import BadInput
from core.recipe.moisture import at_standard, on_scale

FAR_OFF = 0.30
"""Share of the target beyond which a reading is asked about."""
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
    return f"{abs(worst):.0%} {'over' if worst > 0 else 'under'} target"


def _count(entry: Mapping[str, Any], room: Room) -> str | None:
    n = entry["n"] if "n" in entry else sum(entry["faults"].values())
    quota = room.ledger.seat(entry["bench"], room.version).quota
    if quota is not None and n > quota:
        return f"{n} at once is more than the day's quota of {quota}"
    return f"{n} at once is a great many" if quota is None and n > MOST_PIECES else None


def _of_the_good(entry: Mapping[str, Any], room: Room) -> str | None:
    """More set aside or given away than there are good ones, those of earlier days apart."""
    many = _count(entry, room)
    runs = room.ledger.bench(entry["bench"]).runs.values()
    good = sum(run.good for run in runs)
    away = sum(run.held + run.workers + run.panel for run in runs)
    if many or entry["n"] + away <= good:
        return many
    return f"{entry['n']} is more than the {_good(max(0, good - away))} at hand"


def _second(entry: Mapping[str, Any], room: Room) -> str | None:
    """More seconds than good ones so far: perhaps the one was typed for the other."""
    many = _count(entry, room)
    runs = room.ledger.bench(entry["bench"]).runs.values()
    good = sum(run.good for run in runs)
    seconds = entry["n"] + sum(run.second for run in runs)
    if many or seconds <= good:
        return many
    return f"that makes {seconds} seconds, more than the {_good(good)} so far"


def _good(n: int) -> str:
    return f"{n} good cigar{'' if n == 1 else 's'}"


def _release(entry: Mapping[str, Any], room: Room) -> str | None:
    held = room.ledger.held(entry["bench"])
    if entry["n"] <= held:
        return None
    return f"{entry['n']} is more than the {held} on hold"


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
    more = f"; there is more in {', '.join(others)}" if others else ""
    return f"lot {lot}: by the records only {left_g:.0f} g are on hand{more}"


def _is_short(moved: Mapping[str, Any], room: Room) -> bool:
    """Whether taking so much would leave less than nothing, by more than the scale can tell."""
    leaf, lot = moved["leaf"], moved["lot"]
    lacks_g = short_by(room.ledger, leaf, lot, moved["grams"], moved["moisture"])
    return lacks_g > room.house.house.scale_division_g


def _receive(entry: Mapping[str, Any], room: Room) -> str | None:
    if any(state.lot == entry["lot"] for state in lots_of(room.ledger, entry["leaf"])):
        return f"lot {entry['lot']} is in stock already, and this adds to it"
    grams = entry["grams"]
    if grams < LEAST_LOT_G:
        return f"{grams:g} g is little for a lot; kilograms are typed as {grams:g}kg"
    return "a great deal for a lot" if grams > MOST_LOT_G else None


def _stocktake(entry: Mapping[str, Any], room: Room) -> str | None:
    state = next((s for s in lots_of(room.ledger, entry["leaf"]) if s.lot == entry["lot"]), None)
    if state is None:
        return f"lot {entry['lot']} of {entry['leaf']} was never received"
    standard = room.house.house.standard_moisture
    found_g = at_standard(entry["grams"], standard, entry["moisture"])
    off_g = found_g - state.on_hand_g
    if abs(off_g) <= FAR_OFF_STOCK * max(state.on_hand_g, found_g):
        return None
    way = "more" if off_g > 0 else "less"
    return f"that is {abs(off_g) / 1000:.1f} kg {way} than the records have on hand"


def _too_much(entry: Mapping[str, Any], room: Room) -> str | None:
    need_g = _needed_g(entry, room)
    if entry["grams"] <= (MOST_LEAF_G if need_g is None else TIMES_NEEDED * need_g):
        return None
    if need_g is None:
        return f"{entry['grams']:.0f} g at once is a great deal"
    return f"{entry['grams']:.0f} g is over {TIMES_NEEDED:g} times the quota's {need_g:.0f} g"


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
        return None if moved or entry["grams"] <= MOST_LEAF_G else "a great deal to return at once"
    return f"{entry['grams']:.0f} g is more than the {has_g:.0f} g the bench has of it"


def _scrap(entry: Mapping[str, Any], _room: Room) -> str | None:
    what = _OFFCUTS[entry["kind"]]
    return f"a great deal of {what} at once" if entry["grams"] > MOST_LEAF_G else None


_OFFCUTS = {"scrap": "cuttings", "stem": "stem", "sweepings": "sweepings"}


def _moisture(entry: Mapping[str, Any], room: Room) -> str | None:
    was = room.ledger.moisture(entry["leaf"], room.version).moisture
    if abs(entry["moisture"] - was) <= MOISTURE_JUMP:
        return None
    return f"it was {was:.1%} before, and every card with this leaf will change"


def _roll(entry: Mapping[str, Any], room: Room) -> str | None:
    quota = entry.get("quota")
    was = room.ledger.seat(entry["bench"], room.version).quota
    if quota is None or quota <= (MOST_PIECES if was is None else max(MOST_PIECES, 3 * was)):
        return None
    return f"a quota of {quota} is a great many"


def _undo(entry: Mapping[str, Any], room: Room) -> str | None:
    voided = room.ledger.entries[entry["voids"]]
    if voided["terminal"] != entry["terminal"]:
        return f"entry {entry['voids']} was made at another terminal, {voided['terminal']}"
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
    return f"leaf of lot {lot} was issued since: by the records less than none would be on hand"


_ASKED: dict[str, Callable[[Mapping[str, Any], Room], str | None]] = {
    "check": _weight,
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
