"""What Tab offers: words, leaf, vitola and blend codes, faults, each in its place."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from core.entry import requests as ask
from core.entry.complete import complete
from core.entry.parse import parse
from core.entry.words import BENCH_FORMS, FORMS
from tests.entry.room import BENCHES, BLENDS, COVER, FILLER, ROOM, VITOLAS, room

SPANISH = room("es")


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("7 mad", ("7 made",)),
        ("7 MA", ("7 made",)),
        ("7 ta", ("7 take",)),
        ("7  bun", ("7  bundle", "7  bunch", "7  bunches")),
        ("bo", ("board",)),
        ("7 bo", ("7 bonche", "7 bonches")),
        ("por", ()),
        ("7 take ", tuple(f"7 take {leaf}" for leaf in FILLER + COVER)),
        ("7 take l", ("7 take LI-2",)),
        ("7 take li-2", ("7 take LI-2",)),
        ("7 take LI-2", ()),
        ("7 take LI-2 ", ()),
        ("7 take LI-2 45", ()),
        ("7 take LI-2 450 ", ("7 take LI-2 450 lot",)),
        ("7 back LI-2 60 lo", ("7 back LI-2 60 lot",)),
        ("7 back LI-2 60 lot", ()),
        ("7 take LI-2 450 lot ", ()),
        ("7 take LI-2 450 lot 24-118 ", ()),
        ("7 sec", ("7 second", "7 seconds")),
        ("7 hold ", ()),
        ("7 rel", ("7 release",)),
        ("7 wo", ("7 workers",)),
        ("7 pan", ("7 panel",)),
        ("7 ste", ("7 stem", "7 stems")),
        ("7 vena l", ("7 vena LI-2",)),
        ("sw", ("sweepings",)),
        ("sweepings c", ("sweepings CA-3",)),
        ("rec", ("receive", "received")),
        ("receive ", tuple(f"receive {leaf}" for leaf in FILLER + COVER)),
        ("receive LI-2 ", ()),
        ("receive LI-2 24-118 ", ()),
        (
            "receive LI-2 24-118 36kg ",
            tuple(f"receive LI-2 24-118 36kg {word}" for word in ("crop", "bales", "price")),
        ),
        ("receive LI-2 24-118 36kg cr", ("receive LI-2 24-118 36kg crop",)),
        ("receive LI-2 24-118 36kg crop ", ()),
        (
            "receive LI-2 crop 36 kg price 24 13 % ",
            tuple(f"receive LI-2 crop 36 kg price 24 13 % {word}" for word in ("crop", "bales")),
        ),
        (
            "receive LI-2 24-118 36kg crop 2023 p",
            ("receive LI-2 24-118 36kg crop 2023 price",),
        ),
        ("stock l", ("stock LI-2",)),
        ("stock LI-2 24-118 31kg ", ()),
        ("days ", ()),
        ("7 devuelve s", ("7 devuelve SE-20",)),
        ("7 scrap b", ("7 scrap BI-7",)),
        ("7 por", ("7 portion", "7 portions")),
        ("7 portion ", tuple(f"7 portion {leaf}" for leaf in FILLER)),
        ("7 portion l", ("7 portion LI-2",)),
        ("7 portion LI-2 ", ()),
        ("chart 7 ci", ("chart 7 cigar", "chart 7 cigars")),
        ("7 chart por", ()),
        ("rou", ("rounds",)),
        ("7 roll ", tuple(f"7 roll {vitola}" for vitola in VITOLAS)),
        ("7 roll campan", ("7 roll Campaña",)),
        ("7 roll toro ", tuple(f"7 roll toro {blend}" for blend in BLENDS)),
        ("7 roll toro b4", ("7 roll toro B4",)),
        ("7 roll toro B4 ", ()),
        ("7 fail to", ("7 fail torn",)),
        ("7 fail torn ", ()),
        ("7 fail torn 2 pl", ("7 fail torn 2 plugged", "7 fail torn 2 plug")),
        ("7 fail hard spot 2 pl", ("7 fail hard spot 2 plugged", "7 fail hard spot 2 plug")),
        ("sort ", ("sort bench", "sort due", "sort mean", "sort good")),
        ("sort me", ("sort mean",)),
        ("s", ("sweepings", "stock", "sort", "SE-20")),
        ("l", ("leaf", "line", "log", "LI-2")),
        ("7 made ", ()),
        ("7 made 5", ()),
        ("7 15.3 ma", ()),
        ("note 7 ma", ()),
        ("undo 7 ma", ()),
        ("7 zzz ma", ()),
        ("7 sort ", ()),
        ("fail ", ()),
        ("7 made!", ()),
        ("7 ma\u0007", ()),
        ("line ", ("line B4", "line B5")),
        ("try ", ("try without", "try VO-11=", "try SE-20=", "try LI-2=")),
        ("try without LI-2 ", ("try without LI-2 VO-11", "try without LI-2 SE-20")),
        ("x" * 401, ()),
    ],
)
def test_what_is_offered(line: str, offered: tuple[str, ...]) -> None:
    assert complete(line, ROOM, None) == offered


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("7 ta", ("7 tarea",)),
        ("7 mad", ("7 made",)),
        ("7 re", ("7 rechazo", "7 rechazos", "7 reproceso", "7 reprocesos")),
        ("d", ("deshacer", "deshaz", "descarta", "día", "días")),
        ("dia", ("día", "días")),
        ("7 falla to", ("7 falla torcido", "7 falla tono")),
        ("7 toma LI-2 450 ", ("7 toma LI-2 450 lote",)),
        (
            "recibe LI-2 L8 36kg ",
            tuple(f"recibe LI-2 L8 36kg {word}" for word in ("cosecha", "pacas", "precio")),
        ),
    ],
)
def test_the_language_of_the_house_comes_first(line: str, offered: tuple[str, ...]) -> None:
    found = complete(line, SPANISH, None)
    assert found[: len(offered)] == offered
    assert set(found) >= set(complete(line, ROOM, None)) & set(offered)


def test_where_nothing_is_typed_each_thing_is_offered_once_in_the_language_of_the_house() -> None:
    assert complete("7 ", ROOM, None) == tuple(f"7 {form.en[0]}" for form in BENCH_FORMS)
    assert complete("7 ", SPANISH, None) == tuple(f"7 {form.es[0]}" for form in BENCH_FORMS)
    assert complete("", SPANISH, "7") == (*(form.es[0] for form in FORMS), *FILLER, *COVER)


def test_words_of_a_bench_are_offered_first_only_on_a_card() -> None:
    assert complete("mad", ROOM, None) == ()
    assert complete("mad", ROOM, "7") == ("made",)
    assert complete("wh", ROOM, None) == ()
    assert complete("wh", ROOM, "7") == ("why",)
    assert complete("take li", ROOM, "7") == ("take LI-2",)


pieces = st.sampled_from(
    [
        *BENCHES,
        *FILLER,
        *VITOLAS,
        *BLENDS,
        "made",
        "fail",
        "torn",
        "take",
        "roll",
        "sort",
        "2",
        "x",
        "receive",
        "L8",
        "lot",
        "crop",
        "13%",
        "36kg",
        "2023",
        "price",
        "stock",
        "stem",
        "panel",
    ]
)


@given(st.lists(pieces, max_size=5).map(" ".join), st.sampled_from([None, "7"]))
@example("7 fail torn 2 vei", None)
@example("receive VO-11 3 7-A ", None)
@example("receive VO-11 L8 36kg x ", None)
@example("receive VO-11 L8 36kg 13% crop 2023 ", None)
@settings(deadline=None)
def test_every_offer_goes_on_from_what_is_typed_and_can_be_read_so_far(
    line: str, at: str | None
) -> None:
    for cut in range(len(line) + 1):
        for offer in complete(line[:cut], ROOM, at):
            head, _, word = offer.rpartition(" ")
            assert line[:cut].casefold().startswith(head.casefold())
            read = parse(offer, ROOM, at)
            assert isinstance(read, ask.Parsed) or read.at > len(head), (offer, word, read)


@given(st.text(st.characters()), st.sampled_from([None, "7", "gone"]))
@settings(deadline=None)
def test_any_text_has_an_answer(line: str, at: str | None) -> None:
    assert isinstance(complete(line, ROOM, at), tuple)
