"""Is each day's book sound? Its lines, then the entries in them, one by one."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import Annotated, Any

from pydantic import Field, TypeAdapter, ValidationError

from core.day.entries import Entry
from core.problems import Problem

_ENTRY: TypeAdapter[Entry] = TypeAdapter(Annotated[Entry, Field(discriminator="kind")])


def examine(
    place: str, documents: Iterable[tuple[int, Mapping[str, Any]]], versions: Collection[int]
) -> tuple[Problem, ...]:
    """Problems of a day's entries, given in the journal's order with their numbers.

    Each is held against its kind's fields; then order, house-book version, and what it
    names: an undo an earlier entry that is not itself an undo, a reading its check.
    """
    problems: list[Problem] = []
    earlier: dict[int, str] = {}
    voided: dict[int, int] = {}
    for number, document in documents:
        where = f"{place}: entry {number}"
        problems += (Problem(where, says) for says in _faults(number, document, earlier, voided))
        if document.get("house") not in versions:
            problems.append(
                Problem(where, f"judged by house book {document.get('house')}, which is not there")
            )
        earlier[number] = str(document.get("kind"))
    return tuple(problems)


def _faults(
    number: int,
    document: Mapping[str, Any],
    earlier: dict[int, str],
    voided: dict[int, int],
) -> list[str]:
    try:
        _ENTRY.validate_python(dict(document))
    except ValidationError as error:
        return [_mismatch(error)]
    says: list[str] = []
    if document["id"] != number:
        says.append(f"calls itself entry {document['id']}")
    before = next(reversed(earlier), 0)
    if number <= before:
        says.append(f"comes after entry {before}, out of order")
    if document["kind"] == "undo":
        says += _undo(number, document["voids"], earlier, voided)
    if document["kind"] in ("reading", "done") and document["check"] not in (*earlier, number):
        says.append(f"belongs to check {document['check']}, which is not there")
    return says


def _undo(
    number: int, target: int, earlier: Mapping[int, str], voided: dict[int, int]
) -> list[str]:
    if target not in earlier:
        return [f"voids entry {target}, which is not there"]
    if earlier[target] == "undo":
        return [f"voids entry {target}, which is itself an undo"]
    if target in voided:
        return [f"voids entry {target}, which entry {voided[target]} had already voided"]
    voided[target] = number
    return []


def _mismatch(error: ValidationError) -> str:
    first = error.errors(include_url=False, include_input=False)[0]
    field = ".".join(str(part) for part in first["loc"][1:])
    return f"is not an entry of any known kind: {field or 'kind'}: {first['msg'].lower()}"
