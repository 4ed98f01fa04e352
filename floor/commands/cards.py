"""`cards`: every bench's recipe card, to print."""

from __future__ import annotations

import argparse
from pathlib import Path

from core.desk.today import Today
from core.house.numbering import bench_order
from core.papers.cards_page import Behind, card_code, cards_html
from core.problems import BadInput
from core.recipe.card import Card
from core.say import say, say_many
from floor.commands import out
from floor.commands.card import card_lines
from floor.commands.setting import setting, tell_damage
from floor.commands.written import write_new


def run(args: argparse.Namespace) -> int:
    """Print all cards as text, or write them as a page; benches without one are named."""
    with setting(args) as place:
        today = place.today()
        tell_damage(today.damaged)
        cards = _cards(today)
        if not cards:
            raise BadInput(say("no bench of the house book has a card: nothing to print"))
        if args.html is not None:
            behind = Behind(today.day, today.house_version, today.moistures(), today.division_g)
            page = cards_html(cards, behind, out.language())
            write_new(Path(args.html), page)
            out.result(
                say_many(
                    len(cards), "1 card is in {file}", "{n} cards are in {file}", file=args.html
                )
            )
            return 0
        for card in cards:
            out.result(card_code(card.bench or "", today.day))
            for line in card_lines(card, today.division_g):
                out.result(line)
            out.result("")
    return 0


def _cards(today: Today) -> list[Card]:
    found = []
    for number in sorted(today.loaded.bench, key=bench_order):
        try:
            found.append(today.card(number))
        except BadInput as problem:
            out.message(say("bench {bench}: {problem}", bench=number, problem=problem.said))
    return found
