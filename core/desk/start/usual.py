"""What is usual where a house says nothing yet: common practice, no source."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from core.house import limits
from core.house.amounts import LENGTH, Unreadable, parse
from core.house.codes import code_key
from core.house.language import LANGUAGES
from core.house.model import LAYING_ORDER
from core.house.odd import HALF_LEAF
from core.house.written import Unwritten, take_apart
from core.say import Said, say, told
from core.tongue import tongue_of
from core.units import MM_PER_INCH

Answers = Mapping[str, str]
"""By the question's key, as they are written into the house book."""

LEAVES = 3
LEAF_CODES = (*(f"leaf{n}.code" for n in range(1, LEAVES + 1)), "binder.code", "wrapper.code")

PACKING_G_PER_CM3 = 0.30
BUILD = "0.35 mm"
ON_CIGAR = "60 g/m^2"
TAKEN_AS_USUAL = say(
    "Taken as usual, not asked: build {build} and {on_cigar} of binder and wrapper. "
    "All of it can be changed in the file.",
    build=BUILD,
    on_cigar=ON_CIGAR,
)


def packed_g(length: str, ring: str) -> float:
    """Filler of a straight size at the usual packing, in grams; within what a house may say.

    The whole cylinder is taken: its covers are thinner than what packing varies by. A size that
    cannot be read has the least filler there is.
    """
    length_mm, gauge = parse(length, LENGTH), take_apart(ring)
    if isinstance(length_mm, Unreadable) or isinstance(gauge, Unwritten):
        return limits.FILLER_G.low
    across_cm = float(gauge.number) / 64 * MM_PER_INCH / 10
    volume_cm3 = math.pi / 4 * across_cm**2 * length_mm / 10
    low, high = limits.FILLER_G
    return min(high, max(low, PACKING_G_PER_CM3 * volume_cm3))


def always(value: str) -> Callable[[Answers], str]:
    """The same, whatever was answered."""
    return lambda _answers: value


def in_language(said: Said) -> Callable[[Answers], str]:
    """A usual word in the house's language."""

    def usual(answers: Answers) -> str:
        language = answers.get("language")
        return told(said, tongue_of(language if language in LANGUAGES else "en"))

    return usual


def _free_code(begin: str, answers: Answers) -> str:
    """A leaf's code that no other has."""
    taken = {code_key(code) for key, code in answers.items() if key in LEAF_CODES}
    numbers = range(1, len(LEAF_CODES) + 2)
    return next(code for n in numbers if code_key(code := f"{begin}-{n}") not in taken)


def code_of_class(key: str) -> Callable[[Answers], str]:
    """A free code that begins as the class of the leaf asked about under `key`."""

    def usual(answers: Answers) -> str:
        leaf_class = answers[f"{key}.class"]
        begin = leaf_class[:2].upper() if leaf_class in LAYING_ORDER else "LF"
        return _free_code(begin, answers)

    return usual


def code_of_use(said: Said) -> Callable[[Answers], str]:
    """A free code that begins with the letters, which each language has its own."""
    word = in_language(said)
    return lambda answers: _free_code(word(answers), answers)


def half_leaf(key: str) -> Callable[[Answers], str]:
    """The middle of what is usual for the class; top leaf's, where nothing is known of it."""

    def usual(answers: Answers) -> str:
        bands = {str(leaf_class): band for leaf_class, band in HALF_LEAF.items()}
        band = bands.get(answers[f"{key}.class"], HALF_LEAF["ligero"])
        return f"{(band.low + band.high) / 2:.2g} g"

    return usual


def filler(answers: Answers) -> str:
    """A bunch's filler by the size that was answered."""
    return f"{packed_g(answers['vitola.length'], answers['vitola.ring']):.3g} g"
