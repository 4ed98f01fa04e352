"""Is each day's book sound? Its opening and its entries, held one by one against their types."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Annotated, Any

from pydantic import Field, TypeAdapter, ValidationError

from core.day.entries import CarriedChecks, Entry, Opening
from core.day.history import take_apart
from core.house.model import HouseBook
from core.problems import Problem
from core.say import say

_ENTRY: TypeAdapter[Entry] = TypeAdapter(Annotated[Entry, Field(discriminator="kind")])
_OPENING: TypeAdapter[Opening] = TypeAdapter(Opening)

Documents = Iterable[tuple[int, Mapping[str, Any] | None]]


def examine_opening(place: str, document: Mapping[str, Any]) -> tuple[Problem, ...]:
    """Problems of what a day starts from."""
    try:
        _OPENING.validate_python(dict(document))
    except ValidationError as error:
        return (
            Problem(
                say("{place}: opening", place=place),
                say("is none: {mismatch}", mismatch=_mismatch(error, 0)),
            ),
        )
    carried = document.get("checks", {})
    return tuple(
        Problem(
            say("{place}: opening", place=place),
            say("has checks of bench {bench} whose columns do not fit", bench=bench),
        )
        for bench, kinds in carried.items()
        if not all(map(_fits, kinds))
    )


def _fits(carried: CarriedChecks) -> bool:
    try:
        return bool(take_apart(carried))
    except (ValueError, OverflowError):
        return False


def examine(
    place: str,
    documents: Documents,
    houses: Mapping[int, HouseBook | None],
    lots: Iterable[tuple[str, str]] = (),
) -> tuple[Problem, ...]:
    """Problems of a day's entries, given in the journal's order with their numbers.

    Each is held against its kind's fields; then order, what it names (an undo an earlier
    entry that is not itself an undo, a reading its check), whether the day was open, and
    whether its house book has its bench, blend, vitola and leaf. `houses` are the versions
    there are, None for one that cannot be read; `lots` those of each leaf that the day
    began with.
    """
    day = _Day(lots)
    problems: list[Problem] = []
    for number, document in documents:
        says = day.faults(number, document)
        if document is not None:
            says += _unknown(document, houses)
        if says:
            where = say("{place}: entry {number}", place=place, number=number)
            problems += (Problem(where, each) for each in says)
    return tuple(problems)


class _Day:
    """The entries so far: their kinds by number, which are voided, whether the day is closed."""

    def __init__(self, lots: Iterable[tuple[str, str]]) -> None:
        self._lots = set(lots)
        self._kinds: dict[int, str] = {}
        self._voided: dict[int, int] = {}
        self._closed = False

    def faults(self, number: int, document: Mapping[str, Any] | None) -> list[str]:
        """What is wrong with the next entry, which counts from now on."""
        if document is None:
            return [say("was taken out of the records; an entry is only ever voided, by an undo")]
        try:
            _ENTRY.validate_python(dict(document))
        except ValidationError as error:
            says = [_no_entry(document, error)]
        else:
            says = [*self._order(number, document), *self._references(number, document)]
        self._kinds[number] = str(document.get("kind"))
        return says

    def _order(self, number: int, document: Mapping[str, Any]) -> Iterator[str]:
        if document["id"] != number:
            yield say("calls itself entry {id}", id=document["id"])
        before = next(reversed(self._kinds), 0)
        if number <= before:
            yield say("comes after entry {before}, out of order", before=before)
        kind = document["kind"]
        if kind == "reopen":
            if not self._closed:
                yield say("opens the day again, which is not closed")
            self._closed = False
        elif self._closed:
            yield say("comes after the day was closed, and nothing opened it again")
        elif kind == "close":
            self._closed = True

    def _references(self, number: int, document: Mapping[str, Any]) -> Iterator[str]:
        kind = document["kind"]
        if kind in ("receive", "stocktake"):
            self._lots.add((document["leaf"], document["lot"]))
        elif "lot" in document:
            yield from self._lot(document["leaf"], document["lot"])
        if kind == "undo":
            yield from self._undo(number, document["voids"])
        elif kind in ("reading", "done"):
            check = document["check"]
            begins = kind == "reading" and check == number
            if not begins and check not in self._kinds:
                yield say("belongs to check {check}, which is not there", check=check)
            elif not begins and self._kinds[check] != "reading":
                yield say(
                    "belongs to check {check}, which is an entry of kind {kinds}",
                    check=check,
                    kinds=self._kinds[check],
                )

    def _lot(self, leaf: str, lot: str) -> Iterator[str]:
        """A leaf without any lot says nothing: what told of them may be what is damaged."""
        known = {each for of, each in self._lots if of == leaf}
        if known and lot not in known:
            yield say("is of lot {lot} of {leaf}, which was never received", lot=lot, leaf=leaf)

    def _undo(self, number: int, target: int) -> Iterator[str]:
        kind = self._kinds.get(target)
        if kind is None:
            yield say("voids entry {target}, which is not there", target=target)
        elif kind == "undo":
            yield say("voids entry {target}, which is itself an undo", target=target)
        elif kind in ("close", "reopen"):
            yield say("voids entry {target}, which is a {kind}", target=target, kind=kind)
        elif target in self._voided:
            yield say(
                "voids entry {target}, which entry {voided} had already voided",
                target=target,
                voided=self._voided[target],
            )
        else:
            self._voided[target] = number


def _unknown(document: Mapping[str, Any], houses: Mapping[int, HouseBook | None]) -> list[str]:
    """What the entry names that its house book does not have."""
    version = document.get("house")
    if not isinstance(version, int) or version not in houses:
        return [say("judged by house book {version}, which is not there", version=version)]
    house = houses[version]
    if house is None:
        return []
    known: dict[str, Mapping[str, object]] = {
        "bench": house.bench,
        "blend": house.blend,
        "vitola": house.vitola,
        "leaf": house.leaf,
    }
    return [
        say(
            "names {what} {code}, which house book {version} does not have",
            what=_NAMED[what],
            code=document[what],
            version=version,
        )
        for what, codes in known.items()
        if what in document and document[what] not in codes
    ]


_NAMED = {
    "bench": say("bench"),
    "blend": say("blend"),
    "vitola": say("vitola"),
    "leaf": say("leaf"),
}


def _no_entry(document: Mapping[str, Any], error: ValidationError) -> str:
    kind = document.get("kind")
    if error.errors(include_url=False, include_input=False)[0]["type"].startswith("union_tag"):
        return say("is of no known kind: {kind}", kind=kind)
    return say(
        "is no sound entry of kind {kind}: {mismatch}", kind=kind, mismatch=_mismatch(error, 1)
    )


def _mismatch(error: ValidationError, above: int) -> str:
    """The first field that does not fit, and how; `above` is what stands before its name."""
    first = error.errors(include_url=False, include_input=False)[0]
    field = ".".join(str(part) for part in first["loc"][above:])
    return f"{field}: {first['msg'].lower()}"
