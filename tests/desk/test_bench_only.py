"""A terminal for one bench alone: what is its own works, anything else is one sentence."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.bench_only import PAGES
from core.desk.desk import Desk
from core.desk.faces import Go, Mistake, Recorded
from core.entry.words import FORMS
from core.say import told
from core.tongue import tongue_of
from tests.desk.conftest import HOUSE_TOML, load

At = Callable[..., Desk]
ALONE = "this screen is for bench 7 alone; go to one of the whole floor for that"
OTHERS = """
[[leaf]]
code = "VO-9"
use = "filler"
class = "volado"
moisture = "14 %"
half_leaf = "1.5 g"

[[blend]]
code = "SECRET"
parts = { "VO-9" = 1, "SE-1" = 1 }
binder = "BI-1"
wrapper = "WR-1"
"""


@pytest.fixture
def whole(desk_at: At) -> Desk:
    """A whole floor's desk beside it; the house has a blend that bench 7 does not roll."""
    desk = desk_at("T2", who="LP")
    load(desk, HOUSE_TOML.replace("[[vitola]]", f"{OTHERS}\n[[vitola]]", 1))
    return desk


@pytest.fixture
def bench(whole: Desk, desk_at: At) -> Desk:
    return desk_at("T1", only="7")


@pytest.mark.parametrize(
    "line",
    ["15.3!", "7 10.8", "made 10", "7 made 10", "hechos 10", "good 3", "fail plugged 2", "rework 1",
     "second 1!", "take SE-1 300", "7 back SE-1 10!", "scrap 12", "stem SE-1 3", "note new blade",
     "roll corona", "cigar 13.2!", "ring 52", "hold 1 wet!", "filler 9.1!", "portion SE-1 5.2!"],
)  # fmt: skip
def test_what_is_of_the_bench_is_recorded(bench: Desk, line: str) -> None:
    for at in ("7", None):  # wherever the floor stands, numbers are the bench's
        outcome = bench.enter(line, at)
        assert isinstance(outcome, Recorded), outcome
        assert outcome.bench == "7"


@pytest.mark.parametrize(
    ("line", "page"),
    [("/7", "card"), ("why", "why"), ("chart", "chart"), ("gráfica puro", "chart"),
     ("7 chart", "chart"), ("help", "help"), ("?", "help"), ("ayuda", "help"), ("cigar", "card")],
)  # fmt: skip
def test_its_pages_open(bench: Desk, line: str, page: str) -> None:
    outcome = bench.enter(line, "7")
    assert isinstance(outcome, Go), outcome
    assert outcome.screen == page
    assert not bench.refuses(outcome)


@pytest.mark.parametrize(
    "line",
    ["8 10.8", "8 made 10", "/8", "7-A", "7-A good 3", "chart 8", "8 chart", "8 note x",
     "roll toro SECRET", "7 roll corona SECRET 20", "take VO-9 30", "back VO-9 30", "scrap VO-9 3",
     "portion VO-9 3.1", "line SECRET", "line B1", "SE-1 14.2%", "VO-9 14 %",
     "sweepings 20", "receive SE-1 L8 36kg", "stock SE-1 L8 3kg", "approve", "approve 7",
     "7 approve", "try LI-1=2", "try save", "panel", "panel T1 A 7 6 8 7", "only toro", "sort due",
     "close", "reopen bundle found", "board", "rounds", "leaf", "line", "drop", "day", "days",
     "log", "tablero", "rondas", "hoja", "línea", "descarta", "día", "jornadas", "registro",
     "cierre", "solo toro", "orden media", "cata"],
)  # fmt: skip
def test_all_else_is_refused_with_one_sentence(bench: Desk, line: str) -> None:
    for at in ("7", None):
        outcome = bench.enter(line, at, sure=True)
        assert isinstance(outcome, Mistake), outcome
        assert outcome.says == ALONE
        meaning = bench.meaning(line, at)
        assert (meaning.says, meaning.ok) == (ALONE, False)
    assert not bench.ledger.entries


def test_every_word_of_every_page_is_its_own_or_refused(bench: Desk) -> None:
    for form in FORMS:
        for word in form.en + form.es:
            outcome = bench.enter(word, "7")
            if isinstance(outcome, Go):
                assert outcome.screen in PAGES
                assert outcome.bench in ("7", None)
            elif isinstance(outcome, Mistake) and form.takes == "nothing":
                assert outcome.says == ALONE


@pytest.mark.parametrize(
    "line",
    ["take XX 5", "take", "roll", "roll x", "roll toro x", "7 x", "x", "line x", "chart x", "99 5",
     "/99", "/", "portion", "scrap x 5", "panel x"],
)  # fmt: skip
def test_what_cannot_be_read_names_nothing_of_the_others(bench: Desk, line: str) -> None:
    for outcome in (bench.enter(line, "7"), bench.meaning(line, "7")):
        says = getattr(outcome, "says", "")
        assert says
        for secret in ("SECRET", "VO-9", "7-A", "8"):
            assert secret not in says.replace(line, "")


def test_tab_offers_nothing_of_the_others(bench: Desk, whole: Desk) -> None:
    begun = ["", "7 ", "take ", "take V", "roll ", "roll toro ", "roll toro S", "line ", "b", "l",
             "c", "d", "try ", "VO", "S", "approve ", "chart ", "portion ", "panel "]  # fmt: skip
    offered = {text for line in begun for text in bench.complete(line, "7")}
    assert {"take SE-1", "roll toro", "chart cigar"} <= offered
    words = {word for text in offered for word in text.split()}
    assert not words & {"SECRET", "VO-9", "8", "7-A", "board", "rounds", "leaf", "line", "day"}
    assert not words & {"log", "close", "try", "approve", "days", "drop", "reopen", "receive"}
    assert "line SECRET" in whole.complete("line ", None)


def test_only_its_own_entries_are_undone(bench: Desk, whole: Desk) -> None:
    whole.enter("8 made 10", None)
    whole.enter("7 made 10", None)
    whole.enter("note wet leaf", None)
    for line in ("undo 1!", "undo 2!", "deshacer 3!"):
        outcome = bench.enter(line, "7", sure=True)
        assert isinstance(outcome, Mistake)
        assert outcome.says == bench.meaning(line, "7").says == ALONE
    bench.enter("made 5", "7")
    assert isinstance(bench.enter("undo", "7"), Recorded)
    assert list(bench.ledger.undone) == [4]


def test_no_page_of_the_house_is_shown_whichever_way_it_is_asked_for(bench: Desk) -> None:
    for screen in (
        "board",
        "rounds",
        "leaf",
        "line",
        "day",
        "days",
        "panel",
        "log",
        "only",
        "sort",
    ):
        assert bench.refuses(Go(screen)) == ALONE
    assert bench.refuses(Go("card", "8")) == ALONE
    assert not bench.refuses(Go("why"))
    spanish = told(bench.refuses(Go("board")), tongue_of("es"))
    assert spanish.startswith("esta pantalla es solo de la mesa 7; ")


def test_the_day_is_not_closed_from_there(bench: Desk) -> None:
    bench.enter("made 5", "7")
    for outcome in (bench.close_day(), bench.reopen("bundle found")):
        assert isinstance(outcome, Mistake)
        assert outcome.says == ALONE


def test_a_bench_that_left_the_house_book_says_so(bench: Desk, whole: Desk) -> None:
    head, _, rest = HOUSE_TOML.partition("[[bench]]")
    load(whole, head + "[[bench]]" + rest.replace("number = 7\n", "number = 9\n", 1))
    bench.follow()
    outcome = bench.enter("made 5", "7")
    assert isinstance(outcome, Mistake)
    assert "bench 7 has left the house book" in outcome.says
    assert bench.complete("m", "7") == ()
