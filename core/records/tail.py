"""A journal's end as it stands unread: enough to add to it, without reading what others added."""

from __future__ import annotations

import orjson

from core.records.lines import is_sound

MOST_BYTES = 1 << 20
"""More is read on: it would have to be read some time."""

_EVENT = b'"event":"'


class Tail:
    """Lines that each add a document to `table`, numbered on one by one; none has been read.

    `end` is where they end in the file, `last` and `number` the last one's sum and number.
    """

    def __init__(self, table: str, end: int, last: bytes, number: int) -> None:
        self.table = table
        self.end = end
        self.last = last
        self.number = number
        self._wrapping = b',"add":{"%b":{"' % table.encode()
        self._events: set[bytes] = set()

    def take(self, lines: bytes) -> bool:
        """Go on over the whole lines that follow; False where they are anything else.

        Only the last one's own sum is looked at here: a damaged one among them shows when
        they are read.
        """
        how_many = lines.count(b"\n")
        last = lines[lines.rfind(b"\n", 0, -1) + 1 : -1]
        if lines.count(self._wrapping) != how_many or not is_sound(last):
            return False
        number_at = last.index(self._wrapping) + len(self._wrapping)
        number = int(last[number_at : last.index(b'"', number_at)])
        if number != self.number + how_many:
            return False
        self._go_on(lines, last, number)
        return True

    def added(self, line: bytes) -> None:
        """Go on over the line that was just added to it."""
        self._go_on(line, line, self.number + 1)

    def _go_on(self, lines: bytes, last: bytes, number: int) -> None:
        self._events.update(each[: each.find(b'"')] for each in lines.split(_EVENT)[1:])
        self.end += len(lines)
        self.last, self.number = last[8:40], number

    def may_name(self, event: str) -> bool:
        """Whether a document in it may carry this event; certain where it says no."""
        written = orjson.dumps(event)[1:-1]
        return b"\\" in written or written in self._events
