"""What the papers say, in one language."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from core.desk.picture import RULES
from core.entry.faults import BY_WORD, fault_name
from core.house.model import Language
from core.measure import MEASURES
from core.say import say, say_as, say_many
from core.wordbook import Wordbook, forms


class Words(Wordbook):
    """Everything a paper says itself. Units are not words."""

    day: str = say("The day {date}")
    opened: str = say("The day is open: its figures are not the last word.")
    closed: str = say("The day is closed.")
    entries: tuple[str, str] = forms(say_many(1, "{n} entry", "{n} entries"))
    voided: tuple[str, str] = forms(say_many(1, "{n} void", "{n} void"))
    cautions_title: str = say("Cautions")
    cautions: tuple[str, ...] = (
        say("Tobacco products harm health; for adults in a licensed trade."),
        say("Tax and record figures are aids: local law and a licensed adviser decide."),
        say("Scales used for trade or excise must be verified under local law."),
    )
    facts: Mapping[str, str] = {
        "made": say("made"),
        "good": say("good"),
        "rejected": say("rejected"),
        "rework": say("reworked"),
        "second": say("seconds"),
        "held": say("on hold"),
        "workers": say("for workers"),
        "panel": say("for the panel"),
    }
    first_time: str = say("passed first time")
    leaf_yield: str = say("leaf yield")
    used_kg: str = say("filler used")
    used_1000: str = say("filler for 1,000 good")
    standard_1000: str = say("standard for 1,000")
    at_close: str = say("known at the close")
    faults: str = say("Rejects by fault")
    no_faults: str = say("No rejects were recorded.")
    usually: str = say("usually {fate}")
    fates: Mapping[str, str] = {
        "rework at bunch": say("reworked at bunch"),
        "re-wrap": say("re-wrapped"),
        "second": say("a second"),
        "scrap": say("scrapped"),
        "hold": say("held"),
    }
    leaf: str = say("Where the leaf went")
    leaf_note: str = say(
        "Grams at standard moisture; issued and returned as weighed. ± is two standard "
        "errors of the weight checks."
    )
    leaf_of: str = say("{leaf}: not in good, of {used} g used")
    parts: Mapping[str, str] = {
        "in_seconds_g": say("in seconds"),
        "rejects_g": say("rejects"),
        "heavy_g": say("heavy bunches"),
        "cuttings_g": say("cuttings"),
        "stem_g": say("stem"),
        "sweepings_g": say("sweepings"),
        "unexplained_g": say("unexplained"),
    }
    on_benches: str = say("on benches")
    columns: Mapping[str, str] = {
        "leaf": say("leaf"),
        "class": say("class"),
        "issued_g": say("issued"),
        "returned_g": say("returned"),
        "used_standard_g": say("used"),
        "in_good_g": say("in good"),
        "heavy_se_g": "±",
        "told": say("told by checks"),
        "bench": say("bench"),
        "buncher": say("pair"),
        "vitola": say("vitola"),
        "blend": say("blend"),
        "checks": say("checks"),
        "out": say("out"),
        "first": say("passed first"),
        "yield": say_as("column", "leaf yield"),
        "used_1000": say("used per 1,000"),
        "standard_1000": say("standard per 1,000"),
        "off": say("mean off"),
        "entry": say("entry"),
        "at": say("time"),
        "says": say("recorded"),
        "roller": say("roller"),
        "rate": say("rate per 1,000"),
        "accepted": say("accepted"),
        "amount": say("amount"),
        "not_mended": say("not mended"),
        "lot": say("lot"),
        "received_g": say("received"),
        "adjusted_g": say("adjusted"),
        "on_hand_g": say("on hand"),
    }
    beyond: str = say_as("told by checks", "beyond")
    within: str = say_as("told by checks", "within")
    split: str = say("Where the filler went, by bench and vitola")
    split_note: str = say(
        "Grams at standard moisture. What nothing explains is the last column. A bench – "
        "is leaf that no bench used."
    )
    split_open: str = say(
        "Grams at standard moisture. While the day is open most of the last column lies on the "
        "benches. A bench – is leaf that no bench used."
    )
    by_leaf: str = say("Where each leaf went, by vitola")
    covers: Mapping[str, str] = {"binder": say("binder"), "wrapper": say("wrapper")}
    total: str = say("all")
    lots: str = say("Lots of leaf that moved")
    lots_note: str = say("Kilograms at standard moisture.")
    benches: str = say("Output by bench")
    counts: str = say("Counts")
    yields: str = say("Yields, filler and checks")
    output: str = say("Output by vitola")
    open_yields: str = say("The day is open: leaf yield and filler used are known at the close.")
    pay: str = say("Counts for piece rates")
    pay_note: str = say(
        "Accepted cigars × the house book's rate, {currency}. Nothing is decided here, and no "
        "deduction is taken off: not mended and seconds are what a house may deduct."
    )
    no_rate: str = say("Without a rate in the house book there is no amount.")
    out: str = say("Benches that stand out")
    out_note: str = say("By what chance alone, and the checks' errors, would hardly ever do.")
    reasons: Mapping[str, str] = {
        "first_pass": say("passed first time {share}, the house {house}, of {n} inspected"),
        "leaf_over": say(
            "{value} kg of filler for 1,000 good cigars that nothing explains; the "
            "standard is {against} kg"
        ),
        "leaf_under": say(
            "{value} kg of filler for 1,000 good cigars less than was rolled: too "
            "little was booked; the standard is {against} kg"
        ),
        "heavy": say("bunches of {vitola} {value} g heavy"),
        "light": say("bunches of {vitola} {value} g light"),
        "unchecked": say("no check all day of {n} bunches"),
    }
    none_out: str = say("No bench stands out, and no check was out of its window.")
    checks_out: str = say("{out} of {n} checks out of their window")
    no_chart: str = say("no check to chart")
    chart: str = say("bench {bench}, {vitola} of {blend}, {measure}")
    lines: Mapping[str, str] = {
        "target": say("target"),
        "limit": say("limit"),
        "window": say("tolerance"),
    }
    measures: Mapping[str, str] = dict(MEASURES.items())
    rules: Mapping[str, str] = RULES
    charts_left: str = say(
        "Of the first {n} the chart is shown; of the others: bunchbook chart BENCH"
    )
    corrected: str = say("Corrected after it was first closed: {n} entries, listed at the end.")
    void: str = say("void by {by}")
    late: str = say("Late corrections")
    late_note: str = say("Recorded after the day was first closed.")
    notes: str = say("Notes and handover")
    look: str = say("To be looked at")
    issue: str = say("Leaf to issue {date}")
    issue_note: str = say(
        "For the planned cigars, at the moistures known at {time}; covers in whole pieces."
    )
    loss: str = say("Of the filler issued {share} is allowed for loss: cuttings, stem, sweepings.")
    no_loss: str = say("The house book allows nothing for loss.")
    no_quota: str = say("No bench has a quota: give it one in the house book.")
    planned: str = say("cigars planned")
    benches_planned: str = say("benches")
    left_out: str = say("Left out, without a quota or a card: bench {benches}")
    all_benches: str = say("All benches together")
    by_bench: str = say("Bench by bench")
    to_give: str = say("to issue")
    pieces: str = say("pieces")
    given: str = say("weighed out")
    signed: str = say("taken by")
    short: str = say_as("issue sheet", "short")
    cigars: str = say("{n} cigars")
    not_on_hand: str = say("not on hand")
    to_sign: tuple[str, ...] = (say("issued by"), say("received by"), say("date and time"))
    cards: str = say("Recipe cards {date}")
    bench: str = say("bench")
    ring: str = say("ring {ring} · {length} mm · blend {blend}")
    window: str = say("{low} to {high} g")
    batch: str = say("batch of {n}")
    filler: str = say("filler")
    half_leaf: str = say("{n} half-leaf · {moisture}")
    half_leaves: str = say("{n} half-leaves · {moisture}")
    moisture: str = say("moisture")
    binder: str = say("binder")
    wrapper: str = say("wrapper")
    target: str = say("{name} target")
    date: str = say("date")
    book: str = say_as("paper", "house book")
    version: str = say("version {n}")

    def parts_of(self, *, closed: bool) -> Mapping[str, str]:
        """Where leaf goes that is not in good; of an open day the rest lies on the benches."""
        return self.parts if closed else {**self.parts, "unexplained_g": self.on_benches}

    def fault(self, code: str) -> str:
        """The fault's word in this language."""
        return self.tell(fault_name(code))

    def fate(self, code: str) -> str:
        """What usually happens to a piece with the fault; empty where nothing is known of it."""
        known = BY_WORD.get(code)
        return "" if known is None else self.usually.format(fate=self.fates[known.fate])


@cache
def words_of(language: Language) -> Words:
    """The words of that language."""
    return Words(language)
