"""`leaf`: the stock and the issue sheet as text, JSON and CSV; the lots of a card."""

from __future__ import annotations

import csv

from tests.commands.conftest import Bunchbook

EARLY, TEN = "2026-05-04 08:00", "2026-05-04 10:00"


def working(loaded: Bunchbook) -> None:
    """A lot came, bench 7 took 900 g of it at eight and made 50 toros by ten."""
    came = "receive SE-1 24-118 9kg 13% crop 2023 bales 3"
    done = loaded("enter", came, "7 take SE-1 900", at=EARLY)
    assert done.code == 0, done.err
    assert loaded("enter", "7 made 50", at=TEN).code == 0


def test_stock_by_lot_with_days_of_cover_and_what_runs_out(loaded: Bunchbook) -> None:
    working(loaded)
    told = loaded("leaf", at=TEN)
    assert told.code == 0
    rows = [" ".join(row.split()) for row in told.out.splitlines()]
    assert "SE-1 seco 8.10 0.90 0.60 13.0 % 4.5" in rows
    assert "> 24-118 8.10 0.90" in rows
    assert "seco SE-1 runs out at bench 7 about 14:00" in rows
    assert max(map(len, told.out.splitlines())) <= 80
    found = loaded("leaf", "--json", at=TEN).json
    seco = next(row for row in found["leaf"] if row["leaf"] == "SE-1")
    assert (seco["lot"], seco["lots"][0]["crop"], round(seco["on_hand_g"])) == (
        "24-118",
        2023,
        8100,
    )
    assert found["shortages"][0]["bench"] == 7
    assert found["shortages"][0]["at"].startswith("2026-05-04T14:00:00")


def test_the_next_day_goes_on_from_the_lots(loaded: Bunchbook) -> None:
    working(loaded)
    found = loaded("leaf", "--json", at="2026-05-05 08:00").json
    seco = next(row for row in found["leaf"] if row["leaf"] == "SE-1")
    assert (round(seco["on_hand_g"]), seco["issued_g"]) == (8100, 0)


def test_the_card_has_its_lots(loaded: Bunchbook) -> None:
    assert loaded("card", "7", "--json").json["lots"] == []
    working(loaded)
    card = loaded("card", "7", "--json", at=TEN).json
    assert card["lots"] == [{"leaf": "SE-1", "lot": "24-118", "had": None, "new": True}]
    assert "lot of SE-1: 24-118, new today" in loaded("card", "7", at=TEN).out


def test_the_stock_as_csv_has_a_row_a_lot(loaded: Bunchbook) -> None:
    working(loaded)
    rows = list(csv.DictReader(loaded("leaf", "--csv", at=TEN).out.splitlines()))
    first = next(row for row in rows if row["leaf"] == "SE-1")
    assert (first["lot"], first["received"], first["in_use"]) == ("24-118", "2026-05-04", "yes")


def test_the_issue_sheet_for_the_shift(loaded: Bunchbook) -> None:
    told = loaded("leaf", "--issue")
    rows = [" ".join(row.split()) for row in told.out.splitlines()]
    assert rows[0] == "grams at today's moisture; no loss allowance"
    assert "7 P-07 toro 300 seco SE-1 1800" in rows
    assert "binder BI-1 1440 600" in rows
    assert rows[-1] == "left out, without a quota or a card: bench 7-A, 8"
    assert max(map(len, told.out.splitlines())) <= 80
    sheet = loaded("leaf", "--issue", "--json").json
    assert [row["bench"] for row in sheet["benches"]] == [7]
    table = list(csv.DictReader(loaded("leaf", "--issue", "--csv").out.splitlines()))
    assert {row["leaf"] for row in table} == {"SE-1", "LI-1", "BI-1", "WR-1"}


def test_an_empty_house_is_taught_and_a_missing_one_told(bunchbook: Bunchbook) -> None:
    missing = bunchbook("leaf")
    assert (missing.code, missing.out) == (2, "")
    assert "bunchbook house load FILE" in missing.err


def test_a_house_without_lots_is_taught_to_receive_one(loaded: Bunchbook) -> None:
    told = loaded("leaf").out
    assert "record it as: receive LEAF LOT 36.2kg 13.5%" in told
    assert loaded("leaf", "--json", "--csv").code == 2
