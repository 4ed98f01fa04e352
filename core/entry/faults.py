"""The faults of a bunch or a cigar, their words, and what usually happens to the piece."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from core.entry.tokens import spellings

Fate = Literal["rework at bunch", "re-wrap", "second", "scrap", "hold"]


class Fault(NamedTuple):
    """One fault. `fate` is what usually happens to the piece: common practice, no source.

    The first word of each language is the one shown; `code`, which is recorded, is the English
    one.
    """

    code: str
    en: tuple[str, ...]
    es: tuple[str, ...]
    fate: Fate
    means: str

    @property
    def words(self) -> tuple[str, ...]:
        """Every spelling, without those that only agree in gender and number."""
        return self.en + self.es


FAULTS: tuple[Fault, ...] = (
    Fault("plugged", ("plugged", "plug"), ("tapado",), "rework at bunch", "plugged as a bunch"),
    Fault("hard", ("hard", "hard spot"), ("duro", "dureza"), "rework at bunch", "a hard spot"),
    Fault("soft", ("soft",), ("blando",), "rework at bunch", "soft to the squeeze"),
    Fault("light", ("light",), ("liviano",), "rework at bunch", "too light"),
    Fault("heavy", ("heavy",), ("pesado",), "rework at bunch", "too heavy"),
    Fault("twisted", ("twisted", "twist"), ("torcido",), "rework at bunch", "filler twisted"),
    Fault("seam", ("seam", "ridge", "seam ridge"), ("costura",), "rework at bunch", "a seam ridge"),
    Fault("torn", ("torn", "tear", "torn wrapper"), ("roto", "rasgado"), "re-wrap", "wrapper torn"),
    Fault("loose", ("loose", "loose wrapper"), ("flojo", "suelto"), "re-wrap", "wrapper loose"),
    Fault(
        "wrinkle", ("wrinkle", "wrinkled"), ("arruga", "arrugado"), "re-wrap", "wrapper wrinkled"
    ),
    Fault(
        "vein",
        ("vein", "heavy vein"),
        ("vena", "nervio", "vena gruesa"),
        "re-wrap",
        "a heavy vein in the wrapper",
    ),
    Fault("cap", ("cap", "bad cap"), ("perilla", "mala perilla"), "re-wrap", "a bad cap"),
    Fault("stain", ("stain", "stained"), ("mancha", "manchado"), "second", "wrapper stained"),
    Fault("colour", ("colour", "color"), ("color", "tono"), "second", "off colour"),
    Fault("crooked", ("crooked", "bent"), ("chueco", "doblado"), "second", "slightly crooked"),
    Fault("short", ("short",), ("corto",), "scrap", "too short"),
    Fault(
        "tight",
        ("tight", "no draw"),
        ("apretado", "sin tiro"),
        "scrap",
        "plugged after wrapping",
    ),
    Fault(
        "stem",
        ("stem", "foreign", "foreign body"),
        ("palo", "palillo", "cuerpo extraño"),
        "scrap",
        "stem or a foreign body",
    ),
    Fault("mould", ("mould", "mold"), ("moho",), "scrap", "mould growth"),
    Fault(
        "beetle",
        ("beetle", "beetle hole"),
        ("gorgojo", "picado"),
        "scrap",
        "a beetle hole: isolate the bundle too",
    ),
    Fault("blend", ("blend", "wrong blend"), ("liga", "otra liga"), "hold", "the wrong blend"),
    Fault("wet", ("wet", "too wet"), ("mojado", "húmedo"), "hold", "too wet"),
)


def _agreeing(word: str) -> tuple[str, ...]:
    """A Spanish word in the genders and numbers it takes with what it counts."""
    if " " in word:
        return (word,)
    if word.endswith("o"):
        return word, word + "s", word[:-1] + "a", word[:-1] + "as"
    return word, word + "s"


def _words(fault: Fault) -> Iterator[str]:
    yield from fault.en
    for word in fault.es:
        yield from _agreeing(word)


BY_WORD: dict[str, Fault] = {word: fault for fault in FAULTS for word in _words(fault)}
FAULT_WORDS = spellings(BY_WORD.items())
