"""The floor's words, English and Spanish: each screen takes them from here, none has its own."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple


class Words(NamedTuple):
    """Everything the screens say themselves, in one language. Braces are filled in."""

    weekdays: tuple[str, ...]
    months: tuple[str, ...]
    date: str

    bench: str
    benches: tuple[str, str]
    board: str
    card: str
    why: str
    rounds: str
    chart: str
    day: str
    log: str
    help: str
    quit: str
    back: str
    closed: str
    opened: str
    too_small: str

    # the entry line
    enter_would: str
    not_recorded: str
    not_saved: str
    ask_far_off: str
    ask_unsaved: str
    ask_close: str
    dropped: str
    held: str
    unread: str
    marked: str
    would_leave: str
    leave_held: str
    no_key: str
    how_to_leave: str

    # the Board
    pair: str
    vitola: str
    next: str
    mean: str
    mean_g: str
    target: str
    verdict: str
    trend: str
    good: str
    to_quota: str
    first_piece: str
    in_time: str
    late_time: str
    now: str
    open_now: str
    minutes: str
    hours: str
    done: str
    states: dict[str, str]
    late: tuple[str, str]
    late_named: str
    first_named: str
    more: str
    first_pieces: tuple[str, str]
    checks: tuple[str, str]
    out: str
    good_of: str
    good_total: str
    shown: str
    range_shown: str
    only: str
    none_match: str
    sorted_by: str
    sorts: dict[str, str]
    damaged: tuple[str, str]
    no_house: tuple[str, ...]
    first_check: str

    # the Card
    ring: str
    blend: str
    laying_order: str
    filler: str
    half_leaves: str
    bunch: str
    cigar: str
    window: str
    lightest: str
    heaviest: str
    batch: str
    under_each: str
    binder: str
    wrapper: str
    pieces: tuple[str, str]
    moisture: str
    age: str
    book: str
    by_book: str
    ago: str
    open_check: str
    to_go: str
    no_check: str
    steady: str
    unsteady: str
    recent: str
    measures: dict[str, str]
    lows: dict[str, str]
    highs: dict[str, str]
    cannot_roll: str
    note: str

    # Why
    step: str
    value: str
    unit: str
    source: str

    # Rounds
    buncher: str
    because: str
    reasons: dict[str, str]
    not_weighed: str
    enter_opens: str
    to_weigh: tuple[str, str]
    nobody: str

    # the Chart
    packs: dict[str, str]
    a_week: dict[str, str]
    too_few: str
    now_broken: str
    limits_from: dict[str, str]
    no_limits: str
    chart_key: str
    last_checks: str
    reading: str
    rules: dict[str, str]
    none_broken: str
    spread: str
    range: str
    average: str
    capability: str
    capability_few: str
    capability_none: str
    no_chart: tuple[str, str]

    # the Day
    made: str
    rejected: str
    rework: str
    first_time: str
    leaf_yield: str
    no_rejects: str
    by_fault: str
    leaf: str
    leaf_grams: str
    leaf_columns: tuple[str, ...]
    on_benches: str
    unexplained: str
    at_close: str
    errors: str
    beyond: str
    no_leaf: str
    several_runs: str
    run: str
    benches_out: str
    standing_out: str
    none_out: str
    second: str
    on_hold: str
    workers: str
    for_panel: str
    filler_used: str
    per_1000: str
    standard: str
    not_in_good: str
    of_filler: str
    by_vitola: str
    by_buncher: str
    output_columns: tuple[str, ...]
    reopened: tuple[str, str]
    recorded_late: tuple[str, str]
    bench_out: str
    mean_off: str
    notes: str
    entries: str
    voided: str
    close_hint: str

    # the Leaf
    leaf_page: str
    kilograms: str
    stock_columns: tuple[str, ...]
    crop: str
    bales: tuple[str, str]
    in_no_lots: str
    overdrawn: str
    runs_out: str
    runs_out_house: str
    about: str
    short_today: str
    more_benches: tuple[str, str]
    shortages: str
    enough: str
    no_quota: str
    no_lots: tuple[str, ...]
    issue_title: str
    allowed_loss: str
    no_loss: str
    issue_columns: tuple[str, ...]
    pieces_short: str
    no_plan: str
    lot_changed: str
    lot_new: str
    lot_had: str

    # the Log
    void_by: str
    after_close: str
    no_entries: str

    # Help
    keys: tuple[tuple[str, str], ...]
    keys_title: str
    line_title: str
    cautions_title: str
    cautions: tuple[str, ...]

    # the Days
    days: str
    days_week: str
    days_columns: tuple[str, ...]
    days_per_1000: str
    days_signs: str
    days_corrected: str
    days_open: str
    days_not_closed: str
    days_unclosed: str
    days_none: str

    # the Panel
    panel: str
    panel_traits: dict[str, str]
    panel_of: str
    panel_tasters: tuple[str, str]
    panel_codes: str
    panel_hidden: str
    panel_few: str
    panel_left_out: str
    panel_no_difference: str
    panel_differ: str
    panel_apart: tuple[str, str]
    panel_by: str
    panel_test: str
    panel_exact: str
    panel_chi2: str
    panel_alike: str
    panel_unlike: str
    panel_unjudged: str
    panel_marks: str
    panel_none: str
    panel_typed: tuple[str, ...]
    panel_does: tuple[str, ...]
    panel_fewest: str

    # the Line
    line_page: str
    line_strength: str
    line_entries: tuple[str, str]
    line_packing: str
    line_assumed: str
    line_columns: dict[str, str]
    line_yes: str
    line_no: str
    line_none: str
    line_beyond: str
    line_key: tuple[str, ...]
    line_picture: str
    line_marks: str
    line_band: str
    line_pieces: str
    line_rests: str
    line_approved: str
    line_bunches: tuple[str, str]
    line_off: tuple[str, str]
    line_own: str
    line_without: str
    line_decides: str
    line_earns: str
    line_earning: tuple[str, ...]
    line_by_filler: str
    line_loss: dict[str, str]
    line_excise: str
    line_costless: str
    line_cost_names: dict[str, str]
    line_left_out: str
    line_tried: str
    line_would: str
    line_back: str
    line_seeking: str
    line_parts: str
    line_becomes: str
    line_moved: str
    line_limits: str
    line_no_parts: str
    line_resized: str
    line_how: tuple[str, ...]


def plural(forms: tuple[str, str], n: int) -> str:
    """The form for one or for many, with the count in it."""
    return forms[0 if n == 1 else 1].format(n=thousands(n))


def thousands(n: int) -> str:
    """A count; from five digits on with a blank every three, which no language misreads."""
    return f"{n:,}".replace(",", " ") if abs(n) >= 10_000 else str(n)


def long_date(date: dt.date, words: Words) -> str:
    """The date as people write it."""
    return words.date.format(
        weekday=words.weekdays[date.weekday()],
        day=date.day,
        month=words.months[date.month - 1],
        year=date.year,
    )
