"""The row at the bottom: the function keys and what they open."""

from __future__ import annotations

from floor.looks.spans import Line, Span, width_of
from floor.widgets.sheet import Sheet


class KeysBar(Sheet):
    """Keys from the left, the least needed ones left out where the row is short."""

    DEFAULT_CSS = """
    KeysBar { height: 1; }
    """

    def on_mount(self) -> None:
        self.update()

    def on_resize(self) -> None:
        self.update()

    def update(self) -> None:
        """Draw the keys in the house's language."""
        words = self.floor.words
        keys = (
            ("F1", words.board),
            ("F8", words.why),
            ("F5", words.day),
            ("F7", words.log),
            ("F10", words.help),
            ("Esc", words.back),
            ("Ctrl+Q", words.quit),
        )
        row: Line = ()
        for key, name in keys:
            longer = (*row, Span(f" {key}", "strong"), Span(f" {name} ", "faint"))
            if width_of(longer) <= self.size.width:
                row = longer
        self.put([row])
