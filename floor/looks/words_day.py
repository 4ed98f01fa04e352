"""What the pages of the day, of days, of leaf and of entries say."""

from __future__ import annotations

from core.say import say, say_as, say_many
from core.wordbook import Wordbook, forms


class DayWords(Wordbook):
    """The Day."""

    made: str = say("made")
    rejected: str = say("rejected")
    rework: str = say("reworked")
    first_time: str = say("passed first time")
    leaf_yield: str = say("leaf yield")
    no_rejects: str = say("no rejects recorded")
    by_fault: str = say("Rejects by fault")
    leaf: str = say("leaf")
    leaf_grams: str = say(
        "Where the leaf went, grams (issued and returned as weighed, the rest at standard moisture)"
    )
    leaf_columns: tuple[str, ...] = (
        say("issued"),
        say_as("leaf table", "back"),
        say("used"),
        say_as("leaf table", "in good"),
        say_as("leaf table", "rejects"),
        say_as("leaf table", "heavy"),
        "±",
        say("cuttings"),
    )
    on_benches: str = say("on benches")
    unexplained: str = say("unexplained")
    at_close: str = say("known at the close")
    errors: str = say("± of heavy: two standard errors")
    beyond: str = say("{leaf}: {grams} g unexplained, more than the checks can tell")
    no_leaf: str = say(
        "no leaf issued yet: 7 take LI-2 450 records an issue, 7 back LI-2 60 a return"
    )
    several_runs: str = say("Benches that rolled more than one vitola")
    run: str = say(
        "{vitola} {blend}: made {made}, good {good}, rejected {rejected}, reworked {rework}"
    )
    benches_out: str = say("Benches with checks out")
    standing_out: str = say("Benches that stand out")
    none_out: str = say("no check out of its window")
    second: str = say("seconds")
    on_hold: str = say("on hold")
    workers: str = say("workers")
    for_panel: str = say("panel")
    filler_used: str = say("filler")
    per_1000: str = say("{kg} kg ({lb} lb) per 1000 good")
    standard: str = say("standard")
    not_in_good: str = say("Filler not in good cigars: grams, and of what was used")
    of_filler: str = say("in good")
    by_vitola: str = say("By vitola")
    by_buncher: str = say("By buncher")
    output_columns: tuple[str, ...] = (
        say("made"),
        say("good"),
        say("rejects"),
        say("seconds"),
        say("first %"),
        "kg/1000",
        say("standard"),
    )
    reopened: tuple[str, str] = forms(say_many(1, "opened again once", "opened again {n} times"))
    recorded_late: tuple[str, str] = forms(
        say_many(1, "{n} entry after the first close", "{n} entries after the first close")
    )
    bench_out: str = say("{out} of {checks} checks out")
    mean_off: str = say("mean {grams} g off target")
    notes: str = say("Notes")
    entries: tuple[str, str] = forms(say_many(1, "{n} entry", "{n} entries"))
    voided: tuple[str, str] = forms(say_many(1, "{n} void", "{n} void"))
    close_hint: str = say("type close to end the day; it asks once")


class DaysWords(Wordbook):
    """The Days."""

    days: str = say("Days")
    days_week: str = say("week")
    days_day: str = say("day")
    days_columns: tuple[str, ...] = (
        say("good"),
        say("first %"),
        say("leaf %"),
        "kg/1000",
        say("unexpl. g"),
    )
    days_per_1000: str = say("filler per 1000 good")
    days_signs: str = say(
        "a sign a closed day, newest last: + − off the mean, ▲▼ over twice the spread"
    )
    days_corrected: str = say("* corrected after it was closed")
    days_open: str = say("open again:")
    days_not_closed: str = say("not closed")
    days_unclosed: str = say("Not closed yet: {days}; from a shell: bunchbook close DATE")
    days_none: str = say(
        "No day of the last four weeks is closed. Type close and Enter when a day is done: each "
        "closed day is a row here, with its yield, its leaf per 1000 and what nothing explains."
    )


class LeafWords(Wordbook):
    """The Leaf."""

    leaf_page: str = say("Leaf")
    kilograms: str = say("kg at {moisture} moisture; a lot by the day it came, ▸ the one to issue")
    stock_columns: tuple[str, ...] = (
        say("on hand"),
        say("out today"),
        say("benches"),
        say("moisture"),
        say("days"),
    )
    crop: str = say("crop {year}")
    bales: tuple[str, str] = forms(say_many(1, "{n} bale", "{n} bales"))
    in_no_lots: str = say("in no lots")
    overdrawn: str = say("lot {lot} of {leaf}: {kg} kg more went out than there was; count it")
    runs_out: str = say("{leaf_class} {leaf} runs out at bench {bench}")
    runs_out_about: str = say("{leaf_class} {leaf} runs out at bench {bench} about {time}")
    runs_out_house: str = say("{leaf_class} {leaf} runs out in the house")
    runs_out_house_about: str = say("{leaf_class} {leaf} runs out in the house about {time}")
    short_today: str = say("{runs_out}, {kg} kg short of today's quotas")
    more_benches: tuple[str, str] = forms(
        say_many(
            1, "and later something at {n} more bench", "and later something at {n} more benches"
        )
    )
    shortages: str = say("What runs out")
    enough: str = say("nothing, by today's pace and quotas")
    no_quota: str = say("no bench has a quota: days of cover cannot be told")
    no_lots: tuple[str, ...] = (
        say("No leaf in lots yet. Record what came, by leaf and lot:"),
        say("  receive {leaf} 24-118 36.2kg 13.5% crop 2023 bales 3"),
        say("Then what goes out names its lot, oldest first; what is found on the shelves:"),
        say("  stock {leaf} 24-118 31.5kg"),
    )
    issue_title: str = say("Still to issue for the quotas: grams at today's moisture")
    allowed_loss: str = say("{share} of the filler issued is allowed for loss")
    no_loss: str = say("the house book allows nothing for loss")
    issue_columns: tuple[str, ...] = (
        say("grams"),
        say("pieces"),
        say("on hand"),
        say_as("leaf table", "short"),
    )
    pieces_short: str = say("{n} pieces")
    no_plan: str = say("left out, without a quota or a card: bench {benches}")
    lot_changed: str = say("lots: ")
    lot_new: str = say("{leaf} {lot}, new today")
    lot_had: str = say("{leaf} now {lot}, here {had}")


class LogWords(Wordbook):
    """The Log."""

    void_by: str = say("void by {by}")
    after_close: str = say("after the close")
    no_entries: str = say("nothing recorded yet today")
