"""Who may come in: a browser that calls us by our own name, from our own page, with the token.

A page elsewhere, opened in the same browser, can send requests here too and, by pointing a name
of its own at this machine, even read the answers. It cannot choose what the browser writes into
`Host` and `Origin`, so these are held against our own.
"""

from __future__ import annotations

import hmac
import secrets
from typing import NamedTuple

from core.problems import BadInput
from core.say import Said, say

SHORTEST_TOKEN = 12


class Asked(NamedTuple):
    """What a request says of itself. `types` where it would type into a floor."""

    host: str
    origin: str | None
    token: str
    types: bool = False


class Door(NamedTuple):
    """`hosts` are the names we go by, None for any: then the token keeps strangers out."""

    hosts: frozenset[str] | None
    token: str | None

    def refuses(self, asked: Asked) -> Said | None:
        """Why the request is turned away; None lets it in."""
        if self.hosts is not None and asked.host.lower() not in self.hosts:
            return say(
                'This floor is not served as "{host}". Open it by the address that'
                " `bunchbook serve` printed.",
                host=asked.host,
            )
        if not _from_here(asked):
            return say("Another page asked for this floor. Open it in a window of its own.")
        if self.token is not None and not _same(asked.token, self.token):
            return say(
                "This floor asks for its token. Open it by the address that `bunchbook serve`"
                " printed, with the token at its end."
            )
        return None


def token_for(given: str | None, *, at_home: bool) -> str | None:
    """The token given, or where others can reach us one made up; BadInput for a weak one."""
    if given is None:
        return None if at_home else secrets.token_urlsafe(24)
    if len(given) < SHORTEST_TOKEN or not given.isascii() or not _in_an_address(given):
        raise BadInput(
            say(
                "--token expects {n} or more letters, digits, - or _, hard to guess",
                n=SHORTEST_TOKEN,
            )
        )
    return given


def _in_an_address(token: str) -> bool:
    """Whether it can stand in an address as it is."""
    return all(sign.isalnum() or sign in "-_" for sign in token)


def _from_here(asked: Asked) -> bool:
    """Whether our own page asks, or nobody's: a link, or a program that is no browser."""
    if asked.origin is None:
        return not asked.types
    return asked.origin.lower() in {f"{way}://{asked.host.lower()}" for way in ("http", "https")}


def _same(given: str, token: str) -> bool:
    return hmac.compare_digest(given.encode("utf-8", "replace"), token.encode())
