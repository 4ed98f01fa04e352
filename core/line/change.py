"""Changes to try, read from words: `LI-2=1.5`, `toro.ring=50`, `LI-2.moisture=15%`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

from core.entry.tokens import fold
from core.house import limits
from core.house.amounts import LENGTH, SHARE, WEIGHT, Kind, Unreadable, parse, show
from core.house.codes import code_key
from core.house.limits import Range
from core.house.model import FillerLeaf, HouseBook
from core.house.written import Written, take_apart
from core.nearest import nearest
from core.problems import BadInput, Problem
from core.say import Said, joined, say, say_as

Field = Literal["parts", "ring", "length", "half_leaf", "piece", "moisture"]
FIELDS: Mapping[Field, Said] = {
    "parts": say_as("to try", "parts"),
    "ring": say_as("to try", "ring"),
    "length": say_as("to try", "length"),
    "half_leaf": say_as("to try", "half_leaf"),
    "piece": say_as("to try", "piece"),
    "moisture": say_as("to try", "moisture"),
}
"""What can be changed, as it is typed."""
IN_SPANISH: Mapping[str, Field] = {
    "cepo": "ring",
    "largo": "length",
    "media_hoja": "half_leaf",
    "pieza": "piece",
    "humedad": "moisture",
}
"""What can be changed, by its word in Spanish, which is read in every house."""


class Change(NamedTuple):
    """One thing to be otherwise: `value` in the unit of the house book's values.

    Parts, piece and ring are plain numbers; length in mm, half_leaf in g, moisture a fraction.
    """

    field: Field
    code: str
    value: float
    said: str


class _Rule(NamedTuple):
    within: Range
    kind: Kind | None = None


VITOLA: Mapping[str, tuple[Field, _Rule]] = {
    "ring": ("ring", _Rule(limits.RING)),
    "length": ("length", _Rule(limits.LENGTH_MM, LENGTH)),
}
COVER: Mapping[str, tuple[Field, _Rule]] = {
    "half_leaf": ("half_leaf", _Rule(limits.HALF_LEAF_G, WEIGHT)),
    "moisture": ("moisture", _Rule(limits.MOISTURE, SHARE)),
}
FILLER: Mapping[str, tuple[Field, _Rule]] = {"piece": ("piece", _Rule(limits.PIECE)), **COVER}
NO_FILLER = (
    say("no filler leaf has the code {code} (there are {there})"),
    say("no filler leaf has the code {code}; did you mean {near}? (there are {there})"),
)
NO_CODE = (
    say("no leaf or vitola has the code {code} (there are {there})"),
    say("no leaf or vitola has the code {code}; did you mean {near}? (there are {there})"),
)
"""Without a code that is alike, and with one."""
NOT_FILLER: Mapping[str, Said] = {
    "binder": say("{leaf} is a binder leaf; parts are of filler leaf"),
    "wrapper": say("{leaf} is a wrapper leaf; parts are of filler leaf"),
}
PARTS = _Rule(Range(0, limits.PARTS.high))


def read_changes(words: Iterable[str], house: HouseBook) -> tuple[Change, ...]:
    """The changes in `words`, each `CODE=PARTS` or `CODE.WHAT=AMOUNT`, codes as the house's.

    What is changed may be named in Spanish too. Zero parts take a leaf out. Raises BadInput
    with every word that cannot be read or that changes what another has changed.
    """
    problems: list[Problem] = []
    found: dict[tuple[str, str], Change] = {}
    for word in words:
        read = _read(word, house)
        if isinstance(read, Said):
            problems.append(Problem(word, read))
        elif (read.field, read.code) in found:
            before = found[read.field, read.code].said
            again = say("{before} has already changed that; give one of them", before=before)
            problems.append(Problem(word, again))
        else:
            found[read.field, read.code] = read
    if problems:
        raise BadInput(*problems)
    return tuple(found.values())


def _read(word: str, house: HouseBook) -> Change | Said:
    name, equals, amount = word.partition("=")
    if not equals or not name.strip() or not amount.strip():
        return say(
            "is no change; write it as LI-2=1.5 (parts), toro.ring=50, toro.length=5in, "
            "LI-2.piece=1, LI-2.moisture=15%"
        )
    name = name.strip()
    leaf = _spelt(name, house.leaf)
    if leaf is not None:
        if leaf not in house.filler:
            return NOT_FILLER[house.cover[leaf].use].format(leaf=leaf)
        return _with_value(word, "parts", leaf, PARTS, amount)
    code, dot, what = name.rpartition(".")
    if not dot:
        return _unknown(name, NO_FILLER, [*house.filler])
    known = _known(code, what, house)
    if known is None:
        return _unknown(code, NO_CODE, [*house.leaf, *house.vitola])
    spelt, fields = known
    named = IN_SPANISH.get(fold(what), what)
    if named not in fields:
        return _no_field(spelt, what, fields)
    field, rule = fields[named]
    return _with_value(word, field, spelt, rule, amount)


def _no_field(code: str, what: str, fields: Mapping[str, tuple[Field, _Rule]]) -> Said:
    near = nearest(what, (*fields, *(es for es, en in IN_SPANISH.items() if en in fields)))
    if near:
        return say(
            "{code} has no {what} to change; did you mean {near}?",
            code=code,
            what=what,
            near=FIELDS[fields[near][0]] if near in fields else near,
        )
    there = joined(", ", (FIELDS[field] for field, _ in fields.values()))
    return say("{code} has no {what} to change; it has {there}", code=code, what=what, there=there)


def _with_value(word: str, field: Field, code: str, rule: _Rule, text: str) -> Change | Said:
    value = _number(text) if rule.kind is None else parse(text.strip(), rule.kind)
    if isinstance(value, Unreadable):
        return joined(" ", (FIELDS[field], value.says))
    if not rule.within.low <= value <= rule.within.high:
        low, high = (
            f"{end:.10g}" if rule.kind is None else show(end, rule.kind) for end in rule.within
        )
        found = {"field": FIELDS[field], "found": text.strip(), "low": low, "high": high}
        if rule.kind is None:
            return say("{field} {found} is outside {low} to {high}", **found)
        return say(
            "{field} {found} is outside {low} to {high} (a bare number is in {unit})",
            unit=rule.kind.unit,
            **found,
        )
    return Change(field, code, value, word)


def _number(text: str) -> float | Unreadable:
    written = take_apart(text)
    if isinstance(written, Written) and not written.unit:
        return float(written.number)
    says = written.says if not isinstance(written, Written) else say("has a unit")
    return Unreadable(say('"{text}" {says}; expected a plain number', text=text.strip(), says=says))


def _known(
    code: str, what: str, house: HouseBook
) -> tuple[str, Mapping[str, tuple[Field, _Rule]]] | None:
    """Whose code it is and what can be changed of it; a leaf may have a vitola's code."""
    leaf, vitola = _spelt(code, house.leaf), _spelt(code, house.vitola)
    if vitola is not None and (leaf is None or what in VITOLA):
        return vitola, VITOLA
    if leaf is None:
        return None
    return leaf, FILLER if isinstance(house.leaf[leaf], FillerLeaf) else COVER


def _spelt(code: str, known: Iterable[str]) -> str | None:
    return next((each for each in known if code_key(each) == code_key(code)), None)


def _unknown(code: str, says: tuple[Said, Said], codes: Sequence[str]) -> Said:
    near = nearest(code, codes)
    there = joined(", ", codes) if codes else say_as("codes", "none")
    return says[near is not None].format(code=code, near=near, there=there)
