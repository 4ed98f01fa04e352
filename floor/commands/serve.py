"""`serve`: the floor in a browser on this machine."""

from __future__ import annotations

import argparse
import gc
import os
from importlib import import_module
from types import ModuleType

from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.setting import setting
from floor.serve.door import token_for
from floor.serve.listening import Listening, listening, number

MOST_SESSIONS = 64
TERMINAL = "web"


def run(args: argparse.Namespace) -> int:
    """Serve until somebody ends it; Ctrl-C is an ordinary end."""
    place = listening(args.address, args.port)
    sessions = number("--sessions", args.sessions, 1, MOST_SESSIONS)
    given = os.environ.get("BUNCHBOOK_TOKEN") if args.token is None else args.token
    token = token_for(given or None, at_home=place.at_home)
    server = _server()
    if args.demo:
        out.message(say("setting up the demo house ..."))
    with setting(args) as found:
        found.recording()  # says now what every session would find wrong with the data folder
        gc.enable()
        served = server.Served(found, args.terminal or TERMINAL, sessions, args.lang)
        server.serve(served, place, token, lambda at: _told(at, token))
    return 0


def _server() -> ModuleType:
    """The room that needs the web library, which is installed only where it is wanted."""
    try:
        return import_module("floor.serve.server")
    except ModuleNotFoundError as missing:
        if missing.name is None or missing.name.partition(".")[0] in ("core", "floor", "demo"):
            raise
        raise BadInput(
            say(
                "serve needs a library that is not installed, {name}; install it with:"
                ' pip install "bunchbook[serve]"',
                name=missing.name,
            )
        ) from None


def _told(at: Listening, token: str | None) -> None:
    out.result(at.url("" if token is None else f"?token={token}"))
    if at.at_home:
        out.message(say("the floor is served at this address, on this machine; Ctrl-C ends it"))
    else:
        out.message(
            say(
                "the floor is served at this address, unencrypted: whoever has the token enters it;"
                " Ctrl-C ends it"
            )
        )
