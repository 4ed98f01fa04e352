"""Today's checks of a bench as approved bunches of the house book."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import fmean, stdev
from typing import NamedTuple

from core.desk.figures import decimals, fixed
from core.desk.line_save import Written, checked
from core.desk.today import Today
from core.house.model import Approved
from core.problems import BadInput
from core.say import Said, say, say_many

PLACES = 3
"""Decimals of grams kept: finer than any bench scale, as the mean of many bunches is."""


class Approval(NamedTuple):
    """An entry for the house book, the house book with it, and what it would do in words."""

    entry: Approved
    written: Written
    says: str


def approved(today: Today, number: str) -> Approval:
    """What the bench's checks of bunches and filler since its last change of vitola approve.

    Only checks under the house book in force count, so that none is approved twice. Of a bunch
    what the binder weighs on today's card is taken off; the rest is filler. BadInput says why
    there is nothing to approve, or why the house book cannot be written.
    """
    house, version = today.loaded, today.house_version
    seat = today.ledger.seat(number, version)
    grams = list(_filler_g(today, number))
    if not grams:
        raise BadInput(
            say(
                "bench {bench} has no check of bunches or filler under the house book in force; "
                "weigh some first, as {bench} 15.3 15.6 15.4",
                bench=number,
            )
        )
    entry = Approved(
        blend=seat.blend,
        vitola=seat.vitola,
        filler_g=round(fmean(grams), PLACES),
        bunches=len(grams),
        spread_g=(round(stdev(grams), PLACES) or None) if len(grams) > 1 else None,
    )
    places = decimals(today.division_g) + 1
    if entry.spread_g and entry.spread_g > entry.filler_g:
        raise BadInput(
            say(
                "the bunches of bench {bench} lie {spread} g apart, more than the filler of one, "
                "{mean} g: undo the readings that are wrong, then approve",
                bench=number,
                spread=fixed(entry.spread_g, places),
                mean=fixed(entry.filler_g, places),
            )
        )
    source = today.shelf.source(version)
    wanted = house._replace(approved=(*house.approved, entry))
    text = f"{source['toml'].rstrip()}\n\n{_toml(entry, number, today)}"
    return Approval(entry, checked(wanted, text, source["file"]), _says(entry, number, today))


def _filler_g(today: Today, number: str) -> Iterator[float]:
    """Standard grams of filler of each bunch weighed."""
    seat = today.ledger.seat(number, today.house_version)
    key = (today.house_version, seat.blend, seat.vitola)
    for check in today.ledger.bench(number).since_roll:
        if check.run == key and check.measure in ("bunch", "filler") and check.standard:
            on_it_g = today.card(number).binder.today_g if check.measure == "bunch" else 0.0
            yield from ((reading - on_it_g) * check.standard for reading in check.readings)


def _toml(entry: Approved, number: str, today: Today) -> str:
    lines = [
        f"# bench {number}, {today.day.isoformat()}",
        "[[approved]]",
        f'blend = "{entry.blend}"',
        f'vitola = "{entry.vitola}"',
        f'filler = "{entry.filler_g!r} g"',
        f"bunches = {entry.bunches}",
    ]
    if entry.spread_g:
        lines.append(f'spread = "{entry.spread_g!r} g"')
    return "\n".join(lines) + "\n"


def _says(entry: Approved, number: str, today: Today) -> Said:
    """What would be approved, beside what the size is packed to by the house book in force."""
    places = decimals(today.division_g) + 1
    packed_g = today.card(number).packing.filler_standard_g
    values = {
        "bench": number,
        "vitola": entry.vitola,
        "blend": entry.blend,
        "mean": fixed(entry.filler_g, places),
        "packed": fixed(packed_g, places),
    }
    if not entry.spread_g:
        return say_many(
            entry.bunches,
            "approve 1 bunch of bench {bench}, {vitola} in {blend}: filler {mean} g, till now "
            "{packed} g; in a new house book",
            "approve {n} bunches of bench {bench}, {vitola} in {blend}: filler {mean} g, till now "
            "{packed} g; in a new house book",
            **values,
        )
    return say(
        "approve {n} bunches of bench {bench}, {vitola} in {blend}: filler {mean} g ± {spread}, "
        "till now {packed} g; in a new house book",
        n=entry.bunches,
        spread=fixed(entry.spread_g, places),
        **values,
    )
