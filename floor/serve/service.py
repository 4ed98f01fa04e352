"""The server's side of one session: its process, and that it ends with the browser's tab."""

from __future__ import annotations

import asyncio
import contextlib
import json
from asyncio.subprocess import PIPE, Process

from aiohttp import web
from textual_serve.app_service import AppService
from textual_serve.download_manager import DownloadManager

from core.say import say
from floor.commands import out
from floor.serve.packets import SAID
from floor.serve.place import Place

DRIVER = "floor.serve.driver:BrowserDriver"
KEPT_BACK = ("BUNCHBOOK_TOKEN", "BUNCHBOOK_PIN")
MOST_CELLS = 500
"""Of a floor's width and height: more than any screen shows, and soon drawn."""
GRACE_S = 3.0
"""A floor that is told to end gets so long before it is ended."""


class FloorService(AppService):
    """A floor in a process of its own, its pictures sent to a browser's socket."""

    def __init__(
        self, place: Place, socket: web.WebSocketResponse, downloads: DownloadManager
    ) -> None:
        self._place = place
        self._socket = socket
        self._ending = False
        super().__init__(
            place.terminal,
            write_bytes=socket.send_bytes,
            write_str=socket.send_str,
            close=self._close,
            download_manager=downloads,
        )

    async def run(self) -> None:
        """Pass on what the floor draws until its process ends, by whomever it was ended."""
        await super().run()
        if not self._ending:
            await tell(self._socket, say("The floor has ended. What it acknowledged is recorded."))
            await self._close()

    async def set_terminal_size(self, width: int, height: int) -> None:
        """Draw it as large as the page is, or as large as a page can be."""
        await super().set_terminal_size(within(int(width)), within(int(height)))

    async def stop(self) -> None:
        """Have the floor end, and see that it does."""
        self._ending = True
        with contextlib.suppress(TimeoutError):
            async with asyncio.timeout(GRACE_S):
                await super().stop()
        if self._process is not None:
            await _ended(self._process)

    async def on_meta(self, data: bytes) -> None:
        """A sentence goes to the page; the rest is the library's."""
        values = json.loads(data)
        if values["type"] == SAID:
            await tell(self._socket, values["text"])
        else:
            await super().on_meta(data)

    async def _close(self) -> None:
        with contextlib.suppress(ConnectionError):
            await self._socket.close()

    async def _open_app_process(self, width: int = 80, height: int = 24) -> Process:
        # Of a session of its own: Ctrl-C at the server is the server's, which ends its floors.
        self._process = await asyncio.create_subprocess_exec(
            *self._place.command(),
            stdin=PIPE,
            stdout=PIPE,
            stderr=PIPE,
            env=self._build_environment(width, height),
            start_new_session=True,
        )
        self._stdin = self._process.stdin
        return self._process

    def _build_environment(self, width: int = 80, height: int = 24) -> dict[str, str]:
        usual = super()._build_environment(width, height)
        kept = {name: value for name, value in usual.items() if name not in KEPT_BACK}
        return {**kept, "TEXTUAL_DRIVER": DRIVER}


def within(cells: int) -> int:
    """Columns or rows as a floor can have them."""
    return min(max(cells, 1), MOST_CELLS)


async def tell(socket: web.WebSocketResponse, sentence: str) -> None:
    """Have the page say it, unless the browser has gone; the page keeps to what it heard first."""
    with contextlib.suppress(ConnectionError, RuntimeError):
        await socket.send_json([SAID, out.tell(sentence)])


async def _ended(process: Process) -> None:
    """Wait for the process, then ask the system to end it, at last make it."""
    for end in (process.terminate, process.kill, None):
        with contextlib.suppress(TimeoutError):
            async with asyncio.timeout(GRACE_S):
                await process.wait()
                return
        if end is not None:
            with contextlib.suppress(ProcessLookupError):
                end()
