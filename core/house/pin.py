"""The house's PIN as the house book keeps it: salted and hashed, never as typed.

`scrypt:N:R:P:SALT:HASH`: the cost parameters of scrypt (RFC 7914), and salt and hash in hex.
"""

from __future__ import annotations

import hashlib
import hmac
import re
from typing import NamedTuple

LEAST_DIGITS, MOST_DIGITS = 4, 8
COST, BLOCK, PARALLEL = 1 << 14, 8, 1
"""What a new PIN is hashed with: about 16 MB and a twentieth of a second."""
MOST_COST = 1 << 17
MOST_PARALLEL = 4
SALT_BYTES, HASH_BYTES = 16, 32

_PIN = re.compile(rf"[0-9]{{{LEAST_DIGITS},{MOST_DIGITS}}}")
_KEPT = re.compile(
    r"scrypt:([0-9]{5,6}):(8):([0-9]):"
    rf"([0-9a-f]{{{2 * SALT_BYTES}}}):([0-9a-f]{{{2 * HASH_BYTES}}})"
)


class KeptPin(NamedTuple):
    """A kept PIN taken apart."""

    cost: int
    block: int
    parallel: int
    salt: bytes
    hashed: bytes


def is_pin(text: str) -> bool:
    """Whether the text is 4 to 8 digits and nothing else."""
    return _PIN.fullmatch(text) is not None


def kept_pin(text: str) -> KeptPin | None:
    """A kept PIN from its text; None for another form, and for costs too low or too high."""
    found = _KEPT.fullmatch(text)
    if found is None:
        return None
    cost, block, parallel = int(found[1]), int(found[2]), int(found[3])
    a_power = cost & (cost - 1) == 0
    if not (a_power and COST <= cost <= MOST_COST and 1 <= parallel <= MOST_PARALLEL):
        return None
    return KeptPin(cost, block, parallel, bytes.fromhex(found[4]), bytes.fromhex(found[5]))


def hashed(pin: str, salt: bytes) -> str:
    """The text to keep of a PIN; `salt` is 16 random bytes."""
    kept = KeptPin(COST, BLOCK, PARALLEL, salt, b"")
    return f"scrypt:{COST}:{BLOCK}:{PARALLEL}:{salt.hex()}:{scrypt(pin.encode(), kept).hex()}"


def is_right(pin: str, text: str) -> bool:
    """Whether a PIN is the one kept; slow by design."""
    kept = kept_pin(text)
    if kept is None or not is_pin(pin):
        return False
    return hmac.compare_digest(scrypt(pin.encode(), kept), kept.hashed)


def scrypt(password: bytes, how: KeptPin, length: int = HASH_BYTES) -> bytes:
    """What scrypt (RFC 7914) makes of a password with the salt and parameters of `how`."""
    memory = 128 * how.block * (how.cost + how.parallel + 2)
    return hashlib.scrypt(
        password,
        salt=how.salt,
        n=how.cost,
        r=how.block,
        p=how.parallel,
        maxmem=memory + (1 << 20),
        dklen=length,
    )
