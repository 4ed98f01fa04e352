"""Tables of a house with long codes and large figures: no two figures are ever read as one."""

from __future__ import annotations

import re

import pytest
from rich.cells import cell_len

from core.day.report import BenchDay
from core.desk.desk import Desk
from core.desk.figures import thousands
from core.desk.line import LineShown
from core.house.language import LANGUAGES
from core.house.model import HouseBook, Language
from core.stock.issue import IssueTotal
from core.stock.stock import LeafStock, Stock
from floor.looks.language import paper_words, words_of
from floor.looks.spans import Line, inked, text_of, wrap
from floor.screens.chart_view import chart_lines
from floor.screens.day_benches import out_lines
from floor.screens.day_leaf import leaf_lines
from floor.screens.day_split import split_lines
from floor.screens.days import _columns, _row
from floor.screens.leaf import stock_lines
from floor.screens.leaf_issue import _totals
from floor.screens.line_facts import earning_lines, pieces_lines
from floor.screens.line_table import key_lines, table_lines
from floor.screens.panel import _taught
from tests.desk.conftest import MORNING, load
from tests.floor.checked import charted
from tests.floor.hall import small_house
from tests.floor.long_house import BENCHES, COVERS, FILLER, VITOLAS, long_house
from tests.floor.test_day_page import CLOSED

WIDTHS = (80, 60)
LEAVES = {**FILLER, **COVERS}
GROUPED = r"[-+]?\d{1,3}(?: \d{3})+"


def rows(lines: list[Line]) -> list[str]:
    return [text_of(line).rstrip() for line in lines]


def figures_of(row: str) -> list[str]:
    """The figures of a row of a table, as they are told apart by two blanks or more."""
    return [
        text for text in re.split(r"\s{2,}", row.strip()) if re.fullmatch(r"[-+]?[\d .]+", text)
    ]


@pytest.fixture(scope="module")
def house() -> HouseBook:
    return small_house(long_house())


@pytest.fixture(scope="module")
def line(tmp_path_factory: pytest.TempPathFactory) -> LineShown:
    desk = Desk(tmp_path_factory.mktemp("long") / "data", lambda: MORNING, "T1")
    load(desk, long_house())
    return desk.line.shown()


# -- what is on hand, and what to issue ----------------------------------------------------------


TOTALS = tuple(
    IssueTotal(code, of, 0.13, 3_930_484, 792_000 if code in COVERS else None, 99_200, 3_831_284)
    for code, of in LEAVES.items()
)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("language", LANGUAGES)
def test_what_to_issue_is_told_apart_from_what_is_on_hand(language: Language, width: int) -> None:
    words = words_of(language, False)
    told = rows(_totals(TOTALS, width, words))
    assert max(map(cell_len, told)) <= width
    figures = [found for row in told if (found := figures_of(row[18:]))]
    each = [["3 930 484", "99 200", "3 831 284"]] * len(FILLER)
    assert figures == [*each, *[["3 930 484", "792 000", "99 200", "3 831 284"]] * len(COVERS)]
    assert any("medio tiempo" in row for row in told)
    assert all(any(code in row for row in told) for code in LEAVES)


def test_codes_give_way_before_classes_and_only_then_do_they_stand_above() -> None:
    words = words_of("en", False)
    small = tuple(total._replace(grams=3_930, on_hand_g=9_000, short_g=1_200) for total in TOTALS)
    told = rows(_totals(small, 60, words))
    assert len(told) == len(TOTALS) + 1
    assert any(row.startswith(" MEDIO") and "medio tiempo" in row for row in told)
    assert not any("MEDIO-TIEMPO-555" in row for row in told)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_class_is_whole_in_the_stock_and_the_moisture_stays(
    language: Language, width: int
) -> None:
    leaves = tuple(
        LeafStock(code, of, 0.13, None, (), 3_585_280.0, 29_830.0, 0.0, 24_530.0, 1.0, 0.0, 0.0,
                  2.0, None)
        for code, of in LEAVES.items()
    )  # fmt: skip
    words = words_of(language, False)
    stock = Stock(leaves, (), (), 1, ())
    told = rows(stock_lines(stock, {}, 0.13, MORNING.date(), width, words))
    row = next(row for row in told if row.startswith(" MED"))
    assert " medio tiempo " in row
    assert "13.0 %" in row
    assert max(map(cell_len, told)) <= width


# -- the day -------------------------------------------------------------------------------------


LARGE = CLOSED.leaf[0].model_copy(
    update={
        "leaf": "MEDIO-TIEMPO-555",
        "leaf_class": "medio tiempo",
        **dict.fromkeys(("issued_g", "returned_g", "used_standard_g", "in_good_g"), 1_234_567.0),
        **dict.fromkeys(("rejects_g", "heavy_g", "cuttings_g", "unexplained_g"), -117_959.0),
        "heavy_se_g": 11_000.0,
    }
)


@pytest.mark.parametrize("width", [60, 80, 100, 132])
@pytest.mark.parametrize("language", LANGUAGES)
def test_figures_of_the_leaf_table_are_two_blanks_apart(language: Language, width: int) -> None:
    words = words_of(language, False)
    report = CLOSED.model_copy(update={"leaf": (LARGE,)})
    told = rows(leaf_lines(report, 1, width, words))
    assert max(map(cell_len, told)) <= width
    figures = figures_of(told[1].rstrip("!").replace(LARGE.leaf, "").replace(LARGE.leaf_class, ""))
    assert len(figures) >= 3
    assert all(re.fullmatch(GROUPED, text) for text in figures)
    assert set(figures) <= {"1 234 567", "-117 959", "22 000"}


@pytest.mark.parametrize("width", WIDTHS)
def test_grams_and_shares_of_what_is_not_in_good_are_two_blanks_apart(width: int) -> None:
    words, paper = words_of("en", False), paper_words("en")
    used = LARGE.model_copy(update={"used_standard_g": 9_000.0})
    told = rows(split_lines(CLOSED.model_copy(update={"leaf": (used,)}), width, words, paper))
    assert max(map(cell_len, told)) <= width
    assert all(re.search(r"\S  +[-\d ]*\d  +-?[\d.]+ %", row) for row in told)


@pytest.mark.parametrize("width", WIDTHS)
def test_figures_of_the_days_are_two_blanks_apart(width: int) -> None:
    words = words_of("en", False)

    class Large:
        good, unexplained_g = 1_234_567, -232_303.0
        first_pass_yield = leaf_yield = 1.0
        filler_kg_per_1000_good = 12_345.67

    columns = _columns([("CHURCHILL-GRANDE", Large())], width, words)  # type: ignore[list-item]
    (row,) = rows(_row("CHURCHILL-GRANDE", Large(), columns, width))  # type: ignore[arg-type]
    assert cell_len(row) <= width
    figures = ["1 234 567", "100.0", "100.0", "12 345.67", "-232 303"]
    assert figures_of(row) == figures[: len(columns.sizes)]
    assert len(columns.sizes) >= 3


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("language", LANGUAGES)
def test_bunchers_and_vitolas_of_benches_out_stand_whole_in_their_columns(
    language: Language, width: int
) -> None:
    benches = tuple(
        BenchDay(
            bench=int(number) if number.isdecimal() else number, buncher=buncher, vitola=vitola,
            made=0, good=0, rejected={}, rework=0, checks=5, out=5, mean_deviation_g=-1.081,
        )
        for number, (buncher, vitola) in BENCHES.items()
    )  # fmt: skip
    words = words_of(language, False)
    told = rows(out_lines(CLOSED.model_copy(update={"benches": benches}), 2, width, words))
    assert max(map(cell_len, told)) <= width
    for of in (0, 1):
        names = [pair[of] for pair in BENCHES.values()]
        at = [next(row.index(name) for row in told if name in row) for name in names]
        assert len(set(at)) == 1, told
    assert "-1.081 g" in "\n".join(told)


# -- the line ------------------------------------------------------------------------------------


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("language", LANGUAGES)
def test_heads_and_money_of_the_line_are_two_blanks_apart(
    line: LineShown, language: Language, width: int
) -> None:
    words = words_of(language, False)
    pieces = rows(pieces_lines(line.sheet, None, 2, width, words))
    earning = rows(earning_lines(line.sheet, width, words))
    assert max(map(cell_len, [*pieces, *earning])) <= width
    heads = [row for row in pieces if row.startswith(f" {words.vitola} ")]
    codes = [code for row in heads for code in re.split(r"\s{2,}", row.strip())[1:]]
    assert len(codes) == len(FILLER)
    assert all(" " not in code for code in codes)
    row = next(row for row in earning if row.startswith(" ROBU"))
    assert figures_of(row)[0] == "98000.00"
    assert len(figures_of(row)) == len(re.split(r"\s{2,}", row.strip())) - 1


@pytest.mark.parametrize("width", [60, 70, 80, 132])
@pytest.mark.parametrize("language", LANGUAGES)
def test_the_key_explains_the_columns_that_are_shown(
    line: LineShown, language: Language, width: int
) -> None:
    words = words_of(language, False)
    head = rows(table_lines(line.sheet, None, 2, width, words))[0]
    told = " ".join(rows(key_lines("CHURCHILL-GRANDE", width, words)))
    told = " ".join(told.split())
    for key, says in words.line_key.items():
        shown = words.line_columns[key] in head
        if key == "cost":
            shown &= words.line_columns["margin"] not in head
        assert (says.format(reference="CHURCHILL-GRANDE") in told) == shown, key


# -- the panel, the chart ------------------------------------------------------------------------


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("language", LANGUAGES)
def test_what_opens_a_panel_is_whole(house: HouseBook, language: Language, width: int) -> None:
    words = words_of(language, False)
    told = rows(_taught(house, words, width))
    assert max(map(cell_len, told)) <= width
    one, other, *_ = VITOLAS
    typed = words.panel_typed[1].format(blend="LIGA-RESERVA-999", sizes=f"{one},{other}")
    assert typed in " ".join(" ".join(told).split())


def test_the_shortest_vitolas_are_taken_where_the_first_are_long() -> None:
    text = long_house().replace('"ROBUSTO-ESPECIAL"', '"RO"').replace('"DOBLE-CORONA-EXT"', '"DO"')
    told = rows(_taught(small_house(text), words_of("en", False), 60))
    assert "  panel open LIGA-RESERVA-999 CHURCHILL-GRANDE,DO blind" in told
    assert "  panel open LIGA-RESERVA-999 RO,DO blind" not in told
    longer = text.replace('"DO"', '"DOBLE-CORONA"')
    told = rows(_taught(small_house(longer), words_of("en", False), 60))
    assert "  panel open LIGA-RESERVA-999 RO,DOBLE-CORONA blind" in told


@pytest.mark.parametrize(("mean", "sign"), [(-0.03, True), (0.03, False)])
def test_the_large_figure_of_a_chart_has_its_sign_and_says_what_it_is(
    mean: float, sign: bool
) -> None:
    calm = [mean + off for off in (0.1, -0.1, 0.05, -0.05)] * 6
    told = rows(chart_lines(charted(calm), None, words_of("en", False), 132, 43))
    assert any(row.startswith(" off target, g") for row in told)
    middle = next(n for n, row in enumerate(told) if row.startswith(" off target, g")) + 3
    assert told[middle].startswith(" ██████  ██  ██") == sign, told[middle]


def test_no_dash_stands_between_figures_of_a_chart_in_ascii() -> None:
    drift = [0.1, -0.1, 0.05, 0.0, -0.05] * 6
    told = "\n".join(rows(chart_lines(charted(drift), None, words_of("en", False), 80, 19)))
    last = next(row for row in told.splitlines() if "last checks" in row)
    assert "·" not in last
    assert re.search(r"-0\.05  \d\d:\d\d 0\.00  ", last)
    assert "; Cp " in told


# -- figures and their units ---------------------------------------------------------------------


@pytest.mark.parametrize(
    "bound",
    ["868.0 g", "1223.72 kg", "13.5 %", "99 200 g", "3 831 284 g", "Cp 1.20", "Cpk 0.34",
     "178.0 mm", "15 min", "p 0.012", "as 7 16.9", "(868.0 g)", "-0.03 g,"],
)  # fmt: skip
def test_a_figure_and_its_unit_are_not_parted_by_the_end_of_a_row(bound: str) -> None:
    text = f"leaf is on hand in the house, {bound} short of today's quotas; more comes"
    for width in range(20, 70):
        assert any(bound in row for row in wrap(text, width)), (width, wrap(text, width))
        assert " ".join(wrap(text, width)) == text


def test_what_belongs_together_is_parted_where_no_row_holds_it() -> None:
    assert wrap("1223.72 kg", 7) == ["1223.72", "kg"]
    assert [text_of(row) for row in inked("12 345 678 g", 6)] == ["12 345", "678 g"]


def test_thousands_are_apart_by_one_blank_so_columns_must_not_be() -> None:
    assert thousands(3_831_284) == "3 831 284"
