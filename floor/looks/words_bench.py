"""What the pages of benches say: the Board, the Card and its steps, Rounds, the Chart."""

from __future__ import annotations

from collections.abc import Mapping

from core.measure import MEASURES
from core.say import say, say_as, say_many
from core.wordbook import Wordbook, forms


class BoardWords(Wordbook):
    """The Board."""

    pair: str = say("pair")
    vitola: str = say("vitola")
    next: str = say("weigh")
    mean: str = say("mean")
    mean_g: str = say("mean g")
    target: str = say("target")
    verdict: str = say("is")
    trend: str = say("trend")
    good: str = say("good")
    to_quota: str = say("to quota")
    first_piece: str = say("first piece")
    in_time: str = say("in {time}")
    late_time: str = say("{time} late")
    now: str = say("now")
    open_now: str = say("{n} of {needs} open")
    minutes: str = "{n} min"
    hours: str = "{n} h"
    done: str = say("done")
    states: Mapping[str, str] = {
        "": "",
        "light": say("light"),
        "within": say("within"),
        "heavy": say("heavy"),
        "mixed": say("mixed"),
    }
    late: tuple[str, str] = forms(say_many(1, "{n} late", "{n} late"))
    late_named: str = say("late {benches}")
    first_named: str = say("first piece {benches}")
    more: str = say("+{n} more")
    first_pieces: tuple[str, str] = forms(say_many(1, "{n} first piece", "{n} first pieces"))
    checks: tuple[str, str] = forms(say_many(1, "{n} check", "{n} checks"))
    out: str = say("{n} out")
    good_of: str = say("good {good} of {quota}")
    good_total: str = say("good {good}")
    shown: str = say("{n} of {all} benches")
    range_shown: str = say("{first}–{last} of {n}")
    only: str = say("only: {words}")
    none_match: str = say("no bench has all of: {words}. Type board to see every bench")
    sorted_by: str = say("by {sort}")
    sorts: Mapping[str, str] = {
        "bench": say("bench"),
        "due": say("due"),
        "mean": say("off target"),
        "good": say("good"),
    }
    damaged: tuple[str, str] = forms(
        say_many(
            1,
            "{n} damaged line in the records; all else is here. See: bunchbook verify",
            "{n} damaged lines in the records; all else is here. See: bunchbook verify",
        )
    )
    no_house: tuple[str, ...] = (
        say("No house book is loaded yet in the data folder {folder}"),
        "",
        say(
            "A house book is one text file that says what the house rolls and where: the leaves "
            "with their moisture, the blends, the vitolas, the approved bunches and the benches. "
            "Take the demo's as a start, make it your own, have it checked, then load it:"
        ),
        "",
        say("  bunchbook --demo house show > house.toml"),
        say("  bunchbook house check house.toml"),
        say("  bunchbook{data} house load house.toml"),
        "",
        say("The Board fills as soon as it is loaded; nothing has to be started again."),
        say("To look around first:"),
        "",
        "  bunchbook --demo",
    )
    first_check: str = say("nothing recorded yet today: type {bench} 15.3 15.6 15.4 and Enter")


class CardWords(Wordbook):
    """The Card, and the steps behind its figures."""

    ring: str = say("ring {ring}")
    blend: str = say("blend {blend}")
    laying_order: str = say("grams a bunch, in laying order")
    filler: str = say("filler")
    half_leaves: str = say("half-leaves")
    bunch: str = say("bunch")
    cigar: str = say("cigar")
    window: str = say("{low} to {high} g")
    lightest: str = say("lightest")
    heaviest: str = say("heaviest")
    batch: str = say("for {n} bunches:")
    under_each: str = say("below each: {what}")
    binder: str = say("binder")
    wrapper: str = say("wrapper")
    pieces: tuple[str, str] = forms(say_many(1, "{n} half-leaf", "{n} half-leaves"))
    moisture: str = say("moisture")
    age: str = say("age")
    book: str = say("book")
    by_book: str = say("house book")
    ago: str = say("{time} ago")
    open_check: str = say("open check")
    to_go: str = say("{n} to go")
    no_check: str = say("no check yet today: put a bunch on the scale, type its grams and Enter")
    steady: str = say("steady")
    unsteady: str = say("unsteady")
    recent: str = say("checks today, {measure}")
    measures: Mapping[str, str] = dict(MEASURES.items())
    lows: Mapping[str, str] = {
        "ring": say("thin"),
        "length": say_as("length", "short"),
        "draw": say("loose"),
    }
    highs: Mapping[str, str] = {"ring": say("thick"), "length": say("long"), "draw": say("tight")}
    cannot_roll: str = say("Bench {bench} has no card:")
    note: str = say("note: {note}")
    step: str = say("step")
    value: str = say("value")
    unit: str = say("unit")
    source: str = say_as("figure", "from")


class RoundsWords(Wordbook):
    """Rounds."""

    buncher: str = say("buncher")
    because: str = say("because")
    reasons: Mapping[str, str] = {
        "first piece": say("first piece"),
        "out": say("last check was out"),
        "overdue": say("not weighed in time"),
        "due": say("in turn"),
    }
    not_weighed: str = say("not weighed yet")
    enter_opens: str = say("Enter opens its card")
    to_weigh: tuple[str, str] = forms(
        say_many(1, "{n} bench to weigh by now", "{n} benches to weigh by now")
    )
    nobody: str = say(
        "nobody to weigh: the house book has no bench. Add benches to it, load it again"
    )


class ChartWords(Wordbook):
    """The Chart."""

    packs: Mapping[str, str] = {
        "heavy": say("HEAVY by {mean} {unit} ({low} to {high}, {n} checks)"),
        "light": say("LIGHT by {mean} {unit} ({low} to {high}, {n} checks)"),
        "noise": say("ON TARGET as far as {n} checks tell: {mean} {unit} ({low} to {high})"),
    }
    a_week: Mapping[str, str] = {
        "heavy": say("about {grams} more filler a week"),
        "light": say("about {grams} less filler a week"),
    }
    too_few: str = say("TOO FEW CHECKS TO SAY: {n} of {needs}")
    now_broken: str = say("LAST CHECK: {rule}")
    limits_from: Mapping[str, str] = {
        "bench": say("limits from this bench's {n} checks"),
        "few": say("limits from only {n} checks of this bench, settled from {settled}"),
        "house": say("limits from the house's spread: only {n} checks here yet"),
    }
    no_limits: str = say("no limits: the house has no spread to go by yet")
    chart_key: str = say("━ target  ─ limit  ∙ tolerance  ● check  ▲▼ check beyond its limit")
    last_checks: str = say("last checks")
    off_target: str = say("off target, {unit}")
    reading: str = say("{measure} open: {readings}; {left}")
    rules: Mapping[str, str] = {
        "beyond": say("mean beyond a limit"),
        "spread": say("readings too far apart"),
        "two_of_three": say("2 of 3 near a limit"),
        "four_of_five": say("4 of 5 off to one side"),
        "one_side": say("8 on one side of target"),
        "run": say("6 rising or falling in a row"),
    }
    none_broken: str = say("no rule broken in the checks shown")
    spread: str = say("spread within a check, {unit}")
    range: str = say("range within a check, {unit}")
    average: str = say("running average, {unit}")
    capability: str = say("{fits}; Cpk {cpk} ({low} to {high}); Cp {cp}; {n} readings")
    capability_few: str = say("capability: too few readings to judge, {n} of {needs}")
    capability_none: str = say("capability: {n} readings that do not differ cannot be judged")
    no_chart: tuple[str, str] = (
        say("No check of {measure} in this chart yet."),
        say(
            "Type {example} and Enter: each check is a point here. The first limits are the "
            "house's; from {least} checks on they are the bench's own."
        ),
    )
