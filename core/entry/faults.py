"""The faults of a bunch or a cigar, their words, and what usually happens to the piece."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from core.entry.tokens import spellings
from core.say import Said, say_as

Fate = Literal["rework at bunch", "re-wrap", "second", "scrap", "hold"]


class Fault(NamedTuple):
    """One fault. `fate` is what usually happens to the piece: common practice, no source.

    The first word of each language is the one shown, as `fault_name` says it; `code`, which is
    recorded, is the English one.
    """

    code: str
    en: tuple[str, ...]
    es: tuple[str, ...]
    fate: Fate
    means: Said

    @property
    def words(self) -> tuple[str, ...]:
        """Every spelling, without those that only agree in gender and number."""
        return self.en + self.es


FAULTS: tuple[Fault, ...] = (
    Fault(
        "plugged",
        ("plugged", "plug"),
        ("tapado",),
        "rework at bunch",
        say_as("fault", "plugged as a bunch"),
    ),
    Fault(
        "hard",
        ("hard", "hard spot"),
        ("duro", "dureza"),
        "rework at bunch",
        say_as("fault", "a hard spot"),
    ),
    Fault(
        "soft", ("soft",), ("blando",), "rework at bunch", say_as("fault", "soft to the squeeze")
    ),
    Fault("light", ("light",), ("liviano",), "rework at bunch", say_as("fault", "too light")),
    Fault("heavy", ("heavy",), ("pesado",), "rework at bunch", say_as("fault", "too heavy")),
    Fault(
        "twisted",
        ("twisted", "twist"),
        ("torcido",),
        "rework at bunch",
        say_as("fault", "filler twisted"),
    ),
    Fault(
        "seam",
        ("seam", "ridge", "seam ridge"),
        ("costura",),
        "rework at bunch",
        say_as("fault", "a seam ridge"),
    ),
    Fault(
        "torn",
        ("torn", "tear", "torn wrapper"),
        ("roto", "rasgado"),
        "re-wrap",
        say_as("fault", "wrapper torn"),
    ),
    Fault(
        "loose",
        ("loose", "loose wrapper"),
        ("flojo", "suelto"),
        "re-wrap",
        say_as("fault", "wrapper loose"),
    ),
    Fault(
        "wrinkle",
        ("wrinkle", "wrinkled"),
        ("arruga", "arrugado"),
        "re-wrap",
        say_as("fault", "wrapper wrinkled"),
    ),
    Fault(
        "vein",
        ("vein", "heavy vein"),
        ("vena", "nervio", "vena gruesa"),
        "re-wrap",
        say_as("fault", "a heavy vein in the wrapper"),
    ),
    Fault(
        "cap",
        ("cap", "bad cap"),
        ("perilla", "mala perilla"),
        "re-wrap",
        say_as("fault", "a bad cap"),
    ),
    Fault(
        "stain",
        ("stain", "stained"),
        ("mancha", "manchado"),
        "second",
        say_as("fault", "wrapper stained"),
    ),
    Fault(
        "colour", ("colour", "color"), ("color", "tono"), "second", say_as("fault", "off colour")
    ),
    Fault(
        "crooked",
        ("crooked", "bent"),
        ("chueco", "doblado"),
        "second",
        say_as("fault", "slightly crooked"),
    ),
    Fault("short", ("short",), ("corto",), "scrap", say_as("fault", "too short")),
    Fault(
        "tight",
        ("tight", "no draw"),
        ("apretado", "sin tiro"),
        "scrap",
        say_as("fault", "plugged after wrapping"),
    ),
    Fault(
        "stem",
        ("stem", "foreign", "foreign body"),
        ("palo", "palillo", "cuerpo extraño"),
        "scrap",
        say_as("fault", "stem or a foreign body"),
    ),
    Fault("mould", ("mould", "mold"), ("moho",), "scrap", say_as("fault", "mould growth")),
    Fault(
        "beetle",
        ("beetle", "beetle hole"),
        ("gorgojo", "picado"),
        "scrap",
        say_as("fault", "a beetle hole: isolate the bundle too"),
    ),
    Fault(
        "blend",
        ("blend", "wrong blend"),
        ("liga", "otra liga"),
        "hold",
        say_as("fault", "the wrong blend"),
    ),
    Fault("wet", ("wet", "too wet"), ("mojado", "húmedo"), "hold", say_as("fault", "too wet")),
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


_NAMES: dict[str, Said] = {
    "plugged": say_as("fault", "plugged"),
    "hard": say_as("fault", "hard"),
    "soft": say_as("fault", "soft"),
    "light": say_as("fault", "light"),
    "heavy": say_as("fault", "heavy"),
    "twisted": say_as("fault", "twisted"),
    "seam": say_as("fault", "seam"),
    "torn": say_as("fault", "torn"),
    "loose": say_as("fault", "loose"),
    "wrinkle": say_as("fault", "wrinkle"),
    "vein": say_as("fault", "vein"),
    "cap": say_as("fault", "cap"),
    "stain": say_as("fault", "stain"),
    "colour": say_as("fault", "colour"),
    "crooked": say_as("fault", "crooked"),
    "short": say_as("fault", "short"),
    "tight": say_as("fault", "tight"),
    "stem": say_as("fault", "stem"),
    "mould": say_as("fault", "mould"),
    "beetle": say_as("fault", "beetle"),
    "blend": say_as("fault", "blend"),
    "wet": say_as("fault", "wet"),
}


def fault_name(code: str) -> str:
    """The fault's word, to be told in any language; a code that is none stays as it is."""
    return _NAMES.get(code, code)


BY_WORD: dict[str, Fault] = {word: fault for fault in FAULTS for word in _words(fault)}
FAULT_WORDS = spellings(BY_WORD.items())
