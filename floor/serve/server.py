"""The web server: the page, its files, and a floor for each browser that connects."""

from __future__ import annotations

import asyncio
import logging
import re
import secrets
import signal
from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING, Any, NamedTuple

import aiohttp_jinja2
import jinja2
from aiohttp import WSCloseCode, web
from aiohttp.http_exceptions import HttpProcessingError
from textual_serve.server import Server

from core.say import say
from floor.commands import out
from floor.commands.setting import Setting
from floor.serve.assets import PAGE, assets
from floor.serve.door import Asked, Door
from floor.serve.listening import Listening, refused
from floor.serve.place import place_of
from floor.serve.seats import Seat, Seats
from floor.serve.service import FloorService, tell, within
from floor.serve.words import PageWords

if TYPE_CHECKING:
    from core.house.model import Language

Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]

HEARTBEAT_S = 15.0
"""A browser that does not answer within half of it has gone."""

CLOSING_S = 2.0
SEAT_PATIENCE_S = 3.0
"""A page loaded again comes before its floor of before has quite ended."""

NO_PAGES_WAY = (
    ArithmeticError, AssertionError, AttributeError, LookupError, RecursionError, TypeError,
    ValueError,
)  # fmt: skip
"""What comes of a message that none of our pages sends."""

FONT_SIZES = range(8, 41)
SAFE_TAB = re.compile(r"[0-9a-z]{1,40}")
SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)
HEADERS = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data:;"
    " style-src 'self' 'unsafe-inline'; frame-ancestors 'none'; base-uri 'none';"
    " form-action 'none'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
}


class Served(NamedTuple):
    """The floors behind the page: `sessions` of them at once, at terminals `base`-1 and so on.

    They speak `language`, None for the house's.
    """

    setting: Setting
    base: str
    sessions: int
    language: Language | None = None


class FloorServer(Server):
    """The library's server with a door, and a limit on how many come in."""

    def __init__(self, served: Served, door: Door) -> None:
        super().__init__("bunchbook", templates_path=PAGE)
        self.seats = Seats(served.sessions, served.base, secrets.token_hex(2))
        self.door = door
        self._served = served
        self._assets = assets()
        self._sockets: set[web.WebSocketResponse] = set()

    @property
    def cookie(self) -> str:
        """The name under which a browser keeps the token: they know no ports."""
        return f"bunchbook-{self.port}"

    async def _make_app(self) -> web.Application:
        app = web.Application(middlewares=[self._guard])
        aiohttp_jinja2.setup(app, loader=jinja2.FileSystemLoader(PAGE))
        app.add_routes(
            [
                web.get("/", self.handle_index),
                web.get("/ws/{tab}", self.handle_websocket),
                web.get("/download/{key}", self.handle_download),
                web.get("/static/{name}", self._asset),
            ]
        )
        app.on_response_prepare.append(_with_headers)
        app.on_shutdown.append(self.on_shutdown)
        return app

    @web.middleware
    async def _guard(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Turn away whoever may not come in, before anything is looked at."""
        in_address = request.query.get("token")
        asked = Asked(
            request.headers.get("Host", ""),
            request.headers.get("Origin"),
            in_address or request.cookies.get(self.cookie, ""),
            types=request.path.startswith("/ws"),
        )
        if (why := self.door.refuses(asked)) is not None:
            return web.Response(status=403, text=out.tell(why) + "\n")
        if in_address is None or self.door.token is None or request.path != "/":
            return await handler(request)
        # From here on as a cookie: an address is seen, kept and handed on.
        response = web.Response(status=303, headers={"Location": _without_token(request)})
        response.set_cookie(self.cookie, in_address, httponly=True, samesite="Strict")
        return response

    async def _asset(self, request: web.Request) -> web.Response:
        asset = self._assets.get(request.match_info["name"])
        if asset is None:
            raise web.HTTPNotFound
        return web.Response(text=asset.text, content_type=asset.content_type)

    @aiohttp_jinja2.template("index.html")
    async def handle_index(self, request: web.Request) -> dict[str, Any]:
        """The page."""
        asked = request.query.get("fontsize", "")
        size = int(asked) if asked.isdecimal() and len(asked) < 3 else 16
        fit = min(max(size, FONT_SIZES[0]), FONT_SIZES[-1])
        words = PageWords(*map(out.tell, PageWords()))
        return {"words": words, "language": out.language(), "font_size": fit}

    async def handle_websocket(self, request: web.Request) -> web.WebSocketResponse:
        """One floor, for as long as the browser stays."""
        tab = request.match_info["tab"]
        if not SAFE_TAB.fullmatch(tab):
            raise web.HTTPNotFound
        socket = web.WebSocketResponse(timeout=CLOSING_S, heartbeat=HEARTBEAT_S)
        await socket.prepare(request)
        self._sockets.add(socket)
        seat: Seat | None = None
        try:
            seat = await self.seats.take(tab, SEAT_PATIENCE_S)
            if seat is None:
                await tell(
                    socket,
                    say(
                        "All {n} places at this floor are taken. Close one of its pages, or serve"
                        " more with --sessions.",
                        n=self.seats.most,
                    ),
                )
                await socket.close()
            else:
                await self._floor(socket, request, seat)
        finally:
            self._sockets.discard(socket)
            if seat is not None:
                await self.seats.leave(seat)
        return socket

    async def _floor(self, socket: web.WebSocketResponse, request: web.Request, seat: Seat) -> None:
        place = place_of(self._served.setting, seat.terminal, self._served.language)
        service = FloorService(place, socket, self.download_manager)
        try:
            await service.start(_cells(request, "width", 80), _cells(request, "height", 24))
            await self._process_messages(socket, service)
        except OSError as error:
            why = error.strerror or type(error).__name__
            await tell(socket, say("the system refused: {why}", why=why))
        except NO_PAGES_WAY:
            await socket.close(code=WSCloseCode.UNSUPPORTED_DATA)  # no page of ours writes so
        finally:
            await service.stop()

    async def on_shutdown(self, app: web.Application) -> None:
        """End every floor, all at once."""
        await asyncio.gather(*map(_dismiss, self._sockets))

    async def run(
        self, place: Listening, stop: asyncio.Event, opened: Callable[[Listening], None]
    ) -> None:
        """Serve until `stop`, then end every floor. Raises BadInput where it cannot listen.

        `opened` is told where it listens, the port found where any was asked for.
        """
        runner = web.AppRunner(await self._make_app(), access_log=None, shutdown_timeout=CLOSING_S)
        await runner.setup()
        try:
            try:
                await web.TCPSite(runner, place.address, place.port).start()
            except OSError as error:
                raise refused(place, error) from None
            found = place._replace(port=runner.addresses[0][1])
            self.port = found.port
            if self.door.hosts is not None:
                self.door = self.door._replace(hosts=found.hosts)
            opened(found)
            await stop.wait()
        finally:
            await runner.cleanup()


def serve(
    served: Served, place: Listening, token: str | None, opened: Callable[[Listening], None]
) -> None:
    """Serve until the system says to stop. Raises BadInput where it cannot listen."""

    async def until_told() -> None:
        stop = asyncio.Event()
        for number in SIGNALS:
            asyncio.get_running_loop().add_signal_handler(number, stop.set)
        door = Door(place.hosts if place.at_home else None, token)
        await FloorServer(served, door).run(place, stop, opened)

    logging.getLogger("aiohttp.server").addFilter(_is_ours)
    asyncio.run(until_told())


def _is_ours(record: logging.LogRecord) -> bool:
    """Whether it is no mere answer to what no browser sends: that one has been given already."""
    return record.exc_info is None or not isinstance(record.exc_info[1], HttpProcessingError)


async def _with_headers(_request: web.Request, response: web.StreamResponse) -> None:
    response.headers.update(HEADERS)


async def _dismiss(socket: web.WebSocketResponse) -> None:
    await tell(socket, say("The floor is no longer served. What was acknowledged is recorded."))
    await socket.close(code=WSCloseCode.GOING_AWAY)


def _without_token(request: web.Request) -> str:
    query = {name: value for name, value in request.query.items() if name != "token"}
    return str(request.rel_url.with_query(query))


def _cells(request: web.Request, name: str, usual: int) -> int:
    text = request.query.get(name, "")
    return within(int(text)) if text.isdecimal() and 0 < len(text) < 5 else usual
