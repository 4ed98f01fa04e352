"""What a check is of and held against: the window, the unit, the check that is still open."""

from __future__ import annotations

from core import checks
from core.checks import Window
from core.day.bench import CheckMade
from core.day.room import CLOSED, Draft, Room, at_bench
from core.entry import requests as ask
from core.house.model import HouseBook, Vitola
from core.measure import MEASURES, PRESSURE_DROP, WEIGHED, DrawScale, Measure
from core.problems import BadInput
from core.say import joined, say


def open_check(room: Room, bench: str, terminal: str) -> CheckMade | None:
    """The terminal's check at the bench that still waits for readings."""
    seat = room.ledger.seat(bench, room.version)
    for check in reversed(room.ledger.bench(bench).checks):
        if check.terminal == terminal and not check.closed:
            same = (check.run.blend, check.run.vitola) == (seat.blend, seat.vitola)
            return check if same else None
    return None


def begin(request: ask.Begin, room: Room, terminal: str) -> tuple[DrawScale | None, Window | None]:
    """What the readings to come will be judged by; BadInput says why there can be none."""
    if room.closed:
        raise BadInput(CLOSED)
    check = open_check(room, request.bench, terminal)
    if check is not None:
        raise BadInput(
            say(
                "bench {bench} has an open check here, {n} of {needs} readings; a blank line on "
                "its card closes it: Esc, then Enter",
                bench=request.bench,
                n=len(check.readings),
                needs=check.needs,
            )
        )
    draft = judged(room, request)
    scale = DrawScale(draft["unit"], draft["rises"]) if "unit" in draft else None
    if "target" not in draft:
        return scale, None
    return scale, Window(draft["target"], draft["low"], draft["high"])


def judged(room: Room, what: ask.Begin, of: int = 1, unit: ask.Unit | None = None) -> Draft:
    """What is measured at a bench and its window; `unit` is the one that was typed."""
    place = at_bench(room, what.bench)
    card = room.card(place["blend"], place["vitola"])
    vitola = room.house.vitola[place["vitola"]]
    draft: Draft = place | {"measure": what.measure}
    if of != 1:
        draft["of"] = of
    if what.leaf is not None:
        _must_be_filler(what.leaf, what.bench, place["blend"], room)
        draft["leaf"] = what.leaf
    if what.measure == "draw":
        scale = _draw_scale(vitola, room.house, unit)
        draft |= {"unit": scale.unit, "rises": scale.rises}
    window = checks.window(card, vitola, room.house, what.measure, of, what.leaf)
    if window is not None:
        draft |= {"target": window.target, "low": window.low, "high": window.high}
    if what.measure in WEIGHED:
        draft["standard"] = card.packing.filler_standard_g / card.exact_g
    _must_be_in(draft, unit)
    return draft


def _draw_scale(vitola: Vitola, house: HouseBook, unit: ask.Unit | None) -> DrawScale:
    """The vitola's own; without one what was typed, which nothing judges."""
    scale = checks.draw_scale(vitola, house)
    if scale is not None or unit != "dial":
        return scale or PRESSURE_DROP
    return DrawScale("dial", house.house.draw_rises or PRESSURE_DROP.rises)


def _must_be_in(draft: Draft, unit: ask.Unit | None) -> None:
    """Refuse a reading typed in a unit of something else than is measured."""
    measure = draft["measure"]
    own = draft.get("unit", "g" if measure in WEIGHED else "mm" if measure == "length" else None)
    if unit is not None and unit != own:
        raise BadInput(
            say(
                "bench {bench}, {vitola}: expected {wanted}, found {unit}: correct the unit, "
                "or type first what was measured",
                bench=draft["bench"],
                vitola=draft["vitola"],
                wanted=_wanted(measure, own),
                unit=unit,
            )
        )


def _wanted(measure: Measure, own: str | None) -> str:
    name = MEASURES[measure]
    if own is None:
        return say("{measure} without a unit", measure=name)
    return say("{measure} in {unit}", measure=name, unit=own)


def _must_be_filler(leaf: str, bench: str, blend_code: str, room: Room) -> None:
    shares = room.house.blend[blend_code].shares
    if leaf not in shares:
        raise BadInput(
            say(
                "bench {bench} rolls {blend_code}, which has no {leaf} in its filler: expected one "
                "of {shares}",
                bench=bench,
                blend_code=blend_code,
                leaf=leaf,
                shares=joined(", ", shares),
            )
        )
