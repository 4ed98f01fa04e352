"""The Card and Why as text: what must be there, and that nothing is cut off."""

from __future__ import annotations

import re

import pytest

from core.desk.faces import OpenCheck
from core.recipe.why import Step
from floor.screens.why import shown
from tests.desk.conftest import HOUSE_TOML
from tests.floor.hall import ESC, F8, PAGE_DOWN, floor, small_house
from tests.floor.paper import WINDOW, PaperDesk, seen

MORE = (("VO-1", "volado", 4), ("VI-1", "viso", 3), ("MT-1", "medio tiempo", 1))


def of_classes(n: int) -> str:
    """The small house with a blend of that many classes, from two up to five."""
    more = MORE[: n - 2]
    leaves = "".join(
        f'[[leaf]]\ncode = "{code}"\nuse = "filler"\nclass = "{kind}"\n'
        'moisture = "13 %"\nhalf_leaf = "2.0 g"\n\n'
        for code, kind, _ in more
    )
    parts = "".join(f", {code} = {part}" for code, _, part in more)
    text = HOUSE_TOML.replace('[[leaf]]\ncode = "BI-1"', leaves + '[[leaf]]\ncode = "BI-1"')
    return text.replace(
        '{ "SE-1" = 6, "LI-1" = 4 }',
        f"{{ SE-1 = {5 if more else 6}, LI-1 = {2 if more else 4}{parts} }}",
    )


FIVE_CLASSES = of_classes(5)


async def test_the_card_shows_each_class_big_in_laying_order(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("grams a bunch, in laying order")
        assert "toro ring 52 × 152 mm · blend B1 · P-7 R-7" in hall.rows[1]
        assert hall.rows[2].split() == ["seco", "ligero", "filler"]
        assert hall.rows[3].split() == ["SE-1", "LI-1"]
        assert all("██" in row for row in hall.rows[4:9])
        assert hall.rows[9].split() == ["3", "1.5", "half-leaves"]
        assert hall.rows[10].split() == [*("13.0", "%", "book") * 2, "moisture,", "age"]
        assert "bunch     10.8 g  10.2 to 11.4 g" in hall.text
        assert "binder     0.8 g  BI-1   2 half-leaves" in hall.text
        assert "wrapper    0.6 g  WR-1   1 half-leaf" in hall.text
        assert "moisture BI-1   13.0 % house book" in hall.text


def gaps(rows: list[str]) -> list[int]:
    """Widths of the blank columns between the drawn ones of these rows."""
    width = max(map(len, rows))
    drawn = "".join(
        "#" if any(row[x : x + 1] == "█" for row in rows) else " " for x in range(width)
    )
    return [len(gap) for gap in re.findall(" +", drawn.strip())]


@pytest.mark.parametrize("size", [(80, 24), (132, 43)])
@pytest.mark.parametrize("classes", [2, 3, 4, 5])
async def test_figures_are_told_apart_at_a_distance(classes: int, size: tuple[int, int]) -> None:
    paper = PaperDesk(small_house(of_classes(classes)))
    async with floor(paper, size=size) as hall:
        hall.type("7\r")
        await hall.shows("VO-1" if classes > 2 else "LI-1")
        card = paper.card("7")
        between = sorted(gaps(hall.rows[4:9]))
        figures = classes + (hall.rows[2].split()[-1] == "filler")
        assert f"filler    {card.filler_g:.1f} g" in hall.text or figures == classes + 1
        apart, within = between[1 - figures :], between[: 1 - figures]
        assert min(apart) >= 5
        # An upright 1 has a blank column at each side; nothing else within a figure is wider.
        assert max(within) < min(apart)
        assert all(len(row) == size[0] for row in hall.rows)


async def test_a_batch_stands_on_a_line_of_its_own(paper: PaperDesk) -> None:
    text = HOUSE_TOML.replace("readings = 3", 'readings = 3\nrounding_limit = "0.4 %"')
    text = text.replace('"SE-1" = 6', '"SE-1" = 6.05')
    paper = PaperDesk(small_house(text))
    paper.seen["7"] = (seen(1, 10.8, 10.9), seen(2, 11.6, 11.8))
    batch = paper.card("7").batch
    assert batch is not None
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows(f"for {batch.bunches} bunches: SE-1 ")
        row = next(row for row in hall.rows if "bunches:" in row)
        grams = [f"{part.leaf} {part.g:.1f}" for part in batch.classes]
        assert " · ".join([*grams, f"filler {batch.total_g:.1f} g"]) in row
        assert "half-leaves" in hall.rows[9]
        assert "together" not in hall.text
        assert hall.text.count("●") + hall.text.count("✕") == 2


async def test_five_classes_fit_80_by_24_with_an_open_check_and_a_chart(paper: PaperDesk) -> None:
    paper = PaperDesk(small_house(FIVE_CLASSES))
    paper.opened["7"] = OpenCheck(9, "bunch", (10.8, 11.6), ("within", "heavy"), 3, WINDOW)
    paper.seen["7"] = (seen(1, 10.8, 10.9), seen(2, 11.6, 11.8))
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("open check bunch: 1 to go, mean 11.2 g")
        classes = hall.rows[2]
        places = [classes.index(name) for name in ("volado", "seco", "viso", "ligero", "medio")]
        assert places == sorted(places)
        readings = next(i for i, row in enumerate(hall.rows) if "open check" in row) + 1
        assert hall.rows[readings][40:].split() == ["10.8", "11.6", "·"]
        assert hall.rows[readings + 1][40:].split() == ["within", "heavy"]
        assert "…" not in hall.text
        hall.type(ESC)
        paper.opened.clear()
        hall.type("7\r")
        await hall.shows("09:30 bunch 11.7 g heavy, steady")
    async with floor(paper, size=(100, 40)) as hall:
        hall.type("7\r")
        await hall.shows("checks today, bunch")
        assert "lightest" in hall.text
        assert hall.text.count("●") == 1
        assert hall.text.count("✕") == 1


async def test_the_card_fits_60_by_20(paper: PaperDesk) -> None:
    paper = PaperDesk(small_house(FIVE_CLASSES))
    async with floor(paper, size=(60, 20)) as hall:
        hall.type("7\r")
        await hall.shows("MT-1")
        assert "bunch     10.8 g  10.2 to 11.4 g" in hall.text
        # No room for air: a rule stands between the figures.
        assert all(row.count("│") == 4 for row in hall.rows[5:10])
        assert all("█" in row for row in hall.rows[5:10])
        # A class of two words takes two rows.
        assert hall.rows[2].split() == ["medio"]
        assert hall.rows[3].split() == ["volado", "seco", "viso", "ligero", "tiempo"]


@pytest.mark.parametrize("size", [(50, 18), (40, 7), (40, 3)])
async def test_a_terminal_below_60_by_20_still_records_and_says_so(
    paper: PaperDesk, size: tuple[int, int]
) -> None:
    async with floor(paper, size=size) as hall:
        if size[1] > 3:
            await hall.shows("The floor needs 60 × 20 cells")
            assert f"{size[0]} × {size[1]}." in " ".join(hall.text.split())
        hall.type("7 10.8\r")
        await hall.shows("saved, entry 1: 7 10.8")
        hall.type("7 zz")
        await hall.shows("▸ 7 zz")


async def test_the_last_check_stands_with_its_verdict(paper: PaperDesk) -> None:
    paper.seen["7"] = (seen(1, 10.8, 10.9, 12.9),)
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("08:30 bunch")
        assert "bunch 11.5 g heavy, unsteady" in hall.text


async def test_a_card_that_cannot_be_rolled_says_why(paper: PaperDesk) -> None:
    assert paper.house is not None
    thin = paper.house.leaf["BI-1"]._replace(half_leaf_g=0.01)
    leaves = tuple(thin if leaf.code == "BI-1" else leaf for leaf in paper.house.leaves)
    paper.house = paper.house._replace(leaves=leaves)
    paper.house.__dict__.pop("leaf", None)
    paper.house.__dict__.pop("cover", None)
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("Bench 7 has no card:")
        assert "binder BI-1 cannot cover it" in hall.text


async def test_on_why_a_bare_number_still_is_a_reading_for_its_bench(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(f"7\r{F8}")
        await hall.shows("Why, bench 7")
        hall.type("10.8\r")
        await hall.until(lambda: paper.lines == [("10.8", "7")], "the reading")


async def test_why_gives_every_step_with_its_unit_and_source(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(f"7\r{F8}")
        await hall.shows("greatest diameter")
        assert hall.rows[1].split() == ["step", "value", "unit", "from"]
        row = next(row for row in hall.rows if "greatest diameter" in row)
        assert " ".join(row.split()) == "greatest diameter 20.637 mm ring gauge × 25.4 / 64"
        hall.type(PAGE_DOWN)
        await hall.until(lambda: "ring gauge" not in hall.text, "the next page")


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [
        (0.13, "fraction", ("13", "%")),
        (0.0000534681, "g/mm^3.5754", ("0.000053468", "g/mm^3.5754")),
        (321710.4, "mm^3.5754", ("321710", "mm^3.5754")),
        (152.4, "mm", ("152.4", "mm")),
        (0.0, "g", ("0", "g")),
    ],
)
def test_a_step_is_written_in_plain_figures(
    value: float, unit: str, expected: tuple[str, str]
) -> None:
    assert shown(Step("", value, unit, "")) == expected
