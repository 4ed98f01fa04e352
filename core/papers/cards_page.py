"""Recipe cards to print and cut apart, and the code by which each is read back."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.desk.figures import decimals, fixed, percent
from core.house.model import Language
from core.measure import Measure
from core.papers.blocks import Big, Ticket, Tickets
from core.papers.page import html_page
from core.papers.words import Words, words_of
from core.recipe.card import Card
from core.recipe.cover import Laid
from core.recipe.portions import ClassRow

_TARGETS: tuple[Measure, ...] = ("bunch", "cigar")


class Behind(NamedTuple):
    """What cards were worked out from: the day, the house book's version, moistures by leaf."""

    date: dt.date
    version: int
    moistures: Mapping[str, float]
    division_g: float


def card_code(bench: str, date: dt.date) -> str:
    """Bench and date as a person reads them back: `B07-2026-05-04`, `B07-A-2026-05-04`."""
    digits, dash, letters = bench.partition("-")
    return f"B{digits.zfill(2)}{dash}{letters}-{date.isoformat()}"


def cards_html(cards: Sequence[Card], behind: Behind, language: Language) -> str:
    """The benches' cards on one page of HTML, four to a sheet; each card names its bench."""
    words = words_of(language)
    tickets = tuple(_ticket(card, behind, words) for card in cards)
    title = words.cards.format(date=behind.date.isoformat())
    return html_page(title, [Tickets(tickets)], language)


def _ticket(card: Card, behind: Behind, words: Words) -> Ticket:
    bench, places = card.bench or "", decimals(behind.division_g)
    big = [
        Big(f"{row.leaf_class} {row.leaf}", fixed(row.g, places), "g", _guide(row, words))
        for row in card.classes
    ]
    filler = card.targets["filler"]
    window = words.window.format(low=fixed(filler.low_g, places), high=fixed(filler.high_g, places))
    big.append(Big(words.filler, fixed(card.filler_g, places), "g", window))
    lines = [
        (words.target.format(name=words.measures[name]), _window(card, name, places, words))
        for name in _TARGETS
    ]
    if card.batch is not None:
        grams = ", ".join(f"{row.leaf} {fixed(row.g, places)} g" for row in card.batch.classes)
        total = fixed(card.batch.total_g, places)
        lines.append((words.batch.format(n=card.batch.bunches), f"{grams} = {total} g"))
    lines += [
        (name, _cover(cover, behind.moistures[cover.leaf]))
        for name, cover in ((words.binder, card.binder), (words.wrapper, card.wrapper))
    ]
    lines.append((words.date, behind.date.isoformat()))
    lines.append((words.book, words.version.format(n=behind.version)))
    size = words.ring.format(ring=f"{card.ring:g}", length=f"{card.length_mm:g}", blend=card.blend)
    return Ticket(
        code=card_code(bench, behind.date),
        title=f"{words.bench} {bench} · {card.vitola}",
        subtitle=size,
        big=tuple(big),
        lines=tuple(lines),
        notes=card.warnings,
    )


def _window(card: Card, name: str, places: int, words: Words) -> str:
    target = card.targets[name]
    low, high = fixed(target.low_g, places), fixed(target.high_g, places)
    return f"{fixed(target.target_g, places)} g, {words.window.format(low=low, high=high)}"


def _guide(row: ClassRow, words: Words) -> str:
    """How many half-leaves that is about, at which moisture."""
    said = words.half_leaf if row.half_leaves == 1 else words.half_leaves
    return said.format(n=f"{row.half_leaves:g}", moisture=_unbroken(row.moisture))


def _cover(cover: Laid, moisture: float) -> str:
    return f"{cover.leaf} × {cover.pieces:g} · {_unbroken(moisture)}"


def _unbroken(moisture: float) -> str:
    """A percentage that stays on one line."""
    return percent(moisture).replace(" ", "\u00a0")
