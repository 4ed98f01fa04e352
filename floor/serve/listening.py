"""Where `serve` listens: an address of this machine and a port, and what can be wrong with them."""

from __future__ import annotations

import errno
import ipaddress
import socket
from typing import NamedTuple

from core.problems import BadInput
from core.say import say

HIGHEST_PORT = 65535
PLAIN_HTTP_PORT = 80
"""Browsers leave this one out of the host they ask for."""


class Listening(NamedTuple):
    """An IP address and a port; port 0 takes any that is free."""

    address: str
    port: int

    @property
    def at_home(self) -> bool:
        """Whether only this machine can reach it."""
        return ipaddress.ip_address(self.address).is_loopback

    @property
    def hosts(self) -> frozenset[str]:
        """What a browser on this machine may call it, as its Host header has it."""
        names = ("localhost", _bracketed(self.address))
        bare = names if self.port == PLAIN_HTTP_PORT else ()
        return frozenset((*(f"{name}:{self.port}" for name in names), *bare))

    def url(self, query: str = "") -> str:
        """The page's address; where it listens on every address, by this machine's name."""
        everywhere = ipaddress.ip_address(self.address).is_unspecified
        host = socket.gethostname() if everywhere else _bracketed(self.address)
        return f"http://{host}:{self.port}/{query}"


def listening(address: str, port: str) -> Listening:
    """Read both options; BadInput says how to write them."""
    return Listening(_address(address.strip()), number("--port", port, 0, HIGHEST_PORT))


def number(option: str, text: str, low: int, high: int) -> int:
    """A whole number of an option; BadInput where it is none or beyond its ends."""
    found = int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else -1
    if not low <= found <= high:
        raise BadInput(
            say(
                '{option} expects a number from {low} to {high}, found "{text}"',
                option=option,
                low=low,
                high=high,
                text=text,
            )
        )
    return found


NOWHERE = None
"""Python 3.13's loop passes over addresses that are not there, and then gives no number."""


def refused(place: Listening, error: OSError) -> BadInput:
    """What the system's refusal to listen there means, and what to do."""
    if error.errno == errno.EADDRINUSE:
        return BadInput(
            say(
                "port {port} is taken by another program; choose another with --port, or any"
                " free one with --port 0",
                port=place.port,
            )
        )
    if error.errno == errno.EACCES:
        return BadInput(
            say(
                "port {port} is kept for the system's administrator; choose one from 1024 on"
                " with --port",
                port=place.port,
            )
        )
    if error.errno in (errno.EADDRNOTAVAIL, errno.EAFNOSUPPORT, NOWHERE):
        return BadInput(
            say(
                "this machine has no address {address}; use one of its own with --address, or"
                " leave it out to serve this machine alone",
                address=place.address,
            )
        )
    return BadInput(
        say(
            "cannot listen at {address}, port {port}: {reason}",
            address=place.address,
            port=place.port,
            reason=error.strerror or type(error).__name__,
        )
    )


def _address(text: str) -> str:
    try:
        return str(ipaddress.ip_address("127.0.0.1" if text == "localhost" else text))
    except ValueError:
        raise BadInput(
            say(
                "--address expects an IP address of this machine, as 127.0.0.1, or 0.0.0.0 for"
                ' all of them, found "{text}"',
                text=text,
            )
        ) from None


def _bracketed(address: str) -> str:
    return f"[{address}]" if ":" in address else address
