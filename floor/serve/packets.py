"""What a session's process says to the server beside pictures, in the library's packets."""

from __future__ import annotations

import json

READY = b"__GANGLION__\n"
"""The line after which packets begin."""

SAID = "said"
"""The packet, and the message to the page, of a sentence for the person."""


def meta(**values: object) -> bytes:
    """One packet of values, to be told from pictures."""
    data = json.dumps(values).encode()
    return b"M%s%s" % (len(data).to_bytes(4, "big"), data)


def last_words(sentence: str) -> bytes:
    """A sentence, and that the session ends with it."""
    return meta(type=SAID, text=sentence) + meta(type="exit")
