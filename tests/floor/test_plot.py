"""The chart in cells: its shapes, its values, and that no cell is out of place."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from core.sketch.chart import Spot
from floor.looks.plain import ascii_cell
from floor.looks.plot import plot
from floor.looks.spans import Line, text_of

WINDOW = (-0.6, 0.6)


def drawn(spots: list[Spot], width: int = 76, height: int = 12) -> list[str]:
    lines: list[Line] = plot(spots, window=WINDOW, target="target", places=2, size=(width, height))
    return [text_of(line) for line in lines]


def steady(*values: float) -> list[Spot]:
    return [Spot(value, -0.5, 0.5) for value in values]


def test_checks_hang_from_the_target_on_their_side() -> None:
    rows = drawn(steady(0.4, 0.4, -0.4))
    beam = next(y for y, row in enumerate(rows) if "━" in row)
    assert sum(row.count("●") for row in rows[:beam]) == 2
    assert sum(row.count("●") for row in rows[beam + 1 :]) == 1
    assert any(row.count("│") == 3 for row in rows[:beam])


def test_the_lines_have_their_values() -> None:
    rows = drawn(steady(0.1, -0.1))
    assert [row.split("│")[0].strip() for row in rows if row.split("│")[0].strip()] == [
        "+0.60",
        "target",
        "-0.60",
    ]
    assert [row.split()[-1] for row in rows if "─" in row] == ["+0.50", "-0.50"]


def test_a_check_beyond_its_limit_has_another_shape_in_ascii_too() -> None:
    rows = drawn(steady(0.1, 0.7, -0.7))
    text = "\n".join(rows)
    assert (text.count("●"), text.count("▲"), text.count("▼")) == (1, 1, 1)
    plain = "".join(sign if sign.isascii() else ascii_cell(sign) for sign in text)
    assert "?" not in plain
    assert (plain.count("o"), plain.count("^"), plain.count("v")) == (1, 1, 1)


def test_limits_that_change_are_steps() -> None:
    rows = drawn([Spot(0.0, -0.5, 0.5), Spot(0.0, -0.2, 0.2), Spot(0.0, -0.2, 0.2)], height=20)
    text = "\n".join(rows)
    assert [text.count(sign) for sign in "┐└┘┌"] == [1, 1, 1, 1]


def test_letters_stand_under_their_checks_and_days_under_both() -> None:
    spots = [
        Spot(0.1, -0.5, 0.5, "", "3 May"),
        Spot(0.7, -0.5, 0.5, "AC", "3 May"),
        Spot(0.1, -0.5, 0.5, "", "4 May"),
    ]
    *rows, letters, days = drawn(spots)
    head = next(row.index("▲") for row in rows if "▲" in row)
    assert letters.index("A") == head
    assert letters.split() == ["AC"]
    assert days.split() == ["3", "May", "4", "May"]


def test_only_the_latest_checks_are_drawn_where_there_is_no_room_for_all() -> None:
    rows = drawn(steady(*[0.0] * 200, 0.7), width=76)
    assert "".join(rows).count("●") == (76 - 18) // 2 - 1
    assert "".join(rows).count("▲") == 1


@given(
    st.lists(
        st.builds(
            lambda value, reach: Spot(value, -reach, reach),
            st.floats(-3, 3),
            st.floats(0.001, 2),
        ),
        max_size=80,
    ),
    st.integers(44, 140),
    st.integers(9, 30),
)
@settings(deadline=None, max_examples=60)
def test_every_row_has_its_width_and_every_check_its_head(
    spots: list[Spot], width: int, height: int
) -> None:
    rows = drawn(spots, width, height)
    assert len(rows) == height
    assert all(cell_len(row.rstrip()) <= width for row in rows)
    heads = sum("".join(rows).count(sign) for sign in "●▲▼")
    assert heads == min(len(spots), (width - 18) // 2)
