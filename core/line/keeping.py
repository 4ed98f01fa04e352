"""What of the changes tried a house book can keep, and under which code a changed size goes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from core.house.codes import LONGEST, code_fault, code_key
from core.house.model import HouseBook, Vitola
from core.line.change import Change
from core.line.whatif import changed_house
from core.problems import BadInput
from core.say import Said, joined, listed, say


class Keeping(NamedTuple):
    """The changes to keep, those that are not, and the code of each size that is to be new.

    Moisture is measured, never kept. A size whose bunches are approved stays what it is, and
    its change becomes a size of its own.
    """

    changes: tuple[Change, ...]
    left: tuple[Change, ...]
    new: dict[str, str]


def keeping(house: HouseBook, changes: Sequence[Change], code: str | None = None) -> Keeping:
    """What is to be kept; `code` names the one size that is changed as a new one.

    BadInput where nothing is left to keep, for a code that cannot be one or is taken, and for
    a code with no changed size, or several.
    """
    kept = tuple(change for change in changes if change.field != "moisture")
    left = tuple(change for change in changes if change.field == "moisture")
    resized = resized_of(changes)
    if code is not None:
        _may_name(house, code, resized)
        return Keeping(kept, left, {resized[0]: code})
    if not kept:
        raise BadInput(measured(left))
    approved = {entry.vitola for entry in house.approved}
    other = {vitola.code: vitola for vitola in _changed(house, changes)}
    new: dict[str, str] = {}
    for vitola in resized:
        if vitola in approved:
            taken = (*house.vitola, *new.values())
            new[vitola] = _proposed(house.vitola[vitola], other[vitola], taken)
    return Keeping(kept, left, new)


def resized_of(changes: Sequence[Change]) -> tuple[str, ...]:
    """The vitolas whose ring or length is changed."""
    return tuple(dict.fromkeys(c.code for c in changes if c.field in ("ring", "length")))


def kept_house(house: HouseBook, blend: str, keep: Keeping) -> HouseBook:
    """The house book with what is kept; a new size stands behind the one it was tried on."""
    changed = changed_house(house, blend, keep.changes)
    vitolas: list[Vitola] = []
    for vitola in changed.vitolas:
        if vitola.code in keep.new:
            vitolas += [house.vitola[vitola.code], vitola._replace(code=keep.new[vitola.code])]
        else:
            vitolas.append(vitola)
    return changed._replace(vitolas=tuple(vitolas))


def measured(left: Sequence[Change]) -> Said:
    """That moisture is not kept by a house book, and how to enter it."""
    return say("moisture is measured, not saved: type {typed} when it is so", typed=_typed(left))


def _typed(left: Sequence[Change]) -> Said:
    """The moistures as they are typed on the entry line."""
    texts = (f"{change.code} {change.said.partition('=')[2].strip()}" for change in left)
    return joined(", ", texts)


def keeping_says(house: HouseBook, keep: Keeping) -> Said:
    """What saving would do, in words."""
    said = joined(", ", (change.said for change in keep.changes))
    more = _sizes(house, keep)
    if keep.left:
        more.append(say("moisture stays out: type {typed} when measured", typed=_typed(keep.left)))
    if not more:
        return say(
            "save {changes} in a new version of the house book, for every card from now on",
            changes=said,
        )
    whole = say("save {changes} in the house book", changes=said)
    return joined("; ", (whole, *more))


def _sizes(house: HouseBook, keep: Keeping) -> list[Said]:
    """What becomes of changed sizes, and of the benches that roll them."""
    says: list[Said] = []
    for vitola, code in keep.new.items():
        if any(entry.vitola == vitola for entry in house.approved):
            says.append(
                say(
                    "{code} is new, {vitola} stays as approved",
                    code=code,
                    vitola=vitola,
                )
            )
        else:
            says.append(say("{code} is new, {vitola} stays", code=code, vitola=vitola))
    for vitola in resized_of(keep.changes):
        benches = [bench.number for bench in house.benches if bench.vitola == vitola]
        if vitola not in keep.new and benches:
            says.append(
                say(
                    "{vitola} is of the new size at bench {benches}",
                    vitola=vitola,
                    benches=listed(benches),
                )
            )
    return says


def _changed(house: HouseBook, changes: Sequence[Change]) -> tuple[Vitola, ...]:
    sizes = [change for change in changes if change.field in ("ring", "length")]
    return changed_house(house, house.blends[0].code, sizes).vitolas


def _proposed(was: Vitola, other: Vitola, taken: Sequence[str]) -> str:
    """`toro-50`, or `toro-50x140` where the length is another; numbered where that is taken."""
    size = f"{other.ring:g}"
    if other.length_mm != was.length_mm:
        size += f"x{other.length_mm:.0f}"
    keys = {code_key(code) for code in taken}
    for n in range(1, len(keys) + 2):
        tail = f"-{size}" if n == 1 else f"-{size}-{n}"
        code = f"{was.code[: LONGEST - len(tail)]}{tail}"
        if code_key(code) not in keys and code_fault(code) is None:
            return code
    raise BadInput(
        say(
            "name the new size with what is tried, as: try {vitola}.ring=50 as NEW", vitola=was.code
        )
    )


def _may_name(house: HouseBook, code: str, resized: Sequence[str]) -> None:
    if not resized:
        raise BadInput(
            say(
                "a code is for a changed size, and none is changed; as: try toro.ring=50 as {code}",
                code=code,
            )
        )
    if len(resized) > 1:
        raise BadInput(
            say(
                "a code is for one changed size, and {n} are changed: {sizes}; try one at a time",
                n=len(resized),
                sizes=joined(", ", resized),
            )
        )
    if fault := code_fault(code):
        raise BadInput(say('the code "{code}" {fault}', code=code, fault=fault))
    if code_key(code) in {code_key(each) for each in house.vitola}:
        raise BadInput(
            say("there is a vitola {code} already; name the new one otherwise", code=code)
        )
