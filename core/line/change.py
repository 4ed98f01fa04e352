"""Changes to try, read from words: `LI-2=1.5`, `toro.ring=50`, `LI-2.moisture=15%`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

from core.house import limits
from core.house.amounts import LENGTH, SHARE, WEIGHT, Kind, Unreadable, parse, show
from core.house.codes import code_key
from core.house.limits import Range
from core.house.model import FillerLeaf, HouseBook
from core.house.written import Written, take_apart
from core.nearest import nearest
from core.problems import BadInput, Problem
from core.say import say

Field = Literal["parts", "ring", "length", "half_leaf", "piece", "moisture"]
EXAMPLES = "LI-2=1.5 (parts), toro.ring=50, toro.length=5in, LI-2.piece=1, LI-2.moisture=15%"


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
PARTS = _Rule(Range(0, limits.PARTS.high))


def read_changes(words: Iterable[str], house: HouseBook) -> tuple[Change, ...]:
    """The changes in `words`, each `CODE=PARTS` or `CODE.WHAT=AMOUNT`, codes as the house's.

    Zero parts take a leaf out. Raises BadInput with every word that cannot be read or that
    changes what another has changed.
    """
    problems: list[Problem] = []
    found: dict[tuple[str, str], Change] = {}
    for word in words:
        read = _read(word, house)
        if isinstance(read, str):
            problems.append(Problem(word, read))
        elif (read.field, read.code) in found:
            before = found[read.field, read.code].said
            problems.append(Problem(word, f"{before} has already changed that; give one of them"))
        else:
            found[read.field, read.code] = read
    if problems:
        raise BadInput(*problems)
    return tuple(found.values())


def _read(word: str, house: HouseBook) -> Change | str:
    name, equals, amount = word.partition("=")
    if not equals or not name.strip() or not amount.strip():
        return f"is no change; write it as {EXAMPLES}"
    name = name.strip()
    leaf = _spelt(name, house.leaf)
    if leaf is not None:
        if leaf not in house.filler:
            return f"{leaf} is a {house.cover[leaf].use} leaf; parts are of filler leaf"
        return _with_value(word, "parts", leaf, PARTS, amount)
    code, dot, what = name.rpartition(".")
    if not dot:
        return _unknown(name, "filler leaf", [*house.filler])
    known = _known(code, what, house)
    if known is None:
        return _unknown(code, "leaf or vitola", [*house.leaf, *house.vitola])
    spelt, fields = known
    if what not in fields:
        near = nearest(what, fields)
        hint = f"did you mean {near}?" if near else f"it has {', '.join(fields)}"
        return f"{spelt} has no {what} to change; {hint}"
    field, rule = fields[what]
    return _with_value(word, field, spelt, rule, amount)


def _with_value(word: str, field: Field, code: str, rule: _Rule, text: str) -> Change | str:
    value = _number(text) if rule.kind is None else parse(text.strip(), rule.kind)
    if isinstance(value, Unreadable):
        return f"{field} {value.says}"
    if not rule.within.low <= value <= rule.within.high:
        low, high = (
            f"{end:.10g}" if rule.kind is None else show(end, rule.kind) for end in rule.within
        )
        bare = f" (a bare number is in {rule.kind.unit})" if rule.kind else ""
        return f"{field} {text.strip()} is outside {low} to {high}{bare}"
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


def _unknown(code: str, what: str, codes: Sequence[str]) -> str:
    near = nearest(code, codes)
    hint = f"; did you mean {near}?" if near else ""
    return f"no {what} has the code {code}{hint} (there are {', '.join(codes) or 'none'})"
