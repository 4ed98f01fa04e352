"""The demo house's panel: five tasters, by code, on three sizes smoked under codes."""

from __future__ import annotations

import datetime as dt

from core.day.calendar import stamp
from core.day.room import Stamp
from core.desk.panel import Panel
from core.house.model import HouseBook
from core.panel.line import Open, Remark, Request, Reveal, Score
from core.records.folder import Folder
from demo.today import SUPERVISORS

BLEND = "B4"
SIZES = ("toro", "corona", "gordo")
"""The line's chosen size first."""

SCORES: dict[str, tuple[tuple[float, ...], ...]] = {
    "T1": ((6, 7, 8, 7), (7.5, 6.5, 6, 6), (6, 7, 8, 8)),
    "T2": ((5.5, 7, 7.5, 7), (7, 7, 6, 6.5), (5.5, 7.5, 7, 7.5)),
    "T3": ((6, 8, 8, 8), (8, 7.5, 6.5, 7.5), (6.5, 7.5, 8, 8)),
    "T4": ((6.5, 7, 7, 7), (7.5, 7, 5.5, 6.5), (6, 7, 7.5, 6.5)),
    "T5": ((5, 6.5, 8, 6.5), (6.5, 7, 6, 7), (5.5, 6.5, 7.5, 7)),
}
"""Strength, balance, burn and draw, by taster and size: the thin size burns hotter."""


def taste(folder: Folder, house: HouseBook, version: int, at: dt.datetime) -> None:
    """Hold the session at that time and tell its codes. Raises StoreUnusable."""
    panel, (terminal, who) = Panel(folder), SUPERVISORS[0]
    utc, offset = stamp(at)
    year = int(utc[:4])

    def add(name: str, request: Request) -> None:
        made = Stamp(utc, offset, f"demo panel {name}", terminal, who)
        panel.add(request, house, version, made)

    add("open", Open(BLEND, SIZES, blind=True))
    sheet = panel.sheet(year)
    codes = {} if sheet is None else {v: code for code, v in sheet.session.codes.items()}
    for taster, rows in SCORES.items():
        for vitola, scores in zip(SIZES, rows, strict=True):
            add(f"{taster} {vitola}", Score(taster, codes[vitola], scores))
    add("note", Remark("the corona warms up in its last third"))
    add("reveal", Reveal())
