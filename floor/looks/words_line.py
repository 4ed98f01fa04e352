"""What the pages of the line say: the Line, and the Panel."""

from __future__ import annotations

from collections.abc import Mapping

from core.say import say, say_as, say_many
from core.wordbook import Wordbook, forms


class LineWords(Wordbook):
    """The Line."""

    line_page: str = say("Line")
    line_strength: str = say("strength {strength}")
    line_entries: tuple[str, str] = forms(say_many(1, "{n} approved entry", "{n} approved entries"))
    line_packing: str = say("packing learned from {entries} (p {p})")
    line_assumed: str = say("packing assumed, no size approved (p {p})")
    line_columns: Mapping[str, str] = {
        "ring": say("ring"),
        "mm": "mm",
        "filler": say("filler g"),
        "gap": say("law %"),
        "holds": say("holds"),
        "laid": say("str."),
        "air": say("air"),
        "from": say_as("smallest ring", "from"),
        "cost": say("cost"),
        "margin": say("margin"),
        "band": say("19 in 20"),
        "lb": "lb/1000",
        "wrapper": say("wrapper"),
        "covers": say("covers"),
    }
    line_yes: str = say("yes")
    line_no: str = say("no {leaf}")
    line_none: str = say("none")
    line_beyond: str = say_as("law", "beyond")
    line_key: Mapping[str, str] = {
        "filler": say("filler: g a bunch, standard moisture, and kg per 1000"),
        "cost": say("cost: per 1000"),
        "margin": say("cost, margin: per 1000"),
        "gap": say("law %: approved bunches off the law; beyond: past the sizes approved"),
        "holds": say("holds in whole pieces, or the leaf that does not"),
        "laid": say("str.: strength as laid"),
        "from": say("from: the smallest ring that holds, and the leaf that binds"),
        "air": say("air: one puff's speed through the ember, {reference} being 1"),
    }
    line_picture: str = say("Filler by ring, a parejo of {length} mm: g")
    line_marks: str = say("● approved × of another size, brought here ━ law {band}∙ plain volume")
    line_band: str = say("░ 19 in 20 ")
    line_pieces: str = say("By class: standard grams = whole pieces")
    line_rests: str = say("What the law rests on")
    line_approved: str = say("{vitola}, {bunches}: {off}, pull {pull}")
    line_bunches: tuple[str, str] = forms(say_many(1, "{n} bunch", "{n} bunches"))
    line_off: tuple[str, str] = (say("{off} over the law"), say("{off} under the law"))
    line_own: str = say("the law is its own")
    line_without: str = say("without it p {p}, its filler {law} → {without} g")
    line_decides: str = say("decides the law: approve more sizes like it")
    line_earns: str = say("What earns most")
    line_earning: tuple[str, ...] = (
        say("price"),
        say("by filler"),
        say("margin"),
        say("a day"),
        say("bench day"),
        say("bench hour"),
    )
    line_by_filler: str = say(
        "by filler: the price if it only followed the filler, from {reference}"
    )
    line_loss: Mapping[str, str] = {
        "measured": say("cost includes filler lost: leaf yield {share}, measured"),
        "house": say("cost includes filler lost: leaf yield {share}, the house's allowance"),
    }
    line_excise: str = say(
        "what earns is after excise as the house book gives it: an aid, the law decides"
    )
    line_costless: str = say("cost leaves out, for want of figures: {names}")
    line_cost_names: Mapping[str, str] = {
        "filler": say("filler"),
        "binder": say("binder"),
        "wrapper": say("wrapper"),
        "labour": say("labour"),
        "box": say("box"),
    }
    line_left_out: str = say("left out: {why}")
    line_tried: str = say("tried: {changes}")
    line_would: str = say("▸ as it would be")
    line_back: str = say("Esc or drop goes back")
    line_seeking: str = say("finding new parts without {leaf} …")
    line_parts: str = say("without {leaf}, the least change of parts: {parts}")
    line_becomes: str = "{before} → {after}"
    line_moved: str = say("strength {before} → {after}")
    line_limits: str = say("just at its limit: {limits}")
    line_no_parts: str = say("no parts without {leaf} keep every limit; what binds:")
    line_resized: str = say(
        "{vitolas}: the approved bunches were of another size, so the law speaks"
    )
    line_how: tuple[str, ...] = (
        say("line {blend}, another blend: its code after line"),
        say("try {leaf}=1.5 {vitola}.ring=50: other parts, another size, beside today's"),
        say("try without {leaf}: new parts when a leaf runs out"),
        say("try save: what is tried in a new version of the house book; asks first"),
    )


class PanelWords(Wordbook):
    """The Panel."""

    panel: str = say("Panel")
    panel_traits: Mapping[str, str] = {
        "strength": say("strength"),
        "balance": say("balance"),
        "burn": say("burn"),
        "draw": say("draw"),
    }
    panel_of: str = say("{blend} on {date}, house book {house}")
    panel_tasters: tuple[str, str] = forms(say_many(1, "{n} taster", "{n} tasters"))
    panel_codes: str = say("codes: {codes}")
    panel_hidden: str = say(
        "Blind: judged once the codes are told. Type panel reveal when all have scored."
    )
    panel_left_out: str = say("not counted, for they did not score every size: {tasters}")
    panel_no_difference: str = say("no difference told")
    panel_differ: str = say("not alike, but none stands apart from {chosen} alone")
    panel_apart: tuple[str, str] = (
        say("{sizes} stands apart from {chosen}"),
        say("{sizes} stand apart from {chosen}"),
    )
    panel_by: str = say("{size}{mean} (95 %: {low} to {high})")
    panel_test: str = "{tasters}, Friedman {chi2}, p {p} {by}, W {w}"
    panel_exact: str = say("exact")
    panel_chi2: str = say("by chi-square")
    panel_alike: str = say("Nothing told tells the sizes apart.")
    panel_unlike: str = say("The line does not taste alike: {traits}.")
    panel_unjudged: str = say("Not judged yet.")
    panel_marks: str = say("mean of 0 to 10 and difference from {chosen}; * stands apart")
    panel_none: str = say("Does the line still taste alike in every size? Let the panel say.")
    panel_typed: tuple[str, ...] = (
        say("panel open {blend}"),
        say("panel open {blend} {sizes} blind"),
        say("panel T1 A 7 6 8 7"),
        say("panel reveal"),
    )
    panel_does: tuple[str, ...] = (
        say("begins a session on all the sizes it is rolled in"),
        say("on these, the chosen one first; blind: smoked under codes A, B, …"),
        say("a taster's code, the size's, then 0 to 10: strength balance burn draw"),
        say("tells the codes, once all have scored"),
    )
    panel_fewest: str = say(
        "Three tasters who scored every size are the fewest to judge by; of two sizes, six."
    )
