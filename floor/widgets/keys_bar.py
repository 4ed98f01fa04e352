"""The row at the bottom: the function keys and what they open."""

from __future__ import annotations

from floor.looks.spans import Line, Span, width_of
from floor.widgets.sheet import Sheet

OF_A_BENCH = ("card", "why", "chart")
LEAST_NEEDED = ("Esc", "F6", "F8", "F4", "F7", "F9", "F3")
LEAST_NEEDED_AT_A_BENCH = ("F6", "F4", "F3", "F7", "F5", "F1", "F2")
"""What is left out first where the row is short: at a bench, what is about the whole house."""


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
        """Draw the keys of the page shown, in the house's language."""
        words = self.floor.words
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
        at_a_bench = self.floor.place.page in OF_A_BENCH
        for key in LEAST_NEEDED_AT_A_BENCH if at_a_bench else LEAST_NEEDED:
            if width_of(_row(keys)) > self.size.width:
                del keys[key]
        row: Line = ()
        for key, name in keys.items():
            longer = (*row, *_row({key: name}))
            if width_of(longer) <= self.size.width:
                row = longer
        self.put([row])


def _row(keys: dict[str, str]) -> Line:
    return tuple(
        span
        for key, name in keys.items()
        for span in (Span(f" {key}", "strong"), Span(f" {name} ", "faint"))
    )
