"""One bench's day, from its morning leaf to its cleared table, as the lines typed about it.

What is typed follows from what happens: bunches weigh what the hand makes them weigh, the
leaf they hold leaves the bench's stock, and what is left over is what comes back.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator, Sequence

from core.entry import requests as ask
from core.house.model import Bench, DrawWindow
from core.recipe.card import Card
from demo.counting import Pieces
from demo.dice import dice
from demo.habits import (
    BETWEEN_COUNTS,
    BETWEEN_ISSUES,
    BETWEEN_WEIGHINGS,
    CLEARED,
    ISSUED,
    KEYED,
    MORNING,
    SEATED,
    SHIFT_MINUTES,
    STRETCHES,
    Stretch,
)
from demo.hands import Hand
from demo.stock import Shed, Stock
from demo.story import Change, Slip, change_after, changed_on, slip_after
from demo.today import CLERK, INSPECTOR, SUPERVISORS, Today, Typed
from demo.weighing import (
    BUNDLE,
    FIRST_PIECES,
    a_bundle,
    a_check,
    a_draw,
    a_measure,
    shown,
)


class BenchDay:
    """A bench as its day goes on, `place` being its place in the room; to be run once."""

    def __init__(self, today: Today, bench: Bench, place: int, hand: Hand) -> None:
        house = today.house
        self._today = today
        self._bench = bench
        self._hand = hand
        self._place = place
        self._dice = dice(today.habits.seed, today.working_day, "bench", bench.number)
        half = math.ceil(len(house.benches) / len(SUPERVISORS))
        self._supervisor, self._in_round = SUPERVISORS[place // half], place % half
        self._vitola = bench.vitola
        self._blend = house.blend[bench.blend]
        self._covers = tuple(house.cover[c] for c in (self._blend.binder, self._blend.wrapper))
        leaves = (*self._blend.shares, *(cover.code for cover in self._covers))
        self._stock = Stock(leaves, house.house.standard_moisture)
        habits, of_bench = today.habits, self._dice
        cuttings, stem = of_bench.uniform(*habits.cuttings), of_bench.uniform(*habits.stem)
        self._shed = Shed(cuttings, stem, habits.floor, habits.dust)
        self._pieces = Pieces()
        self._first_piece = True

    def lines(self) -> Iterator[Typed]:
        """The day, in the order in which it happens at this bench."""
        yield from self._back_at_its_own()
        yield from self._issue(ISSUED, MORNING)
        for nth, stretch in enumerate(STRETCHES):
            if stretch.issued is not None:
                yield from self._issue(stretch.issued, STRETCHES[nth:])
            yield from self._weigh(stretch, self._work(stretch))
            if stretch.counted is None:
                continue
            at = stretch.counted + self._place * BETWEEN_COUNTS
            change = change_after(self._today.working_day, self._bench.number, nth)
            slip = slip_after(self._today.working_day, self._bench.number, nth)
            ends = change is not None or stretch is STRETCHES[-1]
            yield from self._count(at, stretch, slip, ends=ends)
            if change is not None:
                yield self._change(at + BETWEEN_COUNTS, change)
        yield from self._clear()

    # -- leaf -----------------------------------------------------------------------------

    def _issue(self, sets_out: dt.timedelta, ahead: Sequence[Stretch]) -> Iterator[Typed]:
        """Leaf for the stretches ahead: by the recipe, with an allowance, less what is there."""
        habits, air = self._today.habits, self._today.air[ahead[0].air]
        minutes = sum(stretch.minutes for stretch in ahead)
        bunches = self._pace() * minutes * (1 + habits.allowance)
        at = sets_out + self._place * BETWEEN_ISSUES
        for leaf, standard_g in self._needs(self._card(ahead[0])).items():
            short_g = self._stock.short(leaf, bunches * standard_g, air.measured[leaf])
            steps = math.ceil(short_g / habits.issue_step_g)
            if steps > 0:
                issued_g = float(steps * habits.issue_step_g)
                self._stock.put(leaf, issued_g, air.true[leaf])
                yield CLERK.types(at, ask.Leaf(self._bench.number, "take", leaf, issued_g))
                at += KEYED

    def _needs(self, card: Card) -> dict[str, float]:
        """Standard grams of each leaf in one bunch and on it."""
        filler_g = card.packing.filler_standard_g
        needs = {leaf: filler_g * share for leaf, share in self._blend.shares.items()}
        return needs | {cover.code: cover.pieces * cover.half_leaf_g for cover in self._covers}

    def _clear(self) -> Iterator[Typed]:
        """Cuttings and stem weighed, leaf given back."""
        true, number = self._today.air[STRETCHES[-1].air].true, self._bench.number
        at = CLEARED + self._place * BETWEEN_COUNTS
        stock = self._stock
        cuttings_g = float(round(stock.together(stock.cuttings, true)))
        yield CLERK.types(at, ask.Scrap(number, cuttings_g))
        at += KEYED
        stem_g = float(round(stock.together(stock.stem, true)))
        yield CLERK.types(at, ask.Scrap(number, stem_g, kind="stem"))
        for leaf in self._stock.left:
            at += KEYED
            back_g = float(round(stock.weighed(leaf, true[leaf])))
            if back_g > 0:
                yield CLERK.types(at, ask.Leaf(number, "back", leaf, back_g))

    @property
    def floor_g(self) -> float:
        """What lies on the floor when the day is over, standard grams."""
        return sum(self._stock.floor.values())

    # -- bunches --------------------------------------------------------------------------

    def _pace(self) -> float:
        """Bunches a minute: the quota of what is rolled, at the pair's own pace."""
        benches = (self._bench, *self._today.house.benches)
        quota = next(b.quota for b in benches if b.vitola == self._vitola and b.quota)
        return quota * self._hand.pace / SHIFT_MINUTES

    def _card(self, stretch: Stretch) -> Card:
        return self._today.card(self._blend.code, self._vitola, stretch.air)

    def _work(self, stretch: Stretch) -> float:
        """Make bunches for a stretch; how much heavier than the recipe they are, as a share.

        Portions are weighed out for a mould of bunches at a time, so that the classes keep
        their shares whatever the scale rounds off a single bunch.
        """
        habits, card = self._today.habits, self._card(stretch)
        true = self._today.air[stretch.air].true
        heavier = self._hand.bias + self._dice.gauss(0, habits.wander_sd)
        bunches = round(self._pace() * stretch.minutes * self._dice.gauss(1, habits.hurry_sd))
        chance = self._dice.gauss(0, self._hand.spread * math.sqrt(bunches))
        targets = bunches * (1 + heavier) + chance
        for row in card.classes:
            laid_g = targets * row.exact_g
            self._stock.lay(row.leaf, laid_g, true[row.leaf], self._shed)
        standard = self._today.house.house.standard_moisture
        for cover in self._covers:
            whole_g = bunches * cover.pieces * cover.half_leaf_g
            torn = Shed(floor=habits.floor, lost=self._dice.uniform(*habits.spoilt_cover))
            self._stock.lay(cover.code, whole_g, standard, torn)
        self._pieces.made += bunches
        return heavier

    def _weigh(self, stretch: Stretch, heavier: float) -> Iterator[Typed]:
        """The supervisor's round: first pieces always, others but for a bench passed over."""
        house, habits, dice = self._today.house.house, self._today.habits, self._dice
        first, self._first_piece = self._first_piece, False
        if not first and dice.random() < habits.missed_round:
            return
        measure = "bunch" if first else a_measure(dice, habits)
        several = FIRST_PIECES if first else house.readings
        shares = self._shares(heavier, several)
        readings = shown(self._card(stretch), measure, shares, house.scale_division_g)
        at = stretch.weighed + self._in_round * BETWEEN_WEIGHINGS
        at += dt.timedelta(seconds=dice.randrange(60))
        for later, request in a_check(dice, habits, self._bench.number, readings, measure):
            yield self._supervisor.types(at + later, request)

    def _shares(self, heavier: float, pieces: int) -> tuple[float, ...]:
        """How much heavier than the recipe each of some pieces is."""
        return tuple(self._dice.gauss(heavier, self._hand.spread) for _ in range(pieces))

    def _count(
        self, at: dt.timedelta, stretch: Stretch, slip: Slip | None, *, ends: bool
    ) -> Iterator[Typed]:
        """The inspector's tour; what is typed for another bench is undone and typed again."""
        habits, number = self._today.habits, self._bench.number
        worse = self._hand.spread / habits.spread
        for request in self._pieces.tour(number, self._dice, habits, worse=worse, ends=ends):
            if slip is not None and isinstance(request, ask.Count) and request.kind == "good":
                yield INSPECTOR.types(at, request._replace(bench=slip.typed_for))
                yield INSPECTOR.types(at + KEYED, ask.Undo(reason=slip.reason))
                at += 2 * KEYED
            yield INSPECTOR.types(at, request)
            at += KEYED
        if stretch is STRETCHES[-1]:
            yield INSPECTOR.types(at, ask.Count(number, "workers", habits.workers))
            at += KEYED
        yield from self._sample(at, stretch)

    def _sample(self, at: dt.timedelta, stretch: Stretch) -> Iterator[Typed]:
        """Now and then cigars on the draw bench, and at the day's end a bundle on the scale."""
        house, habits, number = self._today.house, self._today.habits, self._bench.number
        draw = house.vitola[self._vitola].draw
        if isinstance(draw, DrawWindow) and self._dice.random() < habits.draws:
            yield INSPECTOR.types(at, a_draw(self._dice, number, draw))
        if stretch is STRETCHES[-1] and self._dice.random() < habits.bundles:
            heavier = self._shares(self._hand.bias, BUNDLE)
            division_g = house.house.scale_division_g
            bundle = a_bundle(number, self._card(stretch), heavier, division_g)
            yield INSPECTOR.types(at + KEYED, bundle)

    # -- what is rolled -------------------------------------------------------------------

    def _back_at_its_own(self) -> Iterator[Typed]:
        """The morning after a change of vitola, the bench rolls its own again."""
        if changed_on(self._today.working_day - 1, self._bench.number):
            yield self._supervisor.types(SEATED, ask.Roll(self._bench.number, self._vitola))

    def _change(self, at: dt.timedelta, change: Change) -> Typed:
        self._vitola, self._first_piece = change.vitola, True
        return self._supervisor.types(at, ask.Roll(change.bench, change.vitola))
