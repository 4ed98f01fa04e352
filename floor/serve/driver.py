"""The floor's driver in a browser session: the library's, made patient and without a mouse."""

from __future__ import annotations

import asyncio
from functools import partial
from typing import Any

from textual import messages
from textual.app import App
from textual.drivers.web_driver import WebDriver

from floor.serve.outlet import Outlet


class BrowserDriver(WebDriver):
    """Leaves pictures out while the browser is stalled, and ends when the server is gone.

    The library's own waits until its output is taken, and what is typed meanwhile with it. It
    also takes the mouse, with which a browser's user would rather mark text.
    """

    def __init__(
        self,
        app: App[Any],
        *,
        debug: bool = False,
        mouse: bool = True,
        size: tuple[int, int] | None = None,
    ) -> None:
        super().__init__(app, debug=debug, mouse=mouse, size=size)
        self._outlet = Outlet(self.fileno, self._drained)
        self._write = partial(self._outlet.put)
        self._behind = False

    def start_application_mode(self) -> None:
        self._outlet.start()
        super().start_application_mode()
        self._disable_mouse_support()

    def stop_application_mode(self) -> None:
        super().stop_application_mode()
        self._outlet.finish()

    def write(self, data: str) -> None:
        """Queue a picture, or leave it out."""
        if self._outlet.stalled:
            self._behind = True
        else:
            super().write(data)

    def run_input_thread(self) -> None:
        super().run_input_thread()
        if not self.exit_event.is_set():
            asyncio.run_coroutine_threadsafe(
                self._app._post_message(messages.ExitApp()), self._loop
            )

    def _drained(self) -> None:
        if self._behind and not self.exit_event.is_set():
            self._behind = False
            self._loop.call_soon_threadsafe(self._app.call_later, self._draw_all)

    def _draw_all(self) -> None:
        self._app.screen.refresh()
