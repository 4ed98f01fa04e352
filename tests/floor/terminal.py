"""A program on a real pseudo-terminal, its screen read as text."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from types import TracebackType

import pyte
from pyte.screens import Char

PATIENCE_S = 20.0
UNKNOWN_TO_PYTE = re.compile(rb"\x1b\[(?:[<>][\d;]*u|\?[\d;]*\$p)")
UNFINISHED = re.compile(rb"\x1b(?:\[[<>?=]?[\d;$]*)?$")
MODEST = {"PATH", "HOME", "LANG", "PYTHONPATH", "VIRTUAL_ENV"}


class Terminal:
    """A child process whose terminal this is. It is drained whenever it is written or read."""

    def __init__(
        self, argv: list[str], env: Mapping[str, str], size: tuple[int, int] = (80, 24)
    ) -> None:
        width, height = size
        self._master, slave = pty.openpty()
        _set_size(slave, width, height)
        kept = {name: value for name, value in os.environ.items() if name in MODEST}
        self.child = subprocess.Popen(
            [sys.executable, *argv],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            env={**kept, **env},
            start_new_session=True,
            preexec_fn=_take_terminal,  # noqa: PLW1509  (no thread here holds a lock it needs)
        )
        os.close(slave)
        os.set_blocking(self._master, False)
        self.sent = bytearray()
        self._held_back = b""
        self._screen = pyte.Screen(width, height)
        self._stream = pyte.ByteStream(self._screen)

    def __enter__(self) -> Terminal:
        return self

    def __exit__(
        self,
        _kind: type[BaseException] | None,
        _error: BaseException | None,
        _trace: TracebackType | None,
    ) -> None:
        if self.child.poll() is None:
            self.child.kill()
        self.child.wait()
        self.hang_up()

    def hang_up(self) -> None:
        """Close the terminal, as when its window is closed."""
        if self._master >= 0:
            os.close(self._master)
            self._master = -1

    # -- what it shows ------------------------------------------------------------------------

    @property
    def rows(self) -> list[str]:
        return [row.rstrip() for row in self._screen.display]

    @property
    def text(self) -> str:
        return "\n".join(self.rows)

    def cell(self, x: int, y: int) -> Char:
        """The sign at that place, with its looks."""
        return self._screen.buffer[y][x]

    def shown(self, text: str) -> list[Char]:
        """The cells of the text where it first stands on the screen, with their looks."""
        y = next((y for y, row in enumerate(self._screen.display) if text in row), None)
        assert y is not None, f"no {text!r} on\n{self.text}"
        x = self._screen.display[y].index(text)
        return [self._screen.buffer[y][x + i] for i in range(len(text))]

    @property
    def colours(self) -> set[str]:
        """The colours on the screen, before and behind signs."""
        cells = [cell for row in self._screen.buffer.values() for cell in row.values()]
        return {cell.fg for cell in cells} | {cell.bg for cell in cells}

    def clear(self) -> None:
        """Wipe the screen as if something else had written over it."""
        self._screen.reset()

    def resize(self, width: int, height: int) -> None:
        """Give the window another size; the program is told as by any terminal."""
        self._screen.resize(height, width)
        _set_size(self._master, width, height)

    def drain(self, wait_s: float = 0.05) -> bool:
        """Take in what the program has drawn; False once there is no more to come."""
        ready, _, _ = select.select([self._master], [], [], wait_s)
        if not ready:
            return True
        try:
            data = os.read(self._master, 65536)
        except BlockingIOError:
            return True
        except OSError:
            return False
        self.sent += data
        data = self._held_back + data
        tail = UNFINISHED.search(data)
        cut = tail.start() if tail else len(data)
        self._held_back = data[cut:]
        self._stream.feed(UNKNOWN_TO_PYTE.sub(b"", data[:cut]))
        return bool(data)

    def wait_for(self, wanted: str | Callable[[], bool], patience_s: float = PATIENCE_S) -> None:
        """Wait until the text is on the screen, or the condition holds."""
        until = time.monotonic() + patience_s
        while not self._there(wanted):
            assert time.monotonic() < until, f"waited for {wanted!r}; the screen is\n{self.text}"
            if not self.drain() and not self._there(wanted):
                raise AssertionError(f"the program ended before {wanted!r}:\n{self.text}")

    def _there(self, wanted: str | Callable[[], bool]) -> bool:
        return wanted in self.text if isinstance(wanted, str) else wanted()

    def wait_for_end(self, patience_s: float = PATIENCE_S) -> int:
        """Wait until the program has ended; its exit code."""
        until = time.monotonic() + patience_s
        while self.child.poll() is None:
            assert time.monotonic() < until, f"the program goes on:\n{self.text}"
            if self._master < 0 or not self.drain():
                time.sleep(0.01)
        return self.child.wait()

    # -- what is typed ------------------------------------------------------------------------

    def type(self, data: bytes | str) -> None:
        """Send the bytes at once, draining what comes back while they are taken."""
        rest = data.encode() if isinstance(data, str) else data
        while rest:
            _, writable, _ = select.select([], [self._master], [], 0.05)
            if writable:
                with suppress(BlockingIOError):
                    rest = rest[os.write(self._master, rest[:1024]) :]
            self.drain(0)

    def press(self, byte: int) -> None:
        """Send one byte a little after the last, and take nothing of what comes back."""
        time.sleep(0.002)
        os.write(self._master, bytes([byte]))

    def wait_undrained(self, holds: Callable[[], bool], patience_s: float = PATIENCE_S) -> None:
        """Wait for the condition while the program's output is left standing."""
        until = time.monotonic() + patience_s
        while not holds():
            assert time.monotonic() < until, "waited in vain while the terminal was stalled"
            time.sleep(0.01)

    def signal(self, number: signal.Signals) -> None:
        """Send the program a signal."""
        os.kill(self.child.pid, number)


def _set_size(terminal: int, width: int, height: int) -> None:
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", height, width, 0, 0))


def _take_terminal() -> None:
    """Make standard input the new session's own terminal, so that hanging it up is felt."""
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


@contextmanager
def opened(argv: list[str], size: tuple[int, int] = (80, 24), **env: str) -> Iterator[Terminal]:
    """A terminal of 80 by 24 that knows UTF-8 and 256 colours, unless `env` says otherwise."""
    usual = {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8"}
    with Terminal(argv, {**usual, **env}, size) as terminal:
        yield terminal
