"""Floors behind a page: each a process that lives as long as its browser stays."""

from __future__ import annotations

import json
import os
import signal
from pathlib import Path
from typing import Any

import aiohttp
import pytest

from floor.main import main
from tests.serve.serving import (
    Serving,
    drawn,
    floors,
    said,
    serving,
    types,
    wait_until_no_floor,
)

HOUSE = Path(__file__).parent.parent / "desk" / "house.toml"
AT = ("--at", "2026-05-04 09:15")


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("BUNCHBOOK_TOKEN", raising=False)
    folder = tmp_path / "data"
    assert main(["house", "load", str(HOUSE), "--data", str(folder), *AT]) == 0
    return folder


def day(data: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    capsys.readouterr()
    assert main(["day", "--json", "--data", str(data), *AT]) == 0
    return json.loads(capsys.readouterr().out)


def checks(data: Path, capsys: pytest.CaptureFixture[str], bench: str) -> int:
    found = [b["checks"] for b in day(data, capsys)["benches"] if str(b["bench"]) == bench]
    return int(found[0])


async def sit(session: aiohttp.ClientSession, at: Serving, tab: str) -> Any:
    return await session.ws_connect(at.socket(tab), headers={"Origin": at.origin})


async def test_a_reading_typed_as_the_server_is_ended_is_not_lost(
    data: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with serving(data, *AT) as at:
        async with aiohttp.ClientSession() as session:
            socket = await sit(session, at, "a1")
            await drawn(socket, "F10")
            await types(socket, "7 10.8 10.6 10.9\r")
            await drawn(socket, "saved, entry 1")
            at.process.send_signal(signal.SIGINT)
            assert await said(socket) == (
                "The floor is no longer served. What was acknowledged is recorded."
            )
        assert at.process.wait(20) == 0
        assert not floors(data)
    assert checks(data, capsys, "7") == 1


async def test_a_floor_ends_with_its_page_and_a_place_is_free_again(data: Path) -> None:
    with serving(data, *AT, "--sessions", "1", "--terminal", "hall") as at:
        async with aiohttp.ClientSession() as session:
            first = await sit(session, at, "a1")
            await drawn(first, "F10")
            second = await sit(session, at, "b2")
            assert (await said(second)).startswith("All 1 places at this floor are taken.")
            assert len(floors(data)) == 1
            await first.close()
            third = await sit(session, at, "c3")
            await drawn(third, "F10")
            await types(third, "7 10.8\r\x1b[18~")  # F7, the Log
            await drawn(third, "hall-2.")
            await types(third, "\x11")  # Ctrl+Q
            assert await said(third) == ""
        wait_until_no_floor(data)
        assert at.end(signal.SIGTERM) == 0


async def test_a_page_loaded_again_may_undo_what_it_typed(data: Path) -> None:
    with serving(data, *AT) as at:
        async with aiohttp.ClientSession() as session:
            first = await sit(session, at, "a1")
            await drawn(first, "F10")
            await types(first, "7 10.8 10.6 10.9\r")
            await drawn(first, "saved, entry 1")
            await first.close()
            again = await sit(session, at, "a1")
            await drawn(again, "F10")
            await types(again, "undo\r")
            await drawn(again, "saved, entry 2")
        assert at.end() == 0


async def test_floors_do_not_outlive_a_server_that_is_killed(data: Path) -> None:
    with serving(data, *AT) as at:
        async with aiohttp.ClientSession() as session:
            socket = await sit(session, at, "a1")
            await drawn(socket, "F10")
            at.end(signal.SIGKILL)
        wait_until_no_floor(data)


async def test_the_page_hears_of_a_floor_that_was_killed_and_of_rubbish(data: Path) -> None:
    with serving(data, *AT) as at:
        async with aiohttp.ClientSession() as session:
            socket = await sit(session, at, "a1")
            await drawn(socket, "F10")
            os.kill(floors(data)[0], signal.SIGKILL)
            assert await said(socket) == "The floor has ended. What it acknowledged is recorded."
            rude = await sit(session, at, "a1")
            await rude.send_str("no JSON")
            await said(rude)
            assert rude.close_code == aiohttp.WSCloseCode.UNSUPPORTED_DATA
        wait_until_no_floor(data)
        assert at.end() == 0


async def test_what_is_wrong_with_the_records_is_said_on_the_page(data: Path) -> None:
    with serving(data, *AT) as at:
        (data / "house.jsonl").rename(data / "away")
        (data / "house.jsonl").mkdir()
        async with aiohttp.ClientSession() as session:
            socket = await sit(session, at, "a1")
            assert str(data / "house.jsonl") in await said(socket)
        assert at.end() == 0


async def test_what_no_page_of_ours_sends_ends_that_session_alone_and_in_silence(
    data: Path,
) -> None:
    strange = ("[" * 5000, '["stdin",5]', '["resize",{"width":1e999,"height":24}]', '["stdin"]')
    with serving(data, *AT, "--sessions", "1") as at:
        async with aiohttp.ClientSession() as session:
            for number, text in enumerate(strange):
                socket = await sit(session, at, f"a{number}")
                await drawn(socket, "F10")
                await socket.send_str(text)
                assert not await said(socket)
                assert socket.close_code == aiohttp.WSCloseCode.UNSUPPORTED_DATA
            socket = await sit(session, at, "b1")
            await drawn(socket, "F10")
            await socket.send_str('["resize",{"width":9999,"height":-1}]')
            await socket.send_str('["resize",{"width":100,"height":30}]')
            await types(socket, "7 made 5\r")
            await drawn(socket, "saved, entry 1")
            async with session.get(f"{at.origin}/{'a' * 9000}") as answer:
                assert answer.status == 400
        assert at.end() == 0
        assert at.process.stderr is not None
        assert "Traceback" not in at.process.stderr.read()
