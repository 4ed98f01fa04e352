"""From a request to the entry that records it: judged, placed and stamped, or refused."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, cast

from core.day.judging import judged, open_check
from core.day.lots import lots_of, propose
from core.day.room import ALREADY_CLOSED, CLOSED, Draft, Room, Stamp, at_bench
from core.entry import requests as ask
from core.problems import BadInput, Problem
from core.say import joined, say

if TYPE_CHECKING:
    from core.day.entries import Entry


def compose(request: ask.Request, room: Room, stamp: Stamp, number: int) -> Entry:
    """The entry numbered `number` that records `request`; BadInput says why there is none."""
    if room.closed:
        raise BadInput(CLOSED)
    draft = _DRAFTS[type(request)](request, room, stamp, number)
    entry: Draft = {"id": number, "kind": draft.pop("kind"), **stamp._asdict()}
    if stamp.who is None:
        del entry["who"]
    entry["house"] = room.version
    return cast("Entry", entry | draft)


def _check(request: ask.Check, room: Room, _stamp: Stamp, _number: int) -> Draft:
    what = ask.Begin(request.bench, request.measure, request.leaf)
    held = judged(room, what, request.of, request.unit)
    return {"kind": "check", **held, "readings": list(request.readings)}


def _reading(request: ask.Reading, room: Room, stamp: Stamp, number: int) -> Draft:
    check = open_check(room, request.bench, stamp.terminal)
    what = ask.Begin(request.bench, "bunch")
    if check is not None:
        what = ask.Begin(request.bench, check.measure, check.leaf)
    elif room.begun is not None and room.begun.bench == request.bench:
        what = room.begun
    unit = request.unit or (check.draw.unit if check and check.draw else None)
    return {
        "kind": "reading",
        **judged(room, what, unit=unit),
        "reading": request.reading,
        "check": check.id if check else number,
        "needs": check.needs if check else room.house.house.readings,
    }


def _done(request: ask.Done, room: Room, stamp: Stamp, _number: int) -> Draft:
    check = open_check(room, request.bench, stamp.terminal)
    if check is None:
        raise BadInput(
            say(
                "bench {bench} has no open check here; type a reading to start one",
                bench=request.bench,
            )
        )
    return {"kind": "done", **at_bench(room, request.bench), "check": check.id}


def _count(request: ask.Count, room: Room, _stamp: Stamp, _number: int) -> Draft:
    return {"kind": request.kind, **at_bench(room, request.bench), "n": request.n}


def _hold(request: ask.Hold, room: Room, _stamp: Stamp, _number: int) -> Draft:
    draft: Draft = {"kind": "hold", **at_bench(room, request.bench), "n": request.n}
    if request.reason:
        draft["reason"] = request.reason
    return draft


def _fail(request: ask.Fail, room: Room, _stamp: Stamp, _number: int) -> Draft:
    return {"kind": "fail", **at_bench(room, request.bench), "faults": dict(request.faults)}


def _leaf(request: ask.Leaf, room: Room, _stamp: Stamp, _number: int) -> Draft:
    place = at_bench(room, request.bench)
    _must_use(request.leaf, request.bench, place["blend"], room)
    draft: Draft = {
        "kind": request.kind,
        **place,
        "leaf": request.leaf,
        "grams": request.grams,
        "moisture": _moistures(room, {request.leaf: 1.0}),
    }
    lot = _lot(request, room)
    return draft if lot is None else {**draft, "lot": lot}


def _lot(request: ask.Leaf, room: Room) -> str | None:
    """The lot named, as it is spelt in stock, else the one to be used; None where none is."""
    if request.lot is None:
        return propose(room.ledger, request.leaf, request.bench, request.kind)
    known = _lots(request.leaf, room)
    found = _as_in_stock(request.lot, known)
    if found is not None:
        return found
    if not known:
        raise BadInput(
            say(
                "{leaf} has no lot {lot}: no lot of it is in stock; a new lot comes in with: "
                "receive {leaf} {lot} WEIGHT",
                leaf=request.leaf,
                lot=request.lot,
            )
        )
    raise BadInput(
        say(
            "{leaf} has no lot {lot}: in stock are {known}; a new lot comes in with: "
            "receive {leaf} {lot} WEIGHT",
            leaf=request.leaf,
            lot=request.lot,
            known=joined(", ", known),
        )
    )


def _lots(leaf: str, room: Room) -> list[str]:
    return [state.lot for state in lots_of(room.ledger, leaf)]


def _as_in_stock(typed: str, known: Sequence[str]) -> str | None:
    """The lot as stock spells it; capitals tell no two lots apart."""
    return next((lot for lot in known if lot.casefold() == typed.casefold()), None)


def _scrap(request: ask.Scrap, room: Room, _stamp: Stamp, _number: int) -> Draft:
    place = at_bench(room, request.bench)
    draft: Draft = {"kind": request.kind, **place}
    if request.leaf is not None:
        _must_use(request.leaf, request.bench, place["blend"], room)
        draft["leaf"] = request.leaf
        shares: Mapping[str, float] = {request.leaf: 1.0}
    else:
        shares = room.house.blend[place["blend"]].shares
    return {**draft, "grams": request.grams, "moisture": _moistures(room, shares)}


def _sweepings(request: ask.Sweepings, room: Room, _stamp: Stamp, _number: int) -> Draft:
    """Of no leaf in particular they are as wet as the fillers are on the whole."""
    draft: Draft = {"kind": "sweepings"}
    if request.leaf is not None:
        draft["leaf"] = request.leaf
    filler = room.house.filler
    of = [request.leaf] if request.leaf is not None else list(filler or room.house.leaf)
    shares = dict.fromkeys(of, 1 / len(of))
    return {**draft, "grams": request.grams, "moisture": _moistures(room, shares)}


def _moistures(room: Room, shares: Mapping[str, float]) -> float:
    """The moisture of leaf mixed by these shares."""
    ledger, version = room.ledger, room.version
    return sum(share * ledger.moisture(leaf, version).moisture for leaf, share in shares.items())


def _in_stock(request: ask.Receive | ask.Stocktake, room: Room) -> Draft:
    moisture = request.moisture
    return {
        "leaf": request.leaf,
        "lot": _as_in_stock(request.lot, _lots(request.leaf, room)) or request.lot,
        "grams": request.grams,
        "moisture": _moistures(room, {request.leaf: 1.0}) if moisture is None else moisture,
    }


def _receive(request: ask.Receive, room: Room, _stamp: Stamp, _number: int) -> Draft:
    told = {"crop": request.crop, "bales": request.bales, "price_per_kg": request.price_per_kg}
    draft: Draft = {"kind": "receive", **_in_stock(request, room)}
    return draft | {key: value for key, value in told.items() if value is not None}


def _stocktake(request: ask.Stocktake, room: Room, _stamp: Stamp, _number: int) -> Draft:
    return {"kind": "stocktake", **_in_stock(request, room)}


def _must_use(leaf: str, bench: str, blend_code: str, room: Room) -> None:
    """Refuse leaf of another blend, unless the bench had it earlier today."""
    blend = room.house.blend[blend_code]
    used = (*blend.shares, blend.binder, blend.wrapper)
    if leaf in used:
        return
    if all(entry["leaf"] != leaf for entry in room.ledger.bench(bench).leaf):
        raise BadInput(
            say(
                "bench {bench} rolls {blend_code}, which has no {leaf}: expected one of {used}; if "
                "the blend changed, type: {bench} roll VITOLA BLEND",
                bench=bench,
                blend_code=blend_code,
                leaf=leaf,
                used=joined(", ", used),
            )
        )


def _roll(request: ask.Roll, room: Room, _stamp: Stamp, _number: int) -> Draft:
    seat = room.ledger.seat(request.bench, room.version)
    blend = request.blend or seat.blend
    try:
        room.card(blend, request.vitola)
    except BadInput as problem:
        raise BadInput(
            *(
                Problem(
                    say(
                        "bench {bench} cannot roll {vitola}",
                        bench=request.bench,
                        vitola=request.vitola,
                    ),
                    p.says,
                )
                for p in problem.problems
            )
        ) from problem
    draft: Draft = {
        "kind": "roll",
        "bench": request.bench,
        "blend": blend,
        "vitola": request.vitola,
    }
    if request.quota is not None:
        draft["quota"] = request.quota
    return draft


def _moisture(request: ask.Moisture, _room: Room, _stamp: Stamp, _number: int) -> Draft:
    return {"kind": "moisture", "leaf": request.leaf, "moisture": request.moisture}


def _undo(request: ask.Undo, room: Room, stamp: Stamp, _number: int) -> Draft:
    ledger = room.ledger
    target = request.entry if request.entry is not None else ledger.last_of(stamp.terminal)
    if target is None:
        raise BadInput(say("this terminal has no entry today to undo; name one: undo NUMBER"))
    voided = ledger.entries.get(target)
    if voided is None:
        raise BadInput(
            say("there is no entry {target} today to undo; the log lists them", target=target)
        )
    if voided["kind"] in ("undo", "close", "reopen"):
        raise BadInput(
            say(
                "entry {target} is of kind {kind}, which cannot be undone",
                target=target,
                kind=voided["kind"],
            )
        )
    if not ledger.live(target):
        raise BadInput(
            say(
                "entry {target} is already void, by entry {id}",
                target=target,
                id=ledger.undone[target]["id"],
            )
        )
    draft: Draft = {"kind": "undo", "voids": target}
    if request.reason:
        draft["reason"] = request.reason
    return draft


def _note(request: ask.Note, _room: Room, _stamp: Stamp, _number: int) -> Draft:
    draft: Draft = {"kind": "note", "text": request.text}
    if request.bench is not None:
        draft["bench"] = request.bench
    return draft


_DRAFTS: dict[type, Callable[[Any, Room, Stamp, int], Draft]] = {
    ask.Check: _check,
    ask.Reading: _reading,
    ask.Done: _done,
    ask.Count: _count,
    ask.Hold: _hold,
    ask.Fail: _fail,
    ask.Leaf: _leaf,
    ask.Scrap: _scrap,
    ask.Sweepings: _sweepings,
    ask.Receive: _receive,
    ask.Stocktake: _stocktake,
    ask.Roll: _roll,
    ask.Moisture: _moisture,
    ask.Undo: _undo,
    ask.Note: _note,
}


def end_of_day(kind: str, reason: str, room: Room, stamp: Stamp, number: int) -> Entry:
    """The entry that closes the day, or opens it again; BadInput where it already is so."""
    if (kind == "close") == room.ledger.closed:
        raise BadInput(ALREADY_CLOSED if room.ledger.closed else say("the day is already open"))
    if kind == "reopen" and not (reason.strip() and reason.isprintable()):
        raise BadInput(say("a closed day is opened again with a reason: bunchbook reopen REASON"))
    entry: Draft = {"id": number, "kind": kind, **stamp._asdict(), "house": room.version}
    if stamp.who is None:
        del entry["who"]
    if reason:
        entry["reason"] = reason
    return cast("Entry", entry)
