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
    benches: str
    output: str
    runs: str
    runs_note: str
    out: str
    none_out: str
    reasons: dict[str, str]
    charts_left: str
    late: str
    late_note: str
    notes: str
    look: str
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
