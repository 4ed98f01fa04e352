"""What to issue for the shift: grams at today's moisture, covers by whole pieces, lots in turn."""

from __future__ import annotations

import pytest

from core.day.lots import lots
from core.house.model import HouseBook
from core.stock.benches import had_today
from core.stock.issue import IssueCell, IssueSheet, issue_sheet
from core.stock.need import plans
from core.stock.written import ISSUE_HEAD, issue_json, issue_table
from tests.day.book import HOUSE
from tests.stock.shelf import DATE, Shelf


def sheet(shelf: Shelf) -> IssueSheet:
    house, ledger = shelf.house, shelf.ledger
    planned = plans(ledger, house, 1)
    kept, had = lots(ledger, DATE), had_today(ledger)
    return issue_sheet(planned, house, shelf.card, ledger.moistures(1), kept, had)


def cells(found: IssueSheet, bench: str = "7") -> dict[str, IssueCell]:
    row = next(row for row in found.rows if row.bench == bench)
    return {cell.leaf: cell for cell in row.cells}


def with_quotas(house: HouseBook, **quotas: int) -> HouseBook:
    benches = tuple(b._replace(quota=quotas.get(f"b{b.number}", b.quota)) for b in house.benches)
    return house._replace(benches=benches)


def test_a_bench_is_given_its_quota_times_the_recipe_at_todays_moisture() -> None:
    """300 toros × 6 g of SE-1 are 1,800 g at 13 %; at 16 % they weigh 1,800 × 0.87 / 0.84."""
    shelf = Shelf()
    shelf.put("moisture", leaf="SE-1", moisture=0.16)
    given = cells(sheet(shelf))
    assert given["SE-1"].grams == pytest.approx(1_800 * 0.87 / 0.84)
    assert given["LI-1"].grams == pytest.approx(1_200.0)
    assert sheet(shelf).left_out == ("8", "9")


def test_what_a_bench_has_had_today_is_taken_off() -> None:
    """Of 1,800 g it took 500 and gave 100 back: 1,400 are left, and never less than none."""
    shelf = Shelf()
    shelf.take(None, 500.0)
    shelf.back(None, 100.0)
    assert cells(sheet(shelf))["SE-1"].grams == pytest.approx(1_400.0)
    shelf.take(None, 2_000.0)
    assert cells(sheet(shelf))["SE-1"].grams == 0.0
    assert cells(sheet(shelf))["SE-1"].lots == ()


def test_the_loss_allowance_is_of_what_is_issued_and_of_filler_alone() -> None:
    """With 4 % lost, 1,875 g are issued for the 1,800 g that go into bunches."""
    rules = HOUSE.house._replace(loss_allowance=0.04)
    found = sheet(Shelf(HOUSE._replace(house=rules)))
    assert found.loss_allowance == 0.04
    assert cells(found)["SE-1"].grams == pytest.approx(1_875.0)
    assert cells(found)["BI-1"].pieces == 600


def test_covers_are_given_by_whole_pieces() -> None:
    wrapper = HOUSE.cover["WR-1"]._replace(pieces=0.5, half_leaf_g=6.0)
    leaves = tuple(wrapper if leaf.code == "WR-1" else leaf for leaf in HOUSE.leaves)
    house = with_quotas(HOUSE._replace(leaves=leaves), b7=301)
    given = cells(sheet(Shelf(house)))
    assert (given["WR-1"].pieces, given["BI-1"].pieces) == (151, 602)
    assert given["WR-1"].grams == pytest.approx(151 * 6.0)
    assert given["BI-1"].grams == pytest.approx(602 * 2.4)


def test_lots_are_given_out_oldest_first_and_the_next_goes_on() -> None:
    shelf = Shelf(with_quotas(HOUSE, b8=200))
    shelf.receive("24-118", 2_000.0)
    shelf.receive("24-131", 900.0)
    found = sheet(shelf)
    first, second = cells(found, "7")["SE-1"].lots, cells(found, "8")["SE-1"].lots
    assert [part.lot for part in (*first, *second)] == ["24-118", "24-118", "24-131", None]
    assert [part.grams for part in first] == pytest.approx([1_800.0])
    assert [part.grams for part in second] == pytest.approx([200.0, 900.0, 100.0])
    total = found.totals[0]
    assert total.leaf == "SE-1"
    assert (total.grams, total.on_hand_g) == pytest.approx((3_000.0, 2_900.0))
    assert total.short_g == pytest.approx(100.0)
    ligero = next(total for total in found.totals if total.leaf == "LI-1")
    assert (ligero.on_hand_g, ligero.short_g) == (None, None)


def test_totals_are_the_sum_of_the_benches() -> None:
    shelf = Shelf(with_quotas(HOUSE, b8=217, b9=133))
    found = sheet(shelf)
    for total in found.totals:
        given = [c for row in found.rows for c in row.cells if c.leaf == total.leaf]
        assert total.grams == pytest.approx(sum(cell.grams for cell in given))
        if total.pieces is not None:
            assert total.pieces == sum(cell.pieces or 0 for cell in given)


def test_the_json_and_the_table_tell_the_same() -> None:
    shelf = Shelf()
    shelf.receive("24-118", 1_000.0)
    found = sheet(shelf)
    written = issue_json(found)
    assert isinstance(written["benches"], list)
    assert written["benches"][0]["bench"] == 7
    assert written["left_out"] == [8, 9]
    head, *rows = issue_table(found)
    assert head == ISSUE_HEAD
    assert [row[7] for row in rows if row[5] == "SE-1"] == ["24-118", None]
    assert sum(float(str(row[8])) for row in rows if row[5] == "SE-1") == pytest.approx(1_800.0)
