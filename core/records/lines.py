"""A journal's lines: one transaction each, checksummed, and chained by their checksums.

`{"sum":"<32 hex>","prev":"<32 hex>","add":{"entries":{"118":{...}}}}`: `sum` is the
BLAKE2b digest (16 bytes) of everything after it up to the line's end, `prev` the sum of
the last sound line before it, zeros for the first. `add` holds one new document; any other
change is a `set`, in which a document that was removed is null. The first line is the head;
it has `book` instead.
"""

from __future__ import annotations

import hashlib
import re
from binascii import hexlify
from collections.abc import Mapping
from typing import Any, Literal, NamedTuple

import orjson

from core.problems import BadInput, Problem, StoreUnusable
from core.records.slices import body_of
from core.say import say

FORMAT = 1
NOTHING_BEFORE = b"0" * 32

_BLANK = hashlib.blake2b(digest_size=16)
_SUM, _HASHED, _PREV = slice(8, 40), 42, slice(50, 82)
_START = re.compile(rb'(?=\{"sum":")')


DamageKind = Literal["torn", "checksum wrong", "chain broken", "not JSON", "not this book"]

Sound = tuple[int, bytes]
"""A sound line with its number."""


class Damage(NamedTuple):
    """What is wrong with a line, in a word and in a sentence."""

    line: int
    kind: DamageKind
    says: str


def sum_of(line: bytes) -> bytes:
    """The checksum that the line should carry, 32 hexadecimal digits."""
    digest = _BLANK.copy()
    digest.update(line[_HASHED:])
    return hexlify(digest.digest())


def is_sound(line: bytes) -> bool:
    """Whether the line, without its line end, carries its own checksum in its place."""
    return line.startswith(b'{"sum":"%b","prev":"' % sum_of(line)) and line[82:84] == b'",'


def encode(kind: str, body: Mapping[str, Any], prev: bytes) -> bytes:
    """The line of that kind after the line of sum `prev`, with its line end.

    BadInput for what JSON cannot say, such as broken Unicode.
    """
    try:
        said = orjson.dumps({kind: body})
    except orjson.JSONEncodeError as error:
        raise _unwritable(error) from error
    return _summed(b'"prev":"%b",%b' % (prev, said[1:]))


def encode_added(table: str, doc_id: int, fields: Mapping[str, Any], prev: bytes) -> bytes:
    """The same of a new document: nearly every line is one, and somebody waits for it."""
    try:
        said = orjson.dumps(fields)
    except orjson.JSONEncodeError as error:
        raise _unwritable(error) from error
    return _summed(b'"prev":"%b","add":{%b:{"%d":%b}}}' % (prev, orjson.dumps(table), doc_id, said))


def _unwritable(error: orjson.JSONEncodeError) -> BadInput:
    return BadInput(
        Problem("", say("this cannot be written down: {error}; nothing was recorded", error=error))
    )


def _summed(hashed: bytes) -> bytes:
    digest = _BLANK.copy()
    digest.update(hashed)
    return b'{"sum":"%b",%b\n' % (hexlify(digest.digest()), hashed)


class Chain:
    """The lines read so far: how many, the last sound one's sum, and what is damaged.

    A line may name the last sound line before it, or a damaged one in between: that line
    is damaged, but it is the line that stood there. Any other shows an edit or a removal.
    """

    def __init__(self, head: Mapping[str, Any], place: str) -> None:
        self.head = head
        self.place = place
        self.last = NOTHING_BEFORE
        self.lines = 0
        self.damage: list[Damage] = []
        self._passed: set[bytes] = set()

    def read(self, lines: list[bytes]) -> list[Sound]:
        """The sound ones of the next lines, but for the head; StoreUnusable if too new."""
        at_start, last = self.last == NOTHING_BEFORE, self.last
        sound: list[Sound] = []
        for number, line in enumerate(lines, self.lines + 1):
            digest = _BLANK.copy()
            digest.update(line[_HASHED:])
            found = hexlify(digest.digest())
            if line.startswith(b'{"sum":"%b","prev":"%b",' % (found, last)):
                self.last = last = found
                if self._passed:
                    self._passed = set()
                sound.append((number, line))
            else:
                sound += [(number, kept) for kept in self._doubtful(number, line)]
                last = self.last
        self.lines += len(lines)
        return sound[1:] if at_start and sound and self._is_head(*sound[0]) else sound

    def wrote(self, how_many: int, last: bytes) -> None:
        """Go on over lines that were encoded after this chain's last, and written."""
        self.lines += how_many
        self.last = last[_SUM]

    def _doubtful(self, number: int, line: bytes) -> list[bytes]:
        """A line that is not simply the next: what of it is sound, the rest as damage."""
        if is_sound(line):
            if line[_PREV] != self.last and line[_PREV] not in self._passed:
                self.damage.append(
                    Damage(number, "chain broken", say("lines before it were edited or removed"))
                )
            self._passed = set()
            self.last = line[_SUM]
            return [line]
        self.damage.append(_damage(number, line))
        kept: list[bytes] = []
        for piece in _START.split(line):
            whole = next(filter(is_sound, (piece, piece[:-1])), None)
            if whole is None:
                self._passed |= {piece[_SUM], sum_of(piece)}
            else:
                kept += self._doubtful(number, whole)
        return kept

    def _is_head(self, number: int, line: bytes) -> bool:
        """Whether it is the head; StoreUnusable where a newer program wrote it."""
        try:
            body = body_of(line)
        except ValueError:
            return False
        if "book" not in body:
            return False
        head = body["book"]
        written = head.get("format") if isinstance(head, dict) else None
        if isinstance(written, int) and written > FORMAT:
            raise StoreUnusable(
                Problem(
                    self.place,
                    say(
                        "a newer version of this program wrote it (format {written}, not "
                        "{format}): update this program; nothing was read or changed",
                        written=written,
                        format=FORMAT,
                    ),
                )
            )
        if head != self.head:
            self.damage.append(
                Damage(number, "not this book", say("its head says {head}", head=str(head)[:80]))
            )
        return True


def _damage(number: int, line: bytes) -> Damage:
    if not line or not line.startswith(b'{"sum":"'[: len(line)]):
        return Damage(number, "not JSON", say("written over, or by something else"))
    if line.endswith(b"}}") and not _is_cut(line):
        return Damage(number, "checksum wrong", say("changed after it was written"))
    return Damage(number, "torn", say("not written to its end"))


def _is_cut(line: bytes) -> bool:
    """Whether a line is the beginning of JSON and ends too soon, as in a power cut."""
    try:
        orjson.loads(line)
    except orjson.JSONDecodeError as error:
        return error.pos >= len(line) - 1
    return False
