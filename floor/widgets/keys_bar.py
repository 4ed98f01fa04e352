"""The row at the bottom: the function keys and what they open; words where there are no keys."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from core.entry.words import FORMS, LEAVE
from core.house.model import Language
from floor.looks.spans import Line, Span, width_of
from floor.widgets.sheet import Sheet

QUIT = LEAVE["en"]
OF_A_BENCH = ("card", "why", "chart")
LEAST_NEEDED = ("Esc", "F6", "F8", "F9", "F4", "F7", "F3")
OF_THE_HOUSE = ("F4", "F7", "F3")
"""For these the row is set closer before one is left out."""
LEAST_NEEDED_AT_A_BENCH = ("F6", "F4", "F3", "F7", "F5", "F2", "Esc")
"""What is left out first where the row is short: in a list what needs a bench, at a bench what is
about the whole house. The way back to the Board stays everywhere.
"""

KEYS_OF_NO_HOUSE = ("F10", "Ctrl+Q")
KEYS_OF_ONE_BENCH = ("F8", "F9", "F10", "Esc", "Ctrl+Q")
TYPED_OF_ONE_BENCH = ("why", "chart", "help", QUIT)
"""Where the terminal is for one bench alone."""

FOUR_KEYS = ("F1", "F2", "F3", "F4")
TYPED = ("day", "panel", "log", "help", QUIT)
TYPED_AT_A_BENCH = ("why", "chart", "day", "log", "help", QUIT)
"""Pages whose function keys a terminal with four of them does not have."""
LEAST_NEEDED_OF_FOUR = ("F4", "F3", "F2", "panel", "log", "day", "F1")
"""What is left out first there: keys have words too, and Help knows all of them. The way out
stays."""


class KeysBar(Sheet):
    """The keys in one order everywhere, the least needed ones left out where the row is short."""

    DEFAULT_CSS = """
    KeysBar { height: 1; }
    """

    def on_mount(self) -> None:
        self.update()

    def on_resize(self) -> None:
        self.update()

    def update(self) -> None:
        """Draw the keys of the page shown."""
        floor, words = self.floor, self.floor.words
        keys = {
            "F1": words.board,
            "F2": words.rounds,
            "F3": words.leaf_page,
            "F4": words.line_page,
            "F5": words.day,
            "F6": words.panel,
            "F7": words.log,
            "F8": words.why,
            "F9": words.chart,
            "F10": words.help,
            "Esc": words.back,
            "Ctrl+Q": words.quit,
        }
        at_a_bench = floor.place.page in OF_A_BENCH
        if floor.desk.only is not None:
            keys = {key: keys[key] for key in KEYS_OF_ONE_BENCH}
        elif floor.desk.house is None:
            keys = {key: keys[key] for key in KEYS_OF_NO_HOUSE}
        if floor.terminal.four_keys and floor.desk.house is not None:
            self._put_words(keys, at_a_bench=at_a_bench)
        else:
            least = LEAST_NEEDED_AT_A_BENCH if at_a_bench else LEAST_NEEDED
            closer = () if at_a_bench else OF_THE_HOUSE
            self.put([with_keys(keys, least, closer, self.size.width)])

    def _put_words(self, keys: dict[str, str], *, at_a_bench: bool) -> None:
        """Four keys at most, and words to type for the other pages."""
        words = self.floor.words
        pages: tuple[str, ...] = TYPED_AT_A_BENCH if at_a_bench else TYPED
        if self.floor.desk.only is not None:
            pages = TYPED_OF_ONE_BENCH
        four = {key: keys[key] for key in FOUR_KEYS if key in keys}
        typed = {page: _typed(page, words.language) for page in pages}
        self.put([with_words(four, typed, words.type_row, self.size.width)])


def with_keys(
    keys: dict[str, str], least_needed: Iterable[str], closer_for: Sequence[str], width: int
) -> Line:
    """As many of the keys as there is room for, in their order; set closer before one of
    `closer_for` is left out.
    """
    kept = dict(keys)
    for key in least_needed:
        if width_of(_row(kept, close=key in closer_for)) <= width:
            break
        kept.pop(key, None)
    close = bool(closer_for) and width_of(_row(kept)) > width
    row: Line = ()
    for key, name in kept.items():
        longer = (*row, *_row({key: name}, close=close))
        if width_of(longer) <= width:
            row = longer
    return row


def with_words(keys: dict[str, str], typed: dict[str, str], says: str, width: int) -> Line:
    """The four keys, then the words to type for pages whose keys are missing.

    `typed` is by page; `says` is what stands around the words.
    """
    kept, pages = dict(keys), dict(typed)
    for name in LEAST_NEEDED_OF_FOUR:
        if width_of(_both(kept, pages, says)) <= width:
            break
        kept.pop(name, None)
        pages.pop(name, None)
    return _both(kept, pages, says)


def _both(keys: dict[str, str], typed: dict[str, str], says: str) -> Line:
    before, _, after = says.partition("{what}")
    words = Span(" ".join(typed.values()), "strong")
    return (*_row(keys), Span(f" {before}", "faint"), words, Span(f"{after} ", "faint"))


def _row(keys: dict[str, str], *, close: bool = False) -> Line:
    after = "" if close else " "
    return tuple(
        span
        for key, name in keys.items()
        for span in (Span(f" {key}", "strong"), Span(f" {name}{after}", "faint"))
    )


def _typed(page: str, language: Language) -> str:
    """The word that opens the page, as it is completed and shown; or the one that leaves."""
    if page == QUIT:
        return LEAVE[language]
    form = next(form for form in FORMS if form.means == page)
    return (form.es if language == "es" else form.en)[0]
