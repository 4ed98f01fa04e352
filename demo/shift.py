"""A working day of the whole room, as the lines typed at its terminals, in their order.

It is simulated, not played back: pairs work at their own pace, weight and evenness, leaf
dries while it lies open in a break, and the scale, the clerk and the inspector type what
they then see. The same seed gives the same lines.

Two things go wrong in the two weeks (`demo.story`): from the seventh working day on bench
17 grows heavier by 0.7 % a day, and on the ninth 600 g of ligero issued to bench 9 are
never seen again. Of which lots the leaf is issued is the storeroom's (`demo.storeroom`).
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from statistics import fmean

from core.entry import requests as ask
from core.house.model import HouseBook
from core.recipe.moisture import on_scale
from demo.air import air
from demo.bench import BenchDay
from demo.dice import dice
from demo.habits import HABITS, HANDED_OVER, KEYED, MEASURED, SWEPT, TASTED, Habits
from demo.hands import hands
from demo.house import in_use
from demo.story import FOR_PANEL, HANDOVER, MISSING, PANEL_TAKES, REMARKS, SET_ASIDE
from demo.today import CLERK, INSPECTOR, SUPERVISORS, CardOf, Today, Typed

WORKING_DAYS = tuple(
    dt.date(2026, 4, 20) + dt.timedelta(days=n)
    for n in range(15)
    if n % 7 != 6 and n != 11  # Sundays, and the first of May
)
"""Two weeks, Monday to Monday."""


def shift(
    house: HouseBook, working_day: int, cards: CardOf, habits: Habits = HABITS
) -> tuple[Typed, ...]:
    """Everything typed on a working day, counted from 0, up to its handover note."""
    moistures = air(house, habits, dice(habits.seed, working_day, "air"))
    today = Today(working_day, house, habits, moistures, cards)
    room = hands(house, habits, working_day)
    typed = [*_moistures(today), *_remarks(today), *_set_aside(working_day)]
    benches = [BenchDay(today, b, place, room[b.number]) for place, b in enumerate(house.benches)]
    for bench in benches:
        typed += bench.lines()
    typed.append(_swept(today, benches))
    return tuple(sorted(typed, key=lambda line: line.at))


def _moistures(today: Today) -> Iterator[Typed]:
    """The clerk's meter: every leaf in use in the morning, the filler again after each break."""
    every = in_use(today.house)
    filler = tuple(code for code in every if code in today.house.filler)
    for at, part, codes in zip(MEASURED, today.air, (every, filler, filler), strict=True):
        for nth, code in enumerate(codes):
            yield CLERK.types(at + nth * KEYED, ask.Moisture(code, part.measured[code]))


def _swept(today: Today, benches: Sequence[BenchDay]) -> Typed:
    """The floor of the room: dry by then, and as wet as the fillers that lay open."""
    house, true = today.house, today.air[-1].true
    moisture = fmean(true[leaf] for leaf in in_use(house) if leaf in house.filler)
    standard_g = sum(bench.floor_g for bench in benches)
    swept_g = on_scale(standard_g, today.house.house.standard_moisture, moisture)
    return CLERK.types(SWEPT, ask.Sweepings(float(round(swept_g))))


def _set_aside(working_day: int) -> Iterator[Typed]:
    """Good cigars put on hold and let go again, and those kept for the panel."""
    for aside in SET_ASIDE.get(working_day, ()):
        yield INSPECTOR.types(aside.at, aside.request)
    for nth, bench in enumerate(FOR_PANEL.get(working_day, ())):
        yield INSPECTOR.types(TASTED + nth * KEYED, ask.Count(bench, "panel", PANEL_TAKES))


def _remarks(today: Today) -> Iterator[Typed]:
    """Notes, and leaf that is written down as issued and goes elsewhere."""
    for at, text, bench in REMARKS.get(today.working_day, ()):
        yield SUPERVISORS[0].types(at, ask.Note(text, bench))
    if today.working_day in MISSING:
        bench, leaf, grams, at = MISSING[today.working_day]
        yield CLERK.types(at, ask.Leaf(bench, "take", leaf, grams))
    yield SUPERVISORS[0].types(HANDED_OVER, ask.Note(HANDOVER))
