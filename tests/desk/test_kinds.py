"""Every kind of check from the entry line: what it is held against, and in what words."""

from __future__ import annotations

import pytest

from core.desk.desk import Desk
from core.desk.faces import Go, Mistake, Question, Recorded
from tests.desk.conftest import HOUSE_TOML, load

DIAL = 'ring = 52\nlength = "6 in"\ndraw = ["3 dial", "7 dial"]'
"""Put in place of the toro's size: one whose draw is read on a dial."""


def says(desk: Desk, line: str, at: str | None = None) -> str:
    """What is said of the saved line, after the words that it is saved."""
    meant = desk.meaning(line, at)
    assert meant.ok, meant
    outcome = desk.enter(line, at)
    assert isinstance(outcome, Recorded), outcome
    return outcome.says.partition(": ")[2].removeprefix("bench 7, toro: ")


def refused(desk: Desk, line: str, at: str | None = None) -> str:
    outcome = desk.enter(line, at)
    assert isinstance(outcome, Mistake), outcome
    assert desk.meaning(line, at).says == outcome.says
    return outcome.says


def with_dial(desk: Desk, rises: str) -> Desk:
    text = HOUSE_TOML.replace('ring = 52\nlength = "6 in"', f'{DIAL}\ndraw_rises = "{rises}"')
    load(desk, text)
    return desk


@pytest.mark.parametrize(
    ("line", "words"),
    [
        # 10 g of filler in the toro; SE-1 and LI-1 as 6 to 4; the bunch may be 0.6 g off.
        ("7 filler 10.3", "filler, 10.3 g, target 10.0 ± 0.6: within"),
        ("7 portion SE-1 6.3", "seco SE-1 portion, 6.3 g, target 6.0 ± 0.3: within"),
        ("7 portion li-1 4,3", "ligero LI-1 portion, 4.3 g, target 4.0 ± 0.2: heavy"),
        ("7 10.8", "10.8 g, target 10.8 ± 0.6: within"),
        ("7 cigar 10.3", "cigar, 10.3 g, target 11.4 ± 0.6: light"),
        ("7 bundle 25 282", "bundle of 25, 282.0 g, target 285.3 ± 5.7: within"),
        ("7 ring 53.5", "ring, 53.5 ring gauge, target 52.0 ± 1.0: thick"),
        ("7 length 150", "length, 150.0 mm, target 152.4 ± 1.5: short"),
        ("7 draw 62", "draw, 62 mmH2O, the house book gives no window"),
        ("7 draw 5.2 dial", "draw, 5.2 dial, the house book gives no window"),
    ],
)
def test_each_kind_has_its_target_window_unit_and_words(desk: Desk, line: str, words: str) -> None:
    assert says(desk, line).removeprefix("first piece: ") == words
    assert words in desk.log()[0].says


@pytest.mark.parametrize(
    ("rises", "low", "high"), [("tighter", "loose", "tight"), ("looser", "tight", "loose")]
)
def test_on_a_dial_the_house_says_which_way_is_tight(
    desk: Desk, rises: str, low: str, high: str
) -> None:
    with_dial(desk, rises)
    assert says(desk, "7 draw 2.5") == f"draw, 2.5 dial, target 5.0 ± 2.0: {low}"
    assert says(desk, "7 draw 7.5 dial") == f"draw, 7.5 dial, target 5.0 ± 2.0: {high}"
    assert says(desk, "7 draw 5 6 7.5").endswith(f"mean within, but 1 of 3 {high}, unsteady")
    assert [check.draw and check.draw.rises for check in desk.recent_checks("7")] == [rises] * 3


def test_draw_in_another_unit_than_the_houses_is_refused(desk: Desk) -> None:
    with_dial(desk, "looser")
    assert "expected draw in dial, found mmH2O" in refused(desk, "7 draw 62 mmH2O")


# -- portions ---------------------------------------------------------------------------


def test_a_portion_of_leaf_that_the_blend_has_not_is_refused_by_name(desk: Desk) -> None:
    other = '[[leaf]]\ncode = "LI-9"\nuse = "filler"\nclass = "ligero"\nmoisture = "13 %"\n'
    load(desk, HOUSE_TOML + other + 'half_leaf = "3 g"\n')
    assert "has no LI-9 in its filler: expected one of SE-1, LI-1" in refused(
        desk, "7 portion LI-9 3.1"
    )


def test_a_portion_far_off_is_asked_about(desk: Desk) -> None:
    assert isinstance(desk.enter("7 portion LI-1 5.3", None), Question)
    assert isinstance(desk.enter("7 portion LI-1 5.3!", None), Recorded)


def test_a_portion_is_no_weigh_in_and_says_nothing_of_the_leaf_in_bunches(desk: Desk) -> None:
    says(desk, "7 portion LI-1 4.9 4.9 4.9")
    line = desk.bench_line("7")
    assert (line.due, line.last_state, line.trend) == (None, "", ())
    says(desk, "7 made 40")
    (row,) = (row for row in desk.report().benches if row.bench == 7)
    assert row.mean_deviation_g is None
    assert says(desk, "7 10.8").startswith("first piece: ")


def portions(desk: Desk) -> dict[str, list[float]]:
    """Deviations of the complete portion checks of bench 7, by leaf."""
    tally = desk.ledger.bench("7")
    found: dict[str, list[float]] = {}
    for check in tally.since_roll:
        if check.leaf is not None and check.closed and check.deviation is not None:
            found.setdefault(check.leaf, []).append(check.deviation)
    return found


# -- readings one by one ----------------------------------------------------------------


def test_a_kind_without_readings_says_what_the_bare_numbers_are_of(desk: Desk) -> None:
    assert desk.meaning("7 portion LI-1", None).says == (
        "bench 7: ligero LI-1 portion, readings follow on its card, in g, target 4.0 ± 0.2"
    )
    assert desk.enter("7 portion LI-1", None) == Go("card", "7")
    waiting = desk.open_check("7")
    assert waiting is not None
    assert (waiting.measure, waiting.leaf, waiting.readings) == ("portion", "LI-1", ())
    first = says(desk, "4.1", at="7")
    assert first == (
        "bench 7: ligero LI-1 portion, reading 1 of 3, 4.1 g, target 4.0 ± 0.2: within"
    )
    says(desk, "4.1 g", at="7")
    closed = says(desk, "4.4", at="7")
    assert closed == (
        "ligero LI-1 portion, check of 3 closed, mean 4.2 g, target 4.0 ± 0.2: "
        "mean within, but 1 of 3 heavy, unsteady"
    )
    assert portions(desk) == {"LI-1": [pytest.approx(0.2)]}
    assert "reading 1 of 3, 10.8 g, target 10.8" in says(desk, "10.8", at="7")


def test_readings_of_another_kind_come_in_their_own_unit(desk: Desk) -> None:
    desk.enter("length", "7")
    assert says(desk, "6in", at="7").endswith("152.4 mm, target 152.4 ± 1.5: within")
    assert "expected length in mm, found g" in refused(desk, "15.3 g", at="7")
    assert says(desk, "153", at="7").endswith("153.0 mm, target 152.4 ± 1.5: within")
    assert says(desk, "", at="7").startswith("length, check of 2 closed, mean 152.7 mm")


def test_undoing_the_only_reading_keeps_the_kind(desk: Desk) -> None:
    desk.enter("cigar", "7")
    assert "cigar, reading 1" in says(desk, "11.9", at="7")
    says(desk, "undo")
    assert "cigar, reading 1" in says(desk, "11.3", at="7")


def test_a_kind_is_begun_only_where_no_check_is_open(desk: Desk) -> None:
    says(desk, "10.8", at="7")
    assert "has an open check here, 1 of 3 readings" in refused(desk, "7 cigar")


@pytest.mark.parametrize("away", ["", "/7", "board", "7 made 40", "8 10.8"])
def test_a_kind_begun_is_forgotten_by_whatever_else_is_done(desk: Desk, away: str) -> None:
    desk.enter("7 cigar", None)
    desk.enter(away, "7")
    assert desk.open_check("7") is None
    assert "target 10.8" in says(desk, "10.8", at="7")


# -- first pieces -----------------------------------------------------------------------


def test_the_first_weigh_in_of_the_day_and_of_each_vitola_is_a_first_piece(desk: Desk) -> None:
    assert says(desk, "7 ring 52") == "ring, 52.0 ring gauge, target 52.0 ± 1.0: within"
    assert says(desk, "7 10.8 11.0").startswith("first piece: 2 readings, mean 10.9 g")
    assert says(desk, "7 10.8").startswith("10.8 g")
    says(desk, "7 roll corona")
    assert "corona: first piece: 6.5 g" in says(desk, "7 6.5")
    assert "corona: 6.5 g" in says(desk, "7 6.5")
    logged = [line.says for line in desk.log() if "first piece" in line.says]
    assert [text.split(":")[0] for text in logged] == ["bench 7, corona", "bench 7, toro"]


def test_a_first_piece_that_is_undone_leaves_the_next_one_to_be_it(desk: Desk) -> None:
    says(desk, "7 13.8")
    assert "void (bench 7, toro: 13.8 g" in says(desk, "undo")
    assert says(desk, "7 10.8").startswith("first piece: 10.8 g")


def test_a_first_piece_reading_by_reading(desk: Desk) -> None:
    assert "bench 7: first piece: reading 1 of 3" in says(desk, "10.8", at="7")
    assert "bench 7: first piece: reading 2 of 3" in says(desk, "10.8", at="7")
    assert says(desk, "", at="7").startswith("first piece: check of 2 closed")


# -- the way to the screens -------------------------------------------------------------


def test_rounds_and_charts_are_asked_for_on_the_line(desk: Desk) -> None:
    assert desk.enter("rounds", None) == Go("rounds")
    assert desk.enter("rondas", "7") == Go("rounds", "7")
    assert desk.enter("chart", "7") == Go("chart", "7")
    assert desk.enter("7 chart cigar", None) == Go("chart", "7", "cigar")
    assert desk.enter("gráfica mazo", "8") == Go("chart", "8", "bundle")
    assert desk.meaning("chart 7 cigar", None).says == "show bench 7's chart of cigar"
    assert desk.meaning("rounds", None).ok
