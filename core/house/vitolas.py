"""`[[vitola]]`: a size, its shape along the length, and what its checks allow."""

from __future__ import annotations

from itertools import pairwise
from typing import get_args

from core.house import amounts, limits
from core.house.codes import Known
from core.house.fields import Fields
from core.house.house_rules import DRAW_RISES
from core.house.model import DialWindow, DrawWindow, Shape, Station, Vitola
from core.house.shown import shown
from core.say import say

VITOLA_KEYS = (
    *("code", "ring", "length", "shape", "profile", "tolerance", "draw"),
    *("draw_rises", "piece_rate", "box", "price"),
)
SHAPES: tuple[Shape, ...] = get_args(Shape)
STATION_PLACE = say("profile: station {n}: place")
STATION_RING = say("profile: station {n}: ring")
END_MM = 0.05
"""How far the last station may lie from the length: what rounding inches to 0.1 mm leaves."""


def read_vitola(table: Fields, known: Known) -> Vitola | None:
    """A vitola; a figurado has a profile that agrees with its ring and length, no other has one."""
    table.only(VITOLA_KEYS)
    ring = table.number("ring", limits.RING, need=True)
    length = table.amount("length", amounts.LENGTH, limits.LENGTH_MM, need=True)
    shape = table.choice("shape", SHAPES) if table.has("shape") else SHAPES[0]
    return table.make(
        Vitola,
        code=table.code(known.vitola),
        ring=ring,
        length_mm=length,
        shape=shape,
        profile=_profile(table, shape, ring, length),
        tolerance=table.tolerance("tolerance"),
        draw=_draw(table),
        draw_rises=table.choice("draw_rises", DRAW_RISES),
        piece_rate=table.number("piece_rate", limits.MONEY),
        box=table.number("box", limits.MONEY),
        price=table.number("price", limits.PRICE),
    )


def _profile(
    table: Fields, shape: Shape | None, ring: float | None, length_mm: float | None
) -> tuple[Station, ...]:
    if not table.has("profile"):
        if shape == "figurado":
            table.wrong(
                say('a figurado needs its profile, from the foot: profile = [["0 mm", 40], …]')
            )
        return ()
    if shape in ("parejo", "pressed"):
        table.wrong(say('profile is for a figurado; shape here is "{shape}"', shape=shape))
    stations = _stations(table)
    if stations:
        _along(table, stations)
        if length_mm is not None and abs(stations[-1].at_mm - length_mm) > END_MM:
            table.wrong(
                say(
                    "profile ends at {end_mm:.6g} mm; it must end at the length, "
                    "{length_mm:.6g} mm",
                    end_mm=stations[-1].at_mm,
                    length_mm=length_mm,
                )
            )
        greatest = max(station.ring for station in stations)
        if ring is not None and greatest != ring:
            table.wrong(
                say(
                    "profile is thickest at ring {greatest:g}, but ring is {ring:g}",
                    greatest=greatest,
                    ring=ring,
                )
            )
    if length_mm is not None and stations:
        return (*stations[:-1], Station(at_mm=length_mm, ring=stations[-1].ring))
    return stations


def _stations(table: Fields) -> tuple[Station, ...]:
    """The stations as written; none if one of them cannot be read."""
    value = table.raw("profile")
    if not isinstance(value, list) or not 2 <= len(value) <= limits.STATIONS:
        table.wrong(
            say(
                'profile must list 2 to {most} stations such as ["0 mm", 40], from the foot; '
                "found {found}",
                most=limits.STATIONS,
                found=_count(value),
            )
        )
        return ()
    found: list[Station] = []
    for place, pair in enumerate(value, start=1):
        if not isinstance(pair, list) or len(pair) != 2:
            table.wrong(say('profile: station {n} must be a pair such as ["0 mm", 40]', n=place))
            continue
        reach = limits.Range(0, limits.LENGTH_MM.high)
        at_mm = table.as_amount(STATION_PLACE.format(n=place), pair[0], amounts.LENGTH, reach)
        ring = table.as_number(STATION_RING.format(n=place), pair[1], limits.STATION_RING)
        if at_mm is not None and ring is not None:
            found.append(Station(at_mm=at_mm, ring=ring))
    return tuple(found) if len(found) == len(value) else ()


def _along(table: Fields, stations: tuple[Station, ...]) -> None:
    """Note a profile that does not begin at the foot, or does not go on from there."""
    if stations[0].at_mm != 0:
        table.wrong(
            say('profile begins at {at_mm:g} mm; the foot is at "0 mm"', at_mm=stations[0].at_mm)
        )
    for before, after in pairwise(stations):
        if before.at_mm < after.at_mm < before.at_mm + limits.STATIONS_APART_MM:
            table.wrong(
                say(
                    "profile: {after:g} mm is too close after {before:g} mm; stations lie at "
                    "least {apart:g} mm apart",
                    after=after.at_mm,
                    before=before.at_mm,
                    apart=limits.STATIONS_APART_MM,
                )
            )
        elif after.at_mm <= before.at_mm:
            table.wrong(
                say(
                    "profile: {after:g} mm comes after {before:g} mm; stations must go from the "
                    "foot to the head",
                    after=after.at_mm,
                    before=before.at_mm,
                )
            )


def _draw(table: Fields) -> DrawWindow | DialWindow | None:
    """Two pressures, or two readings of a dial, the lower one first."""
    value = table.raw("draw")
    if value is None:
        return None
    if not isinstance(value, list) or len(value) != 2:
        table.wrong(
            say(
                'draw must be two pressures, ["40 mmH2O", "90 mmH2O"], or two readings of a dial, '
                '["3 dial", "7 dial"]; found {found}',
                found=_count(value),
            )
        )
        return None
    on_dial = any(isinstance(side, str) and side.strip().endswith("dial") for side in value)
    kind, within = (
        (amounts.DIAL, limits.DRAW_DIAL) if on_dial else (amounts.PRESSURE, limits.DRAW_MMH2O)
    )
    low, high = (
        table.as_amount(name, side, kind, within)
        for name, side in zip((say("draw: low"), say("draw: high")), value, strict=True)
    )
    if low is None or high is None:
        return None
    if low >= high:
        table.wrong(
            say(
                "draw: {low:g} to {high:g} {unit} is the wrong way round",
                low=low,
                high=high,
                unit=kind.unit,
            )
        )
        return None
    return DialWindow(low=low, high=high) if on_dial else DrawWindow(low_mmh2o=low, high_mmh2o=high)


def _count(value: object) -> str:
    return say("{n} of them", n=len(value)) if isinstance(value, list) else shown(value)
