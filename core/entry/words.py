"""The words of the entry line in English and Spanish: one table for parser, help and Tab."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Literal, NamedTuple, Protocol

from core.entry.tokens import spellings
from core.house.model import Language
from core.say import say, say_as

Where = Literal["bench", "floor", "either", "card"]
"""After a bench, alone, with or without a bench, or alone on a card."""
Takes = Literal[
    "readings",
    "draw",
    "bundle",
    "leaf and readings",
    "count",
    "faults",
    "count and reason",
    "cigars or scores",
    "leaf and weight",
    "weight of cuttings",
    "weight of sweepings",
    "lot received",
    "lot on hand",
    "vitola",
    "note",
    "undo",
    "benches wanted",
    "order",
    "chart",
    "reason",
    "blend",
    "what to try",
    "bench",
    "initials",
    "nothing",
]
"""What follows the word."""


class Example(NamedTuple):
    """A line as typed, which is told in the words of each language, and what it does."""

    typed: str
    does: str


class Form(NamedTuple):
    """One word of the line: its spellings, where it stands, what it takes.

    The first spelling of each language is the one completed and shown; `means` is the kind,
    measure or screen it stands for.
    """

    means: str
    en: tuple[str, ...]
    es: tuple[str, ...]
    where: Where
    takes: Takes
    examples: tuple[Example, ...]


NO_WORD: tuple[Example, ...] = (
    Example("7", say("opens bench 7's card, from the Board and the lists")),
    Example("/7", say("opens bench 7's card from anywhere")),
    Example("7 15.3 15.6 15.4", say("weighs three bunches of bench 7")),
    Example("15.3", say("on a card: one reading; a blank line ends the check")),
    Example(say_as("typed", "cigar"), say("on a card: the readings to come are of cigars")),
    Example("7 15.3 9.1!", say("! at the end: a weight far off is meant so")),
    Example("LI-2 14.2%", say("moisture of a leaf as measured now")),
)
"""Lines that begin with no word."""

FORMS: tuple[Form, ...] = (
    Form(
        "cigar", ("cigar", "cigars"), ("puro", "puros", "cigarro", "cigarros"),
        "bench", "readings",
        (Example(say_as("typed", "7 cigar 17.2 17.4"), say("weighs finished cigars")),),
    ),
    Form(
        "bundle", ("bundle",), ("mazo",),
        "bench", "bundle",
        (Example(say_as("typed", "7 bundle 50 868"), say("weighs 50 cigars together")),),
    ),
    Form(
        "filler", ("filler",), ("tripa",),
        "bench", "readings",
        (Example(say_as("typed", "7 filler 13.1 13.4"), say("weighs filler alone")),),
    ),
    Form(
        "portion", ("portion", "portions"), ("porción", "porciones"),
        "bench", "leaf and readings",
        (
            Example(
                say_as("typed", "7 portion LI-2 3.1 3.0"),
                say("weighs one class's filler alone"),
            ),
        ),
    ),
    Form(
        "bunch", ("bunch", "bunches"), ("bonche", "bonches"),
        "bench", "readings",
        (Example(say_as("typed", "7 bunch 0.55oz"), say("weighs bunches; g, kg, mg, oz, lb")),),
    ),
    Form(
        "ring", ("ring", "gauge"), ("cepo",),
        "bench", "readings",
        (Example(say_as("typed", "7 ring 52 51.5"), say("ring gauge of cigars")),),
    ),
    Form(
        "length", ("length",), ("largo", "longitud"),
        "bench", "readings",
        (Example(say_as("typed", "7 length 152.5"), say("length in mm; cm and in too")),),
    ),
    Form(
        "draw", ("draw",), ("tiro",),
        "bench", "draw",
        (Example(say_as("typed", "7 draw 62"), say("draw in mm of water, or as the dial reads")),),
    ),
    Form(
        "made", ("made",), ("hechos", "hecho"),
        "bench", "count", (Example(say_as("typed", "7 made 50"), say("50 bunches made")),),
    ),
    Form(
        "good", ("good", "passed"), ("buenos", "bueno"),
        "bench", "count", (Example(say_as("typed", "7 good 50"), say("50 cigars passed")),),
    ),
    Form(
        "fail", ("fail", "failed", "reject"), ("falla", "fallas", "rechazo", "rechazos"),
        "bench", "faults",
        (Example(say_as("typed", "7 fail plugged 2 torn 1"), say("failed, by fault")),),
    ),
    Form(
        "rework", ("rework", "reworked"), ("reproceso", "reprocesos"),
        "bench", "count", (Example(say_as("typed", "7 rework 3"), say("3 pieces reworked")),),
    ),
    Form(
        "second", ("second", "seconds"), ("segunda", "segundas"),
        "bench", "count",
        (Example(say_as("typed", "7 second 3"), say("3 cigars sold as seconds")),),
    ),
    Form(
        "hold", ("hold",), ("retiene", "retenidos", "retenido"),
        "bench", "count and reason",
        (Example(say_as("typed", "7 hold 25 too wet"), say("25 good cigars set aside, and why")),),
    ),
    Form(
        "release", ("release",), ("libera", "liberados"),
        "bench", "count",
        (Example(say_as("typed", "7 release 25"), say("25 of those on hold are let go")),),
    ),
    Form(
        "workers", ("workers",), ("fuma", "fumas"),
        "bench", "count",
        (Example(say_as("typed", "7 workers 4"), say("4 good cigars given to the workers")),),
    ),
    Form(
        "panel", ("panel",), ("cata",),
        "either", "cigars or scores",
        (
            Example(say_as("typed", "7 panel 5"), say("5 good cigars kept for the panel")),
            Example(say_as("typed", "panel"), say("the Panel: does the line taste alike?")),
            Example(say_as("typed", "panel T1 A 7 6 8 7"), say("a taster's scores of one size")),
        ),
    ),
    Form(
        "take", ("take", "issue"), ("toma", "entrega"),
        "bench", "leaf and weight",
        (
            Example(
                say_as("typed", "7 take LI-2 450"),
                say("450 g of leaf issued, of the oldest lot"),
            ),
            Example(say_as("typed", "7 take LI-2 450 lot L8"), say("450 g of another lot")),
        ),
    ),
    Form(
        "back", ("back", "return"), ("devuelve", "devolución"),
        "bench", "leaf and weight",
        (Example(say_as("typed", "7 back LI-2 60"), say("60 g of leaf returned")),),
    ),
    Form(
        "scrap", ("scrap", "cuttings"), ("recorte", "recortes"),
        "bench", "weight of cuttings",
        (
            Example(say_as("typed", "7 scrap 35"), say("35 g of cuttings")),
            Example(say_as("typed", "7 scrap LI-2 35"), say("35 g of cuttings of one leaf")),
        ),
    ),
    Form(
        "stem", ("stem", "stems"), ("vena", "venas"),
        "bench", "weight of cuttings",
        (
            Example(say_as("typed", "7 stem 12"), say("12 g of stem")),
            Example(say_as("typed", "7 stem LI-2 12"), say("12 g of stem of one leaf")),
        ),
    ),
    Form(
        "sweepings", ("sweepings",), ("barrido",),
        "floor", "weight of sweepings",
        (
            Example(say_as("typed", "sweepings 140"), say("140 g swept up in the room")),
            Example(say_as("typed", "sweepings LI-2 20"), say("20 g swept up of one leaf")),
        ),
    ),
    Form(
        "receive", ("receive", "received"), ("recibe", "recibido"),
        "floor", "lot received",
        (
            Example(
                say_as("typed", "receive LI-2 L8 36kg 13%"),
                say("a lot comes in; crop 2023 bales 3 price 24 too"),
            ),
        ),
    ),
    Form(
        "stock", ("stock",), ("existencia", "existencias"),
        "floor", "lot on hand",
        (Example(say_as("typed", "stock LI-2 L8 31.5kg"), say("what was found on hand of a lot")),),
    ),
    Form(
        "roll", ("roll",), ("vitola", "tarea", "tuerce"),
        "bench", "vitola",
        (
            Example(say_as("typed", "7 roll robusto"), say("changes the vitola")),
            Example(
                say_as("typed", "7 roll robusto B4 250"),
                say("changes vitola, blend and quota"),
            ),
        ),
    ),
    Form(
        "note", ("note",), ("nota",),
        "either", "note",
        (
            Example(
                say_as("typed", "note wet leaf until nine"),
                say("a note on the day; on a card, on the bench"),
            ),
            Example(say_as("typed", "7 note new blade"), say("a note on bench 7")),
        ),
    ),
    Form(
        "undo", ("undo",), ("deshacer", "deshaz", "anula", "anular"),
        "floor", "undo",
        (
            Example(say_as("typed", "undo"), say("voids this terminal's last entry")),
            Example(say_as("typed", "undo 118 wrong bench"), say("voids entry 118, with a reason")),
        ),
    ),
    Form(
        "initials", ("initials",), ("iniciales",),
        "floor", "initials",
        (
            Example(
                say_as("typed", "initials RM"),
                say("this terminal's entries carry RM from here on"),
            ),
        ),
    ),
    Form(
        "board", ("board",), ("tablero",),
        "floor", "nothing", (Example(say_as("typed", "board"), say("the Board: every bench")),),
    ),
    Form(
        "only", ("only",), ("solo",),
        "floor", "benches wanted",
        (
            Example(say_as("typed", "only robusto"), say("lists the benches with that word")),
            Example(say_as("typed", "only"), say("lists every bench again")),
        ),
    ),
    Form(
        "sort", ("sort",), ("orden", "ordena", "ordenar"),
        "floor", "order",
        (Example(say_as("typed", "sort due"), say("orders the Board: bench, due, mean or good")),),
    ),
    Form(
        "why", ("why",), ("porqué", "por qué"),
        "card", "nothing",
        (Example(say_as("typed", "why"), say("on a card: the steps behind its figures")),),
    ),
    Form(
        "rounds", ("rounds",), ("rondas",),
        "floor", "nothing",
        (Example(say_as("typed", "rounds"), say("the rounds: who is to be weighed next")),),
    ),
    Form(
        "chart", ("chart",), ("gráfica", "gráfico"),
        "either", "chart",
        (
            Example(say_as("typed", "chart"), say("on a card: its chart; chart 7 from anywhere")),
            Example(say_as("typed", "7 chart cigar"), say("the chart of another kind of check")),
        ),
    ),
    Form(
        "leaf", ("leaf",), ("hoja",),
        "floor", "nothing",
        (Example(say_as("typed", "leaf"), say("the Leaf: what is in stock and for how long")),),
    ),
    Form(
        "line", ("line",), ("línea",),
        "floor", "blend",
        (Example(say_as("typed", "line B4"), say("the Line: does the blend hold in every size?")),),
    ),
    Form(
        "try", ("try",), ("prueba",),
        "floor", "what to try",
        (
            Example(
                say_as("typed", "try LI-2=1.5 toro.ring=50"),
                say("on the Line: as it would be, beside today"),
            ),
            Example(
                say_as("typed", "try without LI-2"),
                say("on the Line: new parts when a leaf runs out"),
            ),
            Example(
                say_as("typed", "try save"),
                say("what is tried becomes the house book; asks first"),
            ),
        ),
    ),
    Form(
        "drop", ("drop",), ("descarta",),
        "floor", "nothing",
        (Example(say_as("typed", "drop"), say("the Line as it is today; Esc does too")),),
    ),
    Form(
        "approve", ("approve",), ("aprueba",),
        "either", "bench",
        (
            Example(
                say_as("typed", "approve 7"),
                say("bench 7's checks of today are approved; asks first"),
            ),
        ),
    ),
    Form(
        "day", ("day",), ("día", "jornada"),
        "floor", "nothing",
        (Example(say_as("typed", "day"), say("the Day: what was made, where the leaf went")),),
    ),
    Form(
        "days", ("days",), ("días", "jornadas"),
        "floor", "nothing",
        (Example(say_as("typed", "days"), say("the Days: the last weeks side by side")),),
    ),
    Form(
        "log", ("log",), ("registro",),
        "floor", "nothing", (Example(say_as("typed", "log"), say("the Log: what was recorded")),),
    ),
    Form(
        "close", ("close",), ("cierre", "cierra", "cerrar"),
        "floor", "nothing", (Example(say_as("typed", "close"), say("ends the day; asks first")),),
    ),
    Form(
        "reopen", ("reopen",), ("reabre", "reabrir"),
        "floor", "reason",
        (
            Example(
                say_as("typed", "reopen bundle found"),
                say("opens a closed day again, with a reason"),
            ),
        ),
    ),
    Form(
        "help", ("help", "?"), ("ayuda",),
        "floor", "nothing", (Example(say_as("typed", "help"), say("this page; ? does too")),),
    ),
)  # fmt: skip


class Order(NamedTuple):
    """One way the Board lists its benches."""

    means: Literal["bench", "due", "mean", "good"]
    en: tuple[str, ...]
    es: tuple[str, ...]


ORDERS: tuple[Order, ...] = (
    Order("bench", ("bench",), ("mesa",)),
    Order("due", ("due",), ("toca", "vence")),
    Order("mean", ("mean",), ("media", "promedio")),
    Order("good", ("good",), ("buenos",)),
)


class LotWord(NamedTuple):
    """A word about a lot and what it tells."""

    means: Literal["lot", "crop", "bales", "price"]
    en: tuple[str, ...]
    es: tuple[str, ...]


LOT_WORDS_SHOWN: tuple[LotWord, ...] = (
    LotWord("crop", ("crop",), ("cosecha",)),
    LotWord("bales", ("bales", "bale"), ("pacas", "paca")),
    LotWord("price", ("price",), ("precio",)),
)
WITHOUT = ("without", "sin")
"""What is tried without some leaf begins with one of these."""
THE_LOT = LotWord("lot", ("lot",), ("lote",))


def _spelled(words: tuple[Form, ...]) -> Iterator[tuple[str, Form]]:
    return ((spelling, word) for word in words for spelling in word.en + word.es)


class Spelt(Protocol):
    """Something with spellings in both languages."""

    @property
    def en(self) -> tuple[str, ...]: ...
    @property
    def es(self) -> tuple[str, ...]: ...


def spelt(words: Iterable[Spelt], language: Language) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Every spelling in the language, and every one in the other."""
    english = tuple(spelling for word in words for spelling in word.en)
    spanish = tuple(spelling for word in words for spelling in word.es)
    return (spanish, english) if language == "es" else (english, spanish)


FORM_WORDS = spellings(_spelled(FORMS))
BENCH_FORMS: tuple[Form, ...] = tuple(form for form in FORMS if form.where in ("bench", "either"))
CHARTED: tuple[Form, ...] = tuple(
    form for form in FORMS if form.takes in ("readings", "draw", "bundle")
)
"""What a chart can be of; a portion is of one leaf, and says why bunches are off."""
CHART_WORDS = spellings(_spelled(CHARTED))
LOT_WORDS = spellings((w, lot) for lot in LOT_WORDS_SHOWN for w in lot.en + lot.es)
LOT_WORD = spellings((w, THE_LOT) for w in THE_LOT.en + THE_LOT.es)
ORDER_WORDS = spellings((word, order) for order in ORDERS for word in order.en + order.es)

LEAVE: Mapping[Language, str] = {"en": "quit", "es": "salir"}
"""What is typed to leave, at the floor as in the first run at the shell."""

OF_ONE_BENCH = frozenset(
    {form.means for form in FORMS if form.where in ("bench", "card")}
    | {"panel", "chart", "note", "undo", "initials", "help"}
)
"""Words by what they mean that a terminal for one bench alone takes."""
BENCH_GRAMMAR: tuple[Example, ...] = (
    *NO_WORD[2:6],
    *(form.examples[0] for form in FORMS if form.means in OF_ONE_BENCH),
)
"""What Help shows there: the plainest example of each."""

GRAMMAR: tuple[Example, ...] = (
    *NO_WORD,
    *(example for form in FORMS for example in form.examples),
)
"""The whole grammar by example, in the order the Help screen shows it."""
