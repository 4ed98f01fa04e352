"""Shapes, figures and words: what is drawn, before any screen draws it."""

from __future__ import annotations

import datetime as dt
import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.segment import Segment
from textual.color import Color

from core.desk.figures import thousands
from floor.looks.ascii import AsciiOnly
from floor.looks.figures import CUTS, ROWS, RULED, Cut, big, figure_width
from floor.looks.language import words_of
from floor.looks.plain import spelled
from floor.looks.sequences import known_to
from floor.looks.spans import fit, joined, shorten, text_of, width_of, wrap
from floor.looks.terminal import Terminal, terminal_of
from floor.looks.trend import Scale, chart, trend_shape
from floor.looks.words import long_date, plural

WORDY = st.text(alphabet=string.ascii_letters + "áéñ 0123456789", max_size=60)


def test_a_long_name_loses_its_middle() -> None:
    assert shorten("corona gorda", 9) == "coro…orda"
    assert fit("toro", 6) == "toro  "
    assert fit("toro", 6, "right") == "  toro"


@given(WORDY, st.integers(1, 30))
@settings(deadline=None, max_examples=80)
def test_a_fitted_text_fills_its_width_exactly(text: str, width: int) -> None:
    assert cell_len(fit(text, width)) == width


@given(WORDY, st.integers(4, 30))
@settings(deadline=None, max_examples=80)
def test_wrapping_keeps_every_word_and_the_width(text: str, width: int) -> None:
    lines = wrap(text, width)
    assert all(cell_len(row) <= width for row in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@pytest.mark.parametrize("width", [-5, 0, 1, 2, 3])
def test_wrapping_ends_and_keeps_every_sign_however_little_room_there_is(width: int) -> None:
    for text in ("", " ", "toro", "tabaco 日本の葉 ñ", "葉"):
        assert "".join(wrap(text, width)).replace(" ", "") == text.replace(" ", "")


def test_phrases_are_joined_while_there_is_room() -> None:
    assert joined(["3 late", "24 benches", "61 checks"], 20) == "3 late · 24 benches"


def test_ascii_keeps_every_cell_in_place() -> None:
    row = [Segment("│ ▸ 52 × 152 mm ± é ñ ▲▼−∙+ 界 €")]
    plain = AsciiOnly().apply(row, Color(0, 0, 0))[0].text
    assert plain.isascii()
    assert len(plain) == row[0].cell_length
    assert plain.startswith("| > 52 x 152 mm ~ e n ^v-.+")


def test_signs_that_need_more_than_a_cell_are_spelled_out_before_layout() -> None:
    assert spelled("15.2 ± 0.6 → 1½") == "15.2 +/- 0.6 -> 1 1/2"


def test_a_sign_that_ascii_has_not_leaves_no_hole_in_a_sentence() -> None:
    assert spelled("¿cerrar? ¡ya!") == "cerrar? ya!"
    assert spelled("π × diameter") == "pi × diameter"


def test_big_figures_are_as_wide_as_they_say_and_all_differ() -> None:
    for cut in CUTS:
        rows = big("17.05", cut)
        assert len(rows) == ROWS
        assert {width_of(row) for row in rows} == {figure_width("17.05", cut)}
        shapes = {"".join(text_of(row) for row in big(digit, cut)) for digit in "0123456789"}
        assert len(shapes) == 10


@pytest.mark.parametrize("cut", [*CUTS, RULED])
def test_figures_stand_further_apart_than_the_digits_about_a_point(cut: Cut) -> None:
    assert cut.air + 2 * bool(cut.rule) > 2 * cut.beside_point + cut.point


def test_the_trend_draws_height_and_what_is_out_as_another_shape() -> None:
    assert trend_shape([0.0, 0.5, -0.5, 1.0, -1.0, 1.2, -1.2], 8) == "∙+−+−▲▼"
    assert trend_shape([0.0, 0.0, 1.5], 2) == "∙▲"


def test_the_chart_marks_points_beyond_the_limits_with_another_shape() -> None:
    rows = [text_of(row) for row in chart([0.0, 1.5, -1.5], Scale("11.4", "10.8", "10.2"), 30, 5)]
    assert len(rows) == 5
    assert {len(row) for row in rows} == {30}
    assert rows[0].index("✕") > rows[2].index("●")
    assert rows[4].count("✕") == 1
    assert [row[:4] for row in rows] == ["    ", "11.4", "10.8", "10.2", "    "]


@pytest.mark.parametrize(
    ("environ", "encoding", "shows"),
    [
        ({"TERM": "xterm-256color"}, "utf-8", Terminal("full", ascii=False)),
        ({"TERM": "xterm", "COLORTERM": "truecolor"}, "UTF-8", Terminal("full", ascii=False)),
        ({"TERM": "xterm"}, "utf8", Terminal("ansi", ascii=False)),
        ({"TERM": "xterm-256color", "NO_COLOR": "1"}, "utf-8", Terminal("none", ascii=False)),
        ({"TERM": "linux"}, "utf-8", Terminal("ansi", ascii=True, old=True)),
        ({"TERM": "vt100"}, "utf-8", Terminal("none", ascii=True, old=True, four_keys=True)),
        ({"TERM": "vt220"}, "utf-8", Terminal("none", ascii=True, old=True)),
        (
            {"TERM": "dumb", "COLORTERM": "truecolor"},
            "utf-8",
            Terminal("none", ascii=True, old=True, four_keys=True),
        ),
        ({"TERM": "xterm-mono"}, "utf-8", Terminal("none", ascii=False)),
        ({"TERM": "xterm-256color"}, "ascii", Terminal("full", ascii=True)),
        ({"TERM": "xterm", "LC_ALL": "C"}, "utf-8", Terminal("ansi", ascii=True)),
        (
            {"TERM": "xterm", "LANG": "C", "LC_CTYPE": "C.UTF-8"},
            "utf-8",
            Terminal("ansi", ascii=True),
        ),
        ({"TERM": "xterm", "LANG": "es_CU.UTF-8"}, "utf-8", Terminal("ansi", ascii=False)),
        ({"TERM": "xterm", "LC_ALL": "es_ES.ISO-8859-1"}, "utf-8", Terminal("ansi", ascii=True)),
        (
            {"TERM": "xterm", "LANG": "es_ES.ISO-8859-15@euro", "LC_CTYPE": "C.UTF-8"},
            "utf-8",
            Terminal("ansi", ascii=True),
        ),
        ({"TERM": "xterm", "LC_CTYPE": "UTF-8"}, "utf-8", Terminal("ansi", ascii=False)),
        ({"TERM": "xterm-256color"}, None, Terminal("full", ascii=True)),
    ],
)
def test_what_a_terminal_shows_is_told_from_its_environment(
    environ: dict[str, str], encoding: str | None, shows: Terminal
) -> None:
    assert terminal_of(environ, encoding) == shows


@pytest.mark.parametrize(
    ("sent", "vt100", "console", "xterm"),
    [
        ("\x1b[1;39;49mF1\x1b[0m", "\x1b[1mF1\x1b[0m", *["\x1b[1;39;49mF1\x1b[0m"] * 2),
        ("\x1b[?25l\x1b[?7l", "\x1b[?7l", *["\x1b[?25l\x1b[?7l"] * 2),
        ("\x1b]22;default\x07\x1b[?2026$p\x1b[>25u", "", "", None),
        ("\x1b[?1049h", *["\x1b[0m\x1b[2J\x1b[H"] * 2, None),
        ("\x1b[3;4Hno\x1b[K", *["\x1b[3;4Hno\x1b[K"] * 3),
    ],
)
def test_an_old_terminal_is_sent_what_it_knows(
    sent: str, vt100: str, console: str, xterm: str | None
) -> None:
    for term, arrives in (("vt100", vt100), ("linux", console), ("xterm", xterm or sent)):
        assert known_to(terminal_of({"TERM": term}, "utf-8"), sent) == arrives


def test_dates_are_written_as_people_write_them() -> None:
    day = dt.date(2026, 5, 4)
    assert long_date(day, words_of("en")) == "Monday 4 May 2026"
    assert long_date(day, words_of("es")) == "lunes 4 de mayo de 2026"


def test_one_is_not_many() -> None:
    assert plural(words_of("en").benches, 1) == "1 bench"
    assert plural(words_of("es").benches, 24) == "24 mesas"
    assert (thousands(7200), thousands(90_000)) == ("7200", "90 000")
