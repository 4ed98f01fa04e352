"""What is served beside the floor itself, and to whom."""

from __future__ import annotations

import asyncio
import re
from collections.abc import AsyncIterator
from pathlib import Path

import aiohttp
import pytest

from floor.commands import out
from floor.serve.assets import OUR_FONT, assets
from floor.serve.door import Door
from floor.serve.listening import Listening
from floor.serve.place import Place
from floor.serve.server import FloorServer, Served

TOKEN = "carretera-4711-norte"
OUTSIDE = re.compile(r"\b(?:https?|wss?|ftp):\s*\\?/\\?/|[\"'(=]\s*//|\burl\(\s*[\"']?(?!data:)")
"""An address with a host in it, or one that borrows the page's `http:`, or a style's picture."""


def server(data: Path, door: Door) -> FloorServer:
    setting = Place(str(data), "web", None, None, 0, None, "en").setting()
    return FloorServer(Served(setting, "web", 2), door)


async def serve(server: FloorServer, place: Listening) -> AsyncIterator[str]:
    stop = asyncio.Event()
    found: asyncio.Future[Listening] = asyncio.get_running_loop().create_future()
    running = asyncio.create_task(server.run(place, stop, found.set_result))
    yield (await found).url().rstrip("/")
    stop.set()
    await running


@pytest.fixture
async def home(tmp_path: Path) -> AsyncIterator[str]:
    """Served to this machine."""
    place = Listening("127.0.0.1", 0)
    async for url in serve(server(tmp_path, Door(place.hosts, None)), place):
        yield url


@pytest.fixture
async def locked(tmp_path: Path) -> AsyncIterator[str]:
    """Served to whoever has the token."""
    place = Listening("127.0.0.1", 0)
    async for url in serve(server(tmp_path, Door(None, TOKEN)), place):
        yield url


async def get(url: str, **headers: str) -> tuple[int, str]:
    async with aiohttp.ClientSession() as session, session.get(url, headers=headers) as answer:
        return answer.status, await answer.text()


async def test_no_address_elsewhere_is_in_anything_served(home: str) -> None:
    status, page = await get(home)
    assert status == 200
    linked = re.findall(r'(?:src|href)="([^"]*)"', page)
    assert sorted(linked) == sorted(["data:,", *(f"/static/{name}" for name in assets())])
    for text in (page, *[(await get(home + link))[1] for link in linked if link[0] == "/"]):
        assert len(text) > 500
        assert not OUTSIDE.search(text), OUTSIDE.search(text)


def test_an_outside_address_would_be_found() -> None:
    for text in (
        'href="https://fonts.example/css"', "fetch('//cdn.example/a.js')", "wss://x.example",
        "@import url(fonts.css)", r'"https:\/\/x.example"', "/* http://x.example */",
    ):  # fmt: skip
        assert OUTSIDE.search(text), text


async def test_the_browser_itself_is_told_to_load_nothing_from_elsewhere(home: str) -> None:
    async with aiohttp.ClientSession() as session, session.get(home) as answer:
        policy = answer.headers["Content-Security-Policy"]
        assert "default-src 'self'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "Set-Cookie" not in answer.headers


def test_the_terminal_is_drawn_in_a_font_of_this_machine() -> None:
    """The library takes no font as a setting: it would have to be found elsewhere in it anew."""
    assert OUR_FONT in assets()["terminal.js"].text
    assert "Roboto" not in assets()["terminal.js"].text


async def test_there_is_nothing_else_to_be_had(home: str) -> None:
    for path in (
        "/static/",
        "/static/..%2fserver.py",
        "/static/js",
        "/x",
        "/download/x",
    ):
        assert (await get(home + path))[0] == 404, path


@pytest.mark.parametrize("path", ["/", "/static/terminal.js", "/ws/a1", "/download/x", "/nowhere"])
async def test_a_rebound_name_gets_a_sentence_and_nothing_of_the_floor(
    home: str, path: str
) -> None:
    status, text = await get(home + path, Host="rebound.example")
    assert status == 403
    assert text.startswith('This floor is not served as "rebound.example".')


@pytest.mark.parametrize("path", ["/", "/ws/a1", "/static/page.js"])
async def test_another_page_gets_a_sentence(home: str, path: str) -> None:
    status, text = await get(home + path, Origin="http://elsewhere.example")
    assert status == 403
    assert text.startswith("Another page asked for this floor.")


async def test_another_page_cannot_type(home: str) -> None:
    async with aiohttp.ClientSession() as session:
        for headers in ({"Origin": "http://elsewhere.example"}, {}):
            with pytest.raises(aiohttp.WSServerHandshakeError) as refused:
                await session.ws_connect(f"{home}/ws/a1", headers=headers)
            assert refused.value.status == 403


@pytest.mark.parametrize("path", ["/", "/static/terminal.js", "/ws/a1", "/download/x", "/nowhere"])
@pytest.mark.parametrize("query", ["", "?token=", "?token=carretera-4711-sur"])
async def test_without_the_token_there_is_nothing(locked: str, path: str, query: str) -> None:
    status, text = await get(locked + path + query, Origin=locked)
    assert status == 403
    assert text.startswith("This floor asks for its token.")


async def test_the_token_is_asked_for_once_and_then_out_of_sight(locked: str) -> None:
    jar = aiohttp.CookieJar(unsafe=True)  # the jar's word for cookies of an IP address
    async with aiohttp.ClientSession(cookie_jar=jar) as session:
        async with session.get(f"{locked}/?token={TOKEN}&fontsize=20") as page:
            assert page.status == 200
            assert str(page.url) == f"{locked}/?fontsize=20"
            assert 'data-font-size="20"' in await page.text()
            cookie = page.history[0].headers["Set-Cookie"]
        assert "HttpOnly" in cookie
        assert "SameSite=Strict" in cookie
        async with session.get(f"{locked}/static/page.js") as script:
            assert script.status == 200
        with pytest.raises(aiohttp.WSServerHandshakeError):  # the cookie alone lets no page type
            await session.ws_connect(f"{locked}/ws/a1", headers={"Origin": "http://x.example"})


@pytest.mark.parametrize(
    ("asked", "given"), [("", 16), ("20", 20), ("2", 8), ("99", 40), ("1e9", 16), ("'><b>", 16)]
)
async def test_letters_may_be_larger(home: str, asked: str, given: int) -> None:
    _, page = await get(f"{home}/?fontsize={asked}")
    assert f'data-font-size="{given}"' in page


async def test_the_page_speaks_the_language_asked_for(
    home: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(out, "language", lambda: "es")
    monkeypatch.setattr(out, "tell", lambda text: f"¡{text}!")
    _, page = await get(home)
    assert '<html lang="es">' in page
    assert "<title>¡bunchbook: the floor!</title>" in page
    _, refusal = await get(home, Host="rebound.example")
    assert refusal.startswith("¡This floor is not served as")
