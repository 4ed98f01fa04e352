"""Copies of the records, made and put back, as both front ends ask for them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from core.day.calendar import Clock, stamp
from core.desk.anchors import anchors_in
from core.desk.audit import damage_in, expect_folder, nothing_in, unfinished_in
from core.desk.daybook import ENTRIES, OPENING
from core.desk.shelf import VERSIONS
from core.problems import Problem, StoreUnusable
from core.records.anchors import Anchor, unmet
from core.records.backup import back_up
from core.records.copy import Manifest
from core.records.folder import Folder
from core.records.lines import Damage
from core.records.opencopy import open_copy
from core.records.restore import Restored, Where, put_back
from core.records.verify import read_journal
from core.say import joined, say


class Made(NamedTuple):
    """A copy as it was made; `torn` lines are a power cut's, `problems` are worth a look."""

    manifest: Manifest
    torn: tuple[Problem, ...]
    problems: tuple[Problem, ...]


class PutBack(NamedTuple):
    """A copy as it was put back, with the damage that was in it."""

    manifest: Manifest
    restored: Restored
    torn: tuple[Problem, ...]
    problems: tuple[Problem, ...]


def make_copy(data: Path, target: Path, clock: Clock, program: str) -> Made:
    """Copy all records into the new file `target`; BadInput, StoreUnusable as `back_up`."""
    expect_folder(data)
    folder = Folder(data)
    if not folder.books():
        raise StoreUnusable(nothing_in(folder))
    copied = back_up(folder, target, stamp(clock())[0], program)
    torn, damaged = _told(copied.damage)
    problems = (*unfinished_in(folder), *damaged)
    folder.close()
    return Made(copied.manifest, torn, problems)


def restore_copy(data: Path, file: Path, clock: Clock, *, replace: bool) -> PutBack:
    """Put a copy back into the data folder; BadInput, StoreUnusable as `put_back`."""
    at, _ = stamp(clock())
    name = at[:19].replace("-", "").replace(":", "") + "Z"
    folder = Folder(data)
    with open_copy(file) as copy:
        restored = put_back(folder, copy, replace=replace, stamp=name, fits=misfits)
        torn, damaged = _told(copy.damage)
        folder.close()
        return PutBack(copy.manifest, restored, torn, damaged)


def misfits(names: Sequence[str], where: Where) -> tuple[Problem, ...]:
    """What books that stay expect of the others, and would not find there."""
    if not names:
        return ()
    anchors: defaultdict[str, list[Anchor]] = defaultdict(list)
    problems: list[Problem] = []
    house = where("house.jsonl")
    versions = {n for table, n, _ in read_journal(house)[1] if table == VERSIONS}
    for name in names:
        _, changes = read_journal(where(name))
        for anchor in anchors_in(name, changes):
            anchors[anchor.book].append(anchor)
        named = {
            document.get("house")
            for table, _, document in changes
            if table in (OPENING, ENTRIES) and document is not None
        }
        if name.startswith("days/") and not named <= versions:
            missing = joined(", ", map(str, sorted(named - versions, key=str)))
            problems.append(
                Problem(
                    name,
                    say(
                        "is not in the copy, and names house book {missing}, which would not be "
                        "there",
                        missing=missing,
                    ),
                )
            )
    for book, expected in sorted(anchors.items()):
        problems += unmet(book, where(book), expected)
    return tuple(problems)


def _told(
    damage: Iterable[tuple[str, Damage]],
) -> tuple[tuple[Problem, ...], tuple[Problem, ...]]:
    """Damaged lines in words: those only torn, and the others."""
    torn = [damage_in(name, each) for name, each in damage if each.kind == "torn"]
    others = [damage_in(name, each) for name, each in damage if each.kind != "torn"]
    return tuple(torn), tuple(others)
