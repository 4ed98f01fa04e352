"""`bunchbook serve` as a process of its own, and a page's side of the talk with it."""

from __future__ import annotations

import asyncio
import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import aiohttp

PATIENCE_S = 20.0
ENDS = (aiohttp.WSMsgType.CLOSE, aiohttp.WSMsgType.CLOSING, aiohttp.WSMsgType.CLOSED)
CODES = re.compile(r"\x1b(?:\[[0-9;?$<>=]*[a-zA-Z]|\][^\x07]*\x07|.)")


class Serving(NamedTuple):
    """A server that runs, and where its page is."""

    process: subprocess.Popen[str]
    url: str

    @property
    def origin(self) -> str:
        return self.url.partition("?")[0].rstrip("/")

    def socket(self, tab: str = "a1") -> str:
        return f"{self.origin}/ws/{tab}?width=100&height=30"

    def end(self, number: int = signal.SIGINT) -> int:
        """End it by a signal; its exit code."""
        self.process.send_signal(number)
        return self.process.wait(PATIENCE_S)


@contextmanager
def serving(data: Path, *words: str) -> Iterator[Serving]:
    """Serve a data folder at any free port; what is still there at the end is ended."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("BUNCHBOOK", "NO_COLOR"))}
    process = subprocess.Popen(
        [sys.executable, "-m", "floor.main", "serve", "--port", "0", "--data", str(data), *words],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=kept,
        start_new_session=True,
    )
    assert process.stdout is not None
    try:
        url = process.stdout.readline().strip()
        if not url:
            process.wait(PATIENCE_S)
            raise AssertionError(process.communicate()[1])
        yield Serving(process, url)
    finally:
        process.terminate()
        try:
            process.communicate(timeout=PATIENCE_S)
        finally:
            process.kill()


def floors(data: Path) -> list[int]:
    """The processes of the sessions that work on a data folder."""
    found = []
    for line in Path("/proc").glob("[0-9]*/cmdline"):
        try:
            words = line.read_bytes().decode(errors="replace")
        except OSError:  # it ended meanwhile
            continue
        if "floor.serve.session" in words and str(data) in words:
            found.append(int(line.parent.name))
    return found


def wait_until_no_floor(data: Path) -> None:
    end = time.monotonic() + PATIENCE_S
    while floors(data):
        assert time.monotonic() < end, "a floor outlived its browser"
        time.sleep(0.05)


async def drawn(socket: aiohttp.ClientWebSocketResponse, wanted: str) -> str:
    """What the floor draws, as text, until it holds what is wanted."""
    text = ""
    try:
        async with asyncio.timeout(PATIENCE_S):
            while wanted not in text:
                message = await socket.receive()
                if message.type is aiohttp.WSMsgType.BINARY:
                    text += CODES.sub("", message.data.decode())
                else:
                    assert message.type is aiohttp.WSMsgType.TEXT, (message, text)
    except TimeoutError:
        raise AssertionError(f"waited for {wanted}; drawn:\n{text}") from None
    return text


async def types(socket: aiohttp.ClientWebSocketResponse, keys: str) -> None:
    await socket.send_json(["stdin", keys])


async def said(socket: aiohttp.ClientWebSocketResponse) -> str:
    """The sentence with which the server ends the session."""
    sentence = ""
    while True:
        message = await socket.receive(PATIENCE_S)
        if message.type in ENDS:
            return sentence
        if message.type is aiohttp.WSMsgType.TEXT:
            kind, value, *_ = json.loads(message.data)
            sentence = sentence or (str(value) if kind == "said" else "")
