"""What the papers say, in the house's language."""

from __future__ import annotations

from typing import NamedTuple

from core.entry.faults import BY_WORD
from core.house.model import Language


class Words(NamedTuple):
    """Everything a paper says itself. Units are not words."""

    day: str
    opened: str
    closed: str
    counted: str
    cautions_title: str
    cautions: tuple[str, ...]
    facts: dict[str, str]
    first_time: str
    leaf_yield: str
    used_kg: str
    used_1000: str
    standard_1000: str
    at_close: str
    faults: str
    no_faults: str
    usually: str
    fates: dict[str, str]
    leaf: str
    leaf_note: str
    leaf_of: str
    parts: dict[str, str]
    columns: dict[str, str]
    beyond: str
    within: str
    split: str
    split_note: str
    by_leaf: str
    covers: dict[str, str]
    total: str
    lots: str
    lots_note: str
    benches: str
    counts: str
    yields: str
    output: str
    open_yields: str
    pay: str
    pay_note: str
    no_rate: str
    out: str
    out_note: str
    none_out: str
    reasons: dict[str, str]
    checks_out: str
    no_chart: str
    chart: str
    lines: dict[str, str]
    measures: dict[str, str]
    rules: dict[str, str]
    charts_left: str
    corrected: str
    void: str
    late: str
    late_note: str
    notes: str
    look: str
    issue: str
    issue_note: str
    loss: str
    no_loss: str
    no_quota: str
    planned: str
    benches_planned: str
    left_out: str
    all_benches: str
    by_bench: str
    to_give: str
    pieces: str
    given: str
    signed: str
    short: str
    cigars: str
    not_on_hand: str
    to_sign: tuple[str, ...]
    cards: str
    bench: str
    ring: str
    window: str
    batch: str
    filler: str
    half_leaves: str
    moisture: str
    binder: str
    wrapper: str
    target: str
    date: str

    def fault(self, code: str) -> str:
        """The fault's word in this language."""
        known = BY_WORD.get(code)
        return code if known is None else (known.es if self.bench == "mesa" else known.en)[0]

    def fate(self, code: str) -> str:
        """What usually happens to a piece with the fault; empty where nothing is known of it."""
        known = BY_WORD.get(code)
        return "" if known is None else self.usually.format(fate=self.fates[known.fate])


def words_of(language: Language) -> Words:
    """The words of that language."""
    from core.papers.words_en import ENGLISH  # noqa: PLC0415
    from core.papers.words_es import SPANISH  # noqa: PLC0415

    return {"en": ENGLISH, "es": SPANISH}[language]
