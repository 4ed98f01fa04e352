"""Are the records sound? Every book of the data folder, line by line and entry by entry."""

from __future__ import annotations

import contextlib
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from core.day.months import MonthSums, as_month, by_month, holds, is_told_by
from core.day.runsums import added, of_day
from core.day.summary import as_kept
from core.day.trend import closed_days
from core.day.verify import examine, examine_opening
from core.desk.anchors import anchors_in
from core.desk.daybook import ENTRIES, OPENING
from core.desk.panel import PANEL
from core.desk.shelf import Shelf
from core.desk.summaries import MONTHS, SUMMARIES, Kept
from core.house.model import HouseBook
from core.panel.session import is_newer, is_sound
from core.problems import Problem, StoreUnusable
from core.records.anchors import Anchor, unmet
from core.records.folder import Folder, is_book
from core.records.lines import Damage
from core.records.restore import has_begun
from core.records.slices import Change
from core.records.verify import read_journal
from core.say import say
from core.value import Sentence, Value

_BRING_BACK = say("name the right folder with --data, or put a copy back: bunchbook restore FILE")
_NO_FOLDER = say("expected a data folder, found something else; {bring_back}")
_NOTHING = say("expected a data folder, found nothing; {bring_back}")


class Audit(Value):
    """The keys of `verify --json`.

    `repaired`: lines not written to their end and passed over, as a power cut leaves them
    before their entry is acknowledged. `problems`: lines damaged, edited, removed or cut
    off, books that are gone, and entries that do not fit.
    """

    sound: bool
    days: int
    entries: int
    repaired: tuple[Sentence, ...]
    problems: tuple[Sentence, ...]


def audit(path: Path) -> Audit:
    """Read everything, change nothing. StoreUnusable where the folder cannot be read."""
    expect_folder(path)
    folder = Folder(path)
    found = _Findings(path)
    found.problems += _of_folder(folder)
    houses = _houses(folder, found)
    for name in folder.books():
        found.read(name, path / name, houses)
    folder.close()
    for book, anchors in sorted(found.anchors.items()):
        found.problems += unmet(book, path / book, anchors)
    return Audit(
        sound=not found.problems,
        days=len(folder.days()),
        entries=found.entries,
        repaired=tuple(found.repaired),
        problems=tuple(problem.said for problem in found.problems),
    )


def expect_folder(path: Path) -> None:
    """StoreUnusable, saying what was expected, where there is no folder of that name."""
    if not path.is_dir():
        says = _NO_FOLDER if path.exists() else _NOTHING
        raise StoreUnusable(
            Problem(
                str(path),
                says.format(bring_back=_BRING_BACK),
            )
        )


def nothing_in(folder: Folder) -> Problem:
    """What to say of a data folder without a book."""
    return Problem(
        str(folder.path),
        say(
            "expected a house book (house.jsonl) and a book a day (days/DATE.jsonl), found none: "
            "nothing was recorded here yet, or the records were removed; load a house book "
            "(bunchbook house load FILE) if this is a new folder, else {bring_back}",
            bring_back=_BRING_BACK,
        ),
    )


def damage_in(name: str, damage: Damage) -> Problem:
    """A damaged line with its place."""
    return Problem(say("{name}: line {line}", name=name, line=damage.line), damage.says)


_BROKEN_OFF = say(
    "a restore is at work, or was broken off before its end; if none is running, run the same "
    "restore again to complete it"
)
_NOT_BEGUN = say(
    "a restore is at work, or was broken off before its end; if none is running, run the same "
    "restore again to complete it, or remove this folder: no book had been put in place yet"
)


def unfinished_in(folder: Folder) -> Iterable[Problem]:
    """What restores have left that are still at work, or were broken off."""
    for left in folder.unfinished():
        begun = has_begun(left)
        yield Problem(
            left.name,
            _BROKEN_OFF if begun else _NOT_BEGUN,
        )


def _of_folder(folder: Folder) -> Iterable[Problem]:
    """What is wrong with the folder as a whole."""
    books = folder.books()
    if not books:
        yield nothing_in(folder)
    elif "house.jsonl" not in books:
        yield Problem(
            "house.jsonl",
            say(
                "expected the house book beside {n} other books, found none: it was removed; put a "
                "copy back: bunchbook restore FILE",
                n=len(books),
            ),
        )
    yield from unfinished_in(folder)


class _Findings:
    """What a reading of all books brings up."""

    def __init__(self, data: Path) -> None:
        self._data = data
        self.entries = 0
        self.repaired: list[str] = []
        self.problems: list[Problem] = []
        self.anchors: defaultdict[str, list[Anchor]] = defaultdict(list)

    def read(self, name: str, path: Path, houses: dict[int, HouseBook | None]) -> None:
        """One book: its lines, then what is in them."""
        report, changes = read_journal(path)
        if not report.lines:
            self.problems.append(
                Problem(
                    name,
                    say(
                        "expected a book, found an empty file: its lines were cut off, or a "
                        "terminal was stopped while it made the file; if there is a copy, see "
                        "bunchbook restore FILE"
                    ),
                )
            )
        for damage in report.damage:
            if damage.kind == "torn":
                self.repaired.append(damage_in(name, damage).said)
            else:
                self.problems.append(damage_in(name, damage))
        for anchor in anchors_in(name, changes):
            self.anchors[anchor.book].append(anchor)
        if name.startswith("days/"):
            self._day(name, changes, houses)
        elif name.startswith("years/"):
            self.problems += _summaries(name, changes, self._data)
            self.problems += _months(name, changes)
            self.problems += _panel(name, changes)

    def _day(
        self, name: str, changes: Sequence[Change], houses: dict[int, HouseBook | None]
    ) -> None:
        entries = [(number, document) for table, number, document in changes if table == ENTRIES]
        if any(entry is not None and entry.get("house") not in houses for _, entry in entries):
            # One may have been loaded, and used, since they were read.
            houses.update(_houses(Folder(self._data), _Findings(self._data)))
        self.entries += sum(document is not None for _, document in entries)
        lots: list[tuple[str, str]] = []
        for table, _, document in changes:
            if table == OPENING and document is not None:
                wrong = examine_opening(name, document)
                self.problems += wrong
                if not wrong:
                    lots += ((lot["leaf"], lot["lot"]) for lot in document.get("lots", ()))
        if houses:  # that there is none has been told once
            self.problems += examine(name, entries, houses, lots)


def _houses(folder: Folder, found: _Findings) -> dict[int, HouseBook | None]:
    """Every house-book version, None for one that cannot be read."""
    shelf = Shelf(folder)
    houses: dict[int, HouseBook | None] = {}
    for version in shelf:
        try:
            houses[version] = shelf[version]
        except StoreUnusable as error:
            houses[version] = None
            found.problems += (Problem("house.jsonl", p.says) for p in error.problems)
    return houses


def _summaries(name: str, changes: Iterable[Change], data: Path) -> Iterable[Problem]:
    """Summaries that name no day of the year, or one that has no book, or have no rows."""
    year = Path(name).stem
    for table, number, document in changes:
        if table != SUMMARIES or document is None:
            continue
        where = say("{name}: summary {number}", name=name, number=number)
        date = document.get("date")
        if not is_book(f"days/{date}.jsonl") or not str(date).startswith(year):
            yield Problem(
                where,
                say("expected a day of {year} as its date, found {date}", year=year, date=date),
            )
        elif "lines" not in document and not (data / "days" / f"{date}.jsonl").exists():
            yield Problem(
                where, say("sums up {date}, which has no book: it was removed", date=date)
            )
        elif ("lines" in document or "end" in document) and not next(
            anchors_in(name, [(table, number, document)]), None
        ):
            yield Problem(where, say("does not say where its day's book ended: lines, end"))
        yield from _unread(where, document)


def _unread(where: str, document: Mapping[str, Any]) -> Iterable[Problem]:
    """Of a closed day's rows, which only some questions need: that they are none."""
    kept = as_kept(document)
    if kept is not None and kept["closed"]:
        try:
            added("", [of_day(kept)])
        except StoreUnusable as problem:
            yield Problem(where, problem.said)


def _months(name: str, changes: Iterable[Change]) -> Iterable[Problem]:
    """A month's newest sums, where they are taken for those of its days and are others."""
    kept: dict[str, Kept] = {}
    newest: dict[str, tuple[int, MonthSums]] = {}
    for table, number, document in changes:
        if table == SUMMARIES and document is not None and (day := as_kept(document)):
            kept[day["date"]] = day
        elif table == MONTHS and document is not None and (sums := as_month(document)):
            newest[sums["month"]] = number, sums
    days = by_month(closed_days(kept))
    for month, (number, sums) in newest.items():
        of_it = days.get(month, [])
        with contextlib.suppress(StoreUnusable):  # a day without rows has been told
            if holds(sums, of_it) and not is_told_by(sums, of_it):
                yield Problem(
                    say("{name}: month {number}", name=name, number=number),
                    say(
                        "expected what the closed days of {month} add up to, found other "
                        "figures: open one of them again and close it, and they are added up anew",
                        month=month,
                    ),
                )


def _panel(name: str, changes: Iterable[Change]) -> Iterable[Problem]:
    """What stands among the panel's documents and is none."""
    for table, number, document in changes:
        if table != PANEL or document is None or is_newer(document) or is_sound(document):
            continue
        yield Problem(
            say("{name}: panel {number}", name=name, number=number),
            say("is no session, score or note of the panel"),
        )
