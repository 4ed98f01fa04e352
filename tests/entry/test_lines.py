"""What each line asks for, in English and in Spanish."""

from __future__ import annotations

import pytest

from core.entry import requests as ask
from core.entry.parse import parse
from tests.entry.room import ROOM, asked, filler, room, vitola

THREE = ask.Check("7", "bunch", (15.3, 15.6, 15.4))

LINES: tuple[tuple[str, ask.Request], ...] = (
    ("7", ask.OpenBench("7")),
    ("7 15.3 15.6 15.4", THREE),
    ("7 cigar 17.2 17.4", ask.Check("7", "cigar", (17.2, 17.4))),
    ("7 bundle 50 868", ask.Check("7", "bundle", (868.0,), 50)),
    ("7 bundle 25 434 436", ask.Check("7", "bundle", (434.0, 436.0), 25)),
    ("7 ring 52 51.5", ask.Check("7", "ring", (52.0, 51.5))),
    ("7 length 152.5", ask.Check("7", "length", (152.5,))),
    ("7 draw 62", ask.Check("7", "draw", (62.0,))),
    ("7 draw 5 dial 5.2dial", ask.Check("7", "draw", (5.0, 5.2), unit="dial")),
    ("7 portion LI-2 3.1 3.0", ask.Check("7", "portion", (3.1, 3.0), leaf="LI-2")),
    ("7 portion li-2 3.1g", ask.Check("7", "portion", (3.1,), leaf="LI-2")),
    ("7 cigar", ask.Begin("7", "cigar")),
    ("7 ring", ask.Begin("7", "ring")),
    ("7 portion LI-2", ask.Begin("7", "portion", "LI-2")),
    ("7 filler 13.1", ask.Check("7", "filler", (13.1,))),
    ("7 bunch 15.3 15.6 15.4", THREE),
    ("7 made 50", ask.Count("7", "made", 50)),
    ("7 good 50", ask.Count("7", "good", 50)),
    ("7 rework 3", ask.Count("7", "rework", 3)),
    ("7 fail plugged 2 torn 1", ask.Fail("7", (("plugged", 2), ("torn", 1)))),
    ("7 take LI-2 450", ask.Leaf("7", "take", "LI-2", 450.0)),
    ("7 take CA-3 450", ask.Leaf("7", "take", "CA-3", 450.0)),
    ("7 back LI-2 60", ask.Leaf("7", "back", "LI-2", 60.0)),
    ("7 scrap 35", ask.Scrap("7", 35.0)),
    ("7 scrap 35 g", ask.Scrap("7", 35.0)),
    ("7 scrap LI-2 35", ask.Scrap("7", 35.0, "LI-2")),
    ("7 scrap LI-2 35 g", ask.Scrap("7", 35.0, "LI-2")),
    ("7 second 3", ask.Count("7", "second", 3)),
    ("7 hold 25", ask.Hold("7", 25)),
    ("7 hold 25 too wet", ask.Hold("7", 25, "too wet")),
    ("7 hold 25 2 of them split", ask.Hold("7", 25, "2 of them split")),
    ("7 release 25", ask.Count("7", "release", 25)),
    ("7 workers 4", ask.Count("7", "workers", 4)),
    ("7 panel 5", ask.Count("7", "panel", 5)),
    ("7 take LI-2 450 lot 24-118", ask.Leaf("7", "take", "LI-2", 450.0, "24-118")),
    ("7 take LI-2 450 g lot 24/118.B_2", ask.Leaf("7", "take", "LI-2", 450.0, "24/118.B_2")),
    ("7 back LI-2 60 lot 24-118", ask.Leaf("7", "back", "LI-2", 60.0, "24-118")),
    ("7 stem 12", ask.Scrap("7", 12.0, kind="stem")),
    ("7 stem LI-2 12 g", ask.Scrap("7", 12.0, "LI-2", "stem")),
    ("sweepings 140", ask.Sweepings(140.0)),
    ("sweepings LI-2 20", ask.Sweepings(20.0, "LI-2")),
    ("receive LI-2 24-118 36.2kg", ask.Receive("LI-2", "24-118", 36_200.0)),
    (
        "receive LI-2 24-118 36.2kg 13.5% crop 2023 bales 3 price 24",
        ask.Receive("LI-2", "24-118", 36_200.0, 0.135, 2023, 3, 24.0),
    ),
    (
        "receive LI-2 24-118 36.2 kg price 24.50 bales 1 13.5 % crop 2023",
        ask.Receive("LI-2", "24-118", 36_200.0, 0.135, 2023, 1, 24.5),
    ),
    ("receive LI-2 118 0.8 t", ask.Receive("LI-2", "118", 800_000.0)),
    ("stock LI-2 24-118 31.5kg", ask.Stocktake("LI-2", "24-118", 31_500.0)),
    ("stock LI-2 24-118 31.5 kg 14%", ask.Stocktake("LI-2", "24-118", 31_500.0, 0.14)),
    ("stock LI-2 24-118 0", ask.Stocktake("LI-2", "24-118", 0.0)),
    ("7 roll robusto", ask.Roll("7", "robusto")),
    ("7 roll robusto B4", ask.Roll("7", "robusto", "B4")),
    ("7 roll robusto 250", ask.Roll("7", "robusto", None, 250)),
    ("7 roll robusto B4 250", ask.Roll("7", "robusto", "B4", 250)),
    ("LI-2 14.2%", ask.Moisture("LI-2", 0.142)),
    ("LI-2 14.2 %", ask.Moisture("LI-2", 0.142)),
    ("undo", ask.Undo()),
    ("undo 118", ask.Undo(118)),
    ("undo 118 wrong bench", ask.Undo(118, "wrong bench")),
    ("undo wrong bench", ask.Undo(None, "wrong bench")),
    ("note wet leaf until nine", ask.Note("wet leaf until nine")),
    ("7 note new blade, 14% off", ask.Note("new blade, 14% off", "7")),
    ("board", ask.Show("board")),
    ("rounds", ask.Show("rounds")),
    ("chart 7", ask.Chart("7")),
    ("7 chart", ask.Chart("7")),
    ("7 chart cigar", ask.Chart("7", "cigar")),
    ("chart 7 cigar", ask.Chart("7", "cigar")),
    ("chart cigar 7", ask.Chart("7", "cigar")),
    ("leaf", ask.Show("leaf")),
    ("day", ask.Show("day")),
    ("days", ask.Show("days")),
    ("panel", ask.Show("panel")),
    ("panel T1 A 7 6 8 7", ask.Panel("T1 A 7 6 8 7", 6)),
    ("log", ask.Show("log")),
    ("help", ask.Show("help")),
    ("?", ask.Show("help")),
    ("close", ask.Show("close")),
    ("only robusto R-07", ask.Show("only", "robusto R-07")),
    ("only", ask.Show("only")),
    ("sort due", ask.Show("sort", "due")),
    ("sort bench", ask.Show("sort", "bench")),
    ("sort mean", ask.Show("sort", "mean")),
    ("sort good", ask.Show("sort", "good")),
)

TWINS: tuple[tuple[str, str], ...] = (
    ("7 puro 17,2 17,4", "7 cigar 17.2 17.4"),
    ("7 mazo 50 868", "7 bundle 50 868"),
    ("7 cepo 52 51,5", "7 ring 52 51.5"),
    ("7 largo 152,5", "7 length 152.5"),
    ("7 tiro 62", "7 draw 62"),
    ("7 tripa 13,1", "7 filler 13.1"),
    ("7 bonche 15,3", "7 bunch 15.3"),
    ("7 porción LI-2 3,1 3,0", "7 portion LI-2 3.1 3.0"),
    ("7 porcion LI-2 3,1", "7 portion LI-2 3.1"),
    ("rondas", "rounds"),
    ("gráfica 7", "chart 7"),
    ("7 grafica puro", "7 chart cigar"),
    ("7 hechos 50", "7 made 50"),
    ("7 buenos 50", "7 good 50"),
    ("7 reproceso 3", "7 rework 3"),
    ("7 falla tapados 2 rota 1", "7 fail plugged 2 torn 1"),
    ("7 rechazo manchas 2", "7 reject stain 2"),
    ("7 toma LI-2 450", "7 take LI-2 450"),
    ("7 entrega LI-2 450", "7 issue LI-2 450"),
    ("7 devuelve LI-2 60", "7 back LI-2 60"),
    ("7 devolucion LI-2 60", "7 return LI-2 60"),
    ("7 recorte 35", "7 cuttings 35"),
    ("7 segunda 3", "7 second 3"),
    ("7 retiene 25 mojados", "7 hold 25 mojados"),
    ("7 retenidos 25", "7 hold 25"),
    ("7 libera 25", "7 release 25"),
    ("7 fuma 4", "7 workers 4"),
    ("7 fumas 4", "7 workers 4"),
    ("7 cata 5", "7 panel 5"),
    ("7 toma LI-2 450 lote 24-118", "7 take LI-2 450 lot 24-118"),
    ("7 vena LI-2 12", "7 stem LI-2 12"),
    ("7 venas 12,5", "7 stem 12.5"),
    ("barrido 140", "sweepings 140"),
    (
        "recibe LI-2 24-118 36,2kg 13,5% cosecha 2023 pacas 3 precio 24,5",
        "receive LI-2 24-118 36.2kg 13.5% crop 2023 bales 3 price 24.5",
    ),
    ("existencia LI-2 24-118 31,5kg", "stock LI-2 24-118 31.5kg"),
    ("hoja", "leaf"),
    ("días", "days"),
    ("cata", "panel"),
    ("7 vitola robusto B4 250", "7 roll robusto B4 250"),
    ("7 tarea robusto B4 250", "7 roll robusto B4 250"),
    ("LI-2 14,2%", "LI-2 14.2%"),
    ("deshacer 118 otra mesa", "undo 118 otra mesa"),
    ("anula", "undo"),
    ("nota hoja mojada", "note hoja mojada"),
    ("7 nota hoja mojada", "7 note hoja mojada"),
    ("tablero", "board"),
    ("día", "day"),
    ("dia", "day"),
    ("registro", "log"),
    ("ayuda", "help"),
    ("cierre", "close"),
    ("solo robusto", "only robusto"),
    ("orden mesa", "sort bench"),
    ("orden toca", "sort due"),
    ("orden promedio", "sort mean"),
    ("orden buenos", "sort good"),
)


@pytest.mark.parametrize(("line", "request_"), LINES, ids=str)
def test_what_a_line_asks_for(line: str, request_: ask.Request) -> None:
    assert parse(line, ROOM, None) == ask.Parsed(request_, sure=False)


@pytest.mark.parametrize(("spanish", "english"), TWINS)
def test_spanish_says_the_same(spanish: str, english: str) -> None:
    assert asked(spanish) == asked(english)


@pytest.mark.parametrize(("line", "request_"), LINES, ids=str)
def test_both_languages_are_always_accepted(line: str, request_: ask.Request) -> None:
    assert parse(line, room("es"), None) == ask.Parsed(request_)


def test_languages_mix_in_one_line() -> None:
    assert asked("7 fail tapado 2 torn 1") == asked("7 falla plugged 2 roto 1")


@pytest.mark.parametrize(
    "line", ["7 TAKE li-2 450", "7 Take Li-2 450", "  7   take\u00a0LI-2   450  "]
)
def test_case_and_blanks_do_not_matter(line: str) -> None:
    assert asked(line) == ask.Leaf("7", "take", "LI-2", 450.0)


@pytest.mark.parametrize("typed", ["Campaña", "campana", "CAMPAÑA", "campan\u0303a"])
def test_a_code_comes_back_as_the_house_spells_it(typed: str) -> None:
    assert asked(f"7 roll {typed} b5") == ask.Roll("7", "Campaña", "B5")


def test_a_bench_with_a_name() -> None:
    assert asked("7-a") == ask.OpenBench("7-A")
    assert asked("7-A made 5") == ask.Count("7-A", "made", 5)
    assert asked("7-A 15.3") == ask.Check("7-A", "bunch", (15.3,))


@pytest.mark.parametrize("at", [None, "3"])
@pytest.mark.parametrize(("line", "bench"), [("/7", "7"), ("/7-a", "7-A"), ("/118", "118")])
def test_a_slash_opens_a_bench_from_anywhere(line: str, bench: str, at: str | None) -> None:
    assert asked(line, at) == ask.OpenBench(bench)


def test_a_vitola_may_be_called_what_a_word_is_called() -> None:
    assert asked("7 roll good") == ask.Roll("7", "good")
    assert asked("7 good 5") == ask.Count("7", "good", 5)
    assert asked("7 roll 54x6 250") == ask.Roll("7", "54x6", None, 250)


def test_a_leaf_may_be_called_what_a_word_is_called() -> None:
    house = room(leaves=(filler("note"),))
    for line in ("note 14.2%", "note 14.2 %"):
        assert parse(line, house, None) == ask.Parsed(ask.Moisture("note", 0.142))
    for text in ("14.2% so far", "at nine 14.2%", "9 h: 14.2%"):
        assert parse(f"note {text}", house, None) == ask.Parsed(ask.Note(text))


def test_codes_that_differ_in_an_accent_are_told_apart() -> None:
    names = ("cano", "caño")
    house = room(vitolas=tuple(map(vitola, names)))
    for name in names:
        assert parse(f"7 roll {name}", house, None) == ask.Parsed(ask.Roll("7", name))
    assert isinstance(parse("7 roll CANO", house, None), ask.Unread)


def test_a_fault_named_twice_adds_up() -> None:
    assert asked("7 fail torn 1 plugged 2 roto 3") == ask.Fail("7", (("torn", 4), ("plugged", 2)))


def test_a_fault_of_two_words() -> None:
    assert asked("7 fail hard spot 2 no draw 1 Vena Gruesa 3") == ask.Fail(
        "7", (("hard", 2), ("tight", 1), ("vein", 3))
    )


def test_vena_is_stem_after_a_bench_and_a_fault_after_fail() -> None:
    assert asked("7 vena 12") == ask.Scrap("7", 12.0, kind="stem")
    assert asked("7 falla vena 12") == ask.Fail("7", (("vein", 12),))


def test_a_lot_is_kept_as_typed_and_may_look_like_a_weight_or_a_leaf() -> None:
    for lot in ("24-118", "118", "2kg", "LI-2", "Lot", "x" * 16):
        assert asked(f"receive LI-2 {lot} 36kg") == ask.Receive("LI-2", lot, 36_000.0)
        assert asked(f"7 take LI-2 450 LOT {lot}") == ask.Leaf("7", "take", "LI-2", 450.0, lot)


@pytest.mark.parametrize("line", ["7 15.3 22!", "7 15.3 22 !", "7 15.3 22!!", "7 15.3 22 ! !"])
def test_an_exclamation_mark_says_that_a_far_off_weight_is_meant(line: str) -> None:
    assert parse(line, ROOM, None) == ask.Parsed(ask.Check("7", "bunch", (15.3, 22.0)), sure=True)


@pytest.mark.parametrize(
    ("line", "request_"),
    [
        ("note wet leaf!", ask.Note("wet leaf!")),
        ("note wet leaf !", ask.Note("wet leaf !")),
        ("reopen bundle found!", ask.Reopen("bundle found!")),
    ],
)
def test_an_exclamation_mark_in_free_text_belongs_to_it(line: str, request_: ask.Request) -> None:
    assert parse(line, ROOM, None) == ask.Parsed(request_, sure=False)


@pytest.mark.parametrize(
    ("line", "reason"),
    [("7 hold 500!", ""), ("7 hold 500 wet!", "wet"), ("7 hold 500 too wet !", "too wet")],
)
def test_an_exclamation_mark_after_a_hold_says_that_it_is_meant(line: str, reason: str) -> None:
    assert parse(line, ROOM, None) == ask.Parsed(ask.Hold("7", 500, reason), sure=True)


@pytest.mark.parametrize(
    ("line", "reason"),
    [("undo 118!", ""), ("undo 118 wrong!", "wrong"), ("undo 118 wrong !", "wrong")],
)
def test_an_exclamation_mark_after_an_undo_says_that_it_is_meant(line: str, reason: str) -> None:
    assert parse(line, ROOM, None) == ask.Parsed(ask.Undo(118, reason), sure=True)


def test_free_text_is_kept_as_typed() -> None:
    assert asked("7 note  Two   blanks, Capitals, ñ ") == ask.Note("Two   blanks, Capitals, ñ", "7")
