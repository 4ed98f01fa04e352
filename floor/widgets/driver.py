"""The line to the terminal: nothing is sent that it does not know, and nothing read is lost."""

from __future__ import annotations

import codecs
import os
import selectors

from textual._xterm_parser import XTermParser

from floor.looks.sequences import known_to
from floor.looks.terminal import Terminal
from floor.widgets.patient import PatientDriver

LOOK_S = 0.1
"""How often it is asked whether an Escape was alone, and whether the floor is left."""

AT_ONCE = 4096
"""Bytes read at once."""


def _as_latin(error: UnicodeError) -> tuple[str, int]:
    """A byte that is no UTF-8 is Latin-1's letter, as an older terminal sends it."""
    if not isinstance(error, UnicodeDecodeError):
        raise error
    letters = error.object[error.start : error.end].decode("latin-1")
    return "".join(
        c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in letters
    ), error.end


codecs.register_error("floor.latin", _as_latin)


class FloorDriver(PatientDriver):
    """Speaks to the terminal as it is, and takes whatever bytes come from it."""

    def write(self, data: str) -> None:
        """Send output, less what this terminal does not know."""
        terminal: Terminal = self._app.terminal  # type: ignore[attr-defined]
        if known := known_to(terminal, data):
            super().write(known)

    def _get_terminal_size(self) -> tuple[int, int]:
        """The window's own size; one that a shell exported stays what it was when dragged."""
        try:
            width, height = os.get_terminal_size(self.fileno)
        except OSError:
            return super()._get_terminal_size()
        return (width, height) if width and height else super()._get_terminal_size()

    def resume_application_mode(self) -> None:
        """Take the terminal up again after it was put away: it shows what others left there."""
        super().resume_application_mode()
        self.behind = True

    def run_input_thread(self) -> None:
        """Read keys until the floor is left, or the terminal is gone.

        Textual's own loop ends the program at the first byte that is no UTF-8, and what was
        read with it is lost.
        """
        parser = XTermParser(self._debug)
        decode = codecs.getincrementaldecoder("utf-8")("floor.latin").decode
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                if selector.select(LOOK_S):
                    try:
                        read = os.read(self.fileno, AT_ONCE)
                    except OSError:
                        return
                    if not read:
                        return
                    if typed := decode(read):
                        for event in parser.feed(typed):
                            self.process_message(event)
                for event in parser.tick():
                    self.process_message(event)
