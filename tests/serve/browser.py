"""Debian's Chromium without a window, told what to do over its DevTools protocol."""

from __future__ import annotations

import asyncio
import base64
import contextlib
import itertools
import os
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import aiohttp

PATIENCE_S = 20.0
GRACE_S = 2.0
NAMES = ("chromium", "chromium-browser", "google-chrome")
QUIET = (
    "--headless",
    "--no-sandbox",  # it runs as root where the tests do
    "--disable-3d-apis",  # drawn by the processor they only cost
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-breakpad",
    "--disable-component-update",
    "--disable-extensions",
    "--disable-sync",
    "--no-first-run",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",  # no network but this machine
    "--window-size=1000,640",
    "--remote-debugging-port=0",
)
COPY = """(() => {
  const copied = new DataTransfer();
  const event = new ClipboardEvent("copy", {clipboardData: copied, bubbles: true});
  document.querySelector(".xterm-helper-textarea").dispatchEvent(event);
  return copied.getData("text/plain");
})()"""


def executable() -> str | None:
    """The browser of this machine."""
    return next(filter(None, map(shutil.which, NAMES)), None)


class Tab:
    """One page of the browser."""

    def __init__(self, socket: aiohttp.ClientWebSocketResponse) -> None:
        self._socket = socket
        self._numbers = itertools.count(1)
        self.requested: list[str] = []

    async def call(self, method: str, **params: object) -> dict[str, Any]:
        """One command of the protocol, and its answer."""
        number = next(self._numbers)
        await self._socket.send_json({"id": number, "method": method, "params": params})
        while True:
            answer = await self._socket.receive_json(timeout=PATIENCE_S)
            if answer.get("method") == "Network.requestWillBeSent":
                self.requested.append(answer["params"]["request"]["url"])
            if answer.get("id") == number:
                assert "error" not in answer, answer
                return dict(answer["result"])

    async def js(self, expression: str) -> Any:
        """What an expression comes to in the page."""
        answer = await self.call("Runtime.evaluate", expression=expression, returnByValue=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    async def open(self, url: str) -> None:
        await self.call("Network.enable")
        await self.call("Page.navigate", url=url)

    async def type(self, text: str) -> None:
        """Keys, one by one, as a scale types them; a line feed is Enter."""
        for sign in text:
            key = {"key": "Enter", "text": "\r", "windowsVirtualKeyCode": 13}
            if sign != "\n":
                key = {"key": sign, "text": sign}
            await self.call("Input.dispatchKeyEvent", type="keyDown", **key)
            await self.call("Input.dispatchKeyEvent", type="keyUp", key=key["key"])

    async def press(self, key: str, code: int) -> None:
        """A key that is no sign, as F7."""
        for way in ("rawKeyDown", "keyUp"):
            await self.call(
                "Input.dispatchKeyEvent", type=way, key=key, code=key, windowsVirtualKeyCode=code
            )

    async def text(self) -> str:
        """What the terminal on the page shows: marked from corner to corner, and copied."""
        box = await self.js(
            "document.querySelector('.xterm-screen')?.getBoundingClientRect().toJSON()"
        )
        if not box or not box["width"]:
            return ""
        for kind, x, y in (
            ("mousePressed", box["left"] + 1, box["top"] + 1),
            ("mouseMoved", box["right"] - 1, box["bottom"] - 1),
            ("mouseReleased", box["right"] - 1, box["bottom"] - 1),
        ):
            await self.call(
                "Input.dispatchMouseEvent",
                type=kind, x=x, y=y, button="left", buttons=1, clickCount=1,
            )  # fmt: skip
        return str(await self.js(COPY))

    async def shows(self, wanted: Callable[[str], bool] | str) -> str:
        """The terminal's text once it is as wanted, or holds what is wanted."""
        return await self._until(self.text, wanted)

    async def says(self, wanted: str) -> str:
        """The page's own text in sight, once it holds what is wanted."""
        return await self._until(lambda: self.js("document.body.innerText"), wanted)

    async def picture(self, file: Path) -> None:
        answer = await self.call("Page.captureScreenshot")
        file.write_bytes(base64.b64decode(answer["data"]))

    async def _until(self, look: Callable[[], Any], wanted: Callable[[str], bool] | str) -> str:
        end = time.monotonic() + PATIENCE_S
        seen = ""
        while time.monotonic() < end:
            seen = await look() or ""
            if wanted in seen if isinstance(wanted, str) else wanted(seen):
                return seen
            await asyncio.sleep(0.2)
        raise AssertionError(f"waited for {wanted}; seen:\n{seen}")


@asynccontextmanager
async def browser() -> AsyncIterator[Tab]:
    """A browser with one empty page; what it writes is in a folder that is gone at the end."""
    program = executable()
    assert program is not None, "there is no Chromium here"
    # Not below a test's own folder: a path over 107 bytes is too long for the browser's socket.
    with tempfile.TemporaryDirectory(prefix="bb-", ignore_cleanup_errors=True) as home:
        profile = Path(home) / "profile"
        child = subprocess.Popen(
            [program, *QUIET, f"--user-data-dir={profile}", "about:blank"],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env={"PATH": os.environ["PATH"], "HOME": home, "TMPDIR": home},
            start_new_session=True,
        )
        try:
            async with _page(await _port(profile / "DevToolsActivePort")) as tab:
                yield tab
        finally:
            await asyncio.to_thread(_end, child)


@asynccontextmanager
async def _page(port: int) -> AsyncIterator[Tab]:
    async with aiohttp.ClientSession() as session:
        async with session.get(f"http://127.0.0.1:{port}/json/list") as answer:
            pages = [page for page in await answer.json() if page["type"] == "page"]
        address = pages[0]["webSocketDebuggerUrl"]
        async with session.ws_connect(address, max_msg_size=0) as socket:
            yield Tab(socket)


def _end(child: subprocess.Popen[bytes]) -> None:
    """End the browser and all that it started; there is nothing it should keep."""
    with contextlib.suppress(ProcessLookupError):
        os.killpg(child.pid, signal.SIGKILL)
    child.wait()
    end = time.monotonic() + GRACE_S
    with contextlib.suppress(ProcessLookupError):
        while time.monotonic() < end:
            os.killpg(child.pid, 0)
            time.sleep(0.02)


async def _port(file: Path) -> int:
    """Where the browser listens, which it writes into a file when it does."""
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
        if file.exists() and (lines := file.read_text().splitlines()):
            return int(lines[0])
        await asyncio.sleep(0.05)
    raise AssertionError("the browser did not start")
