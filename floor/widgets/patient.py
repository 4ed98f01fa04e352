"""A terminal that takes no output must not keep entries from being recorded."""

from __future__ import annotations

from textual.drivers.linux_driver import LinuxDriver


class PatientDriver(LinuxDriver):
    """Leaves pictures out while the terminal is stalled, instead of waiting for it.

    Textual's own driver waits for room in its queue, and with it everything waits: what is
    typed meanwhile would be read, but recorded only when the terminal comes back, or never.
    """

    behind = False
    """Whether pictures were left out, so that the whole screen is to be drawn again."""

    def write(self, data: str) -> None:
        """Queue output for the terminal, or leave it out."""
        if self._writer_thread is not None and self._writer_thread._queue.full():
            self.behind = True
        else:
            super().write(data)

    def caught_up(self) -> bool:
        """Whether the terminal takes output again after some was left out; told once."""
        thread = self._writer_thread
        if not self.behind or thread is None or not thread._queue.empty():
            return False
        self.behind = False
        return True
