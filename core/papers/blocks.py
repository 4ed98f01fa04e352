"""What a page is made of, whatever it tells; its texts are told and escaped when written."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple


class Heading(NamedTuple):
    """A heading; the page's own title is level 1."""

    text: str
    level: Literal[2, 3] = 2


class Para(NamedTuple):
    """A paragraph. `look` is one to be looked at."""

    text: str
    kind: Literal["plain", "small", "look"] = "plain"


class Points(NamedTuple):
    """Sentences, each on its own."""

    texts: tuple[str, ...]


class Facts(NamedTuple):
    """Figures to be seen first: each with its name."""

    pairs: tuple[tuple[str, str], ...]


class Column(NamedTuple):
    """A table's column: its name, its unit, and whether it lines up on the right."""

    name: str
    unit: str = ""
    right: bool = False


class Table(NamedTuple):
    """Rows under columns; the first cell of each names the row. `last` rows add up the others.

    Under a heading that says it all the caption may be empty.
    """

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    last: tuple[tuple[str, ...], ...] = ()


class Group(NamedTuple):
    """Rows that belong together under a name of their own, and stay on one page."""

    name: str
    rows: tuple[tuple[str, ...], ...]


class Grouped(NamedTuple):
    """Groups of rows under the same columns, high enough to write in by hand."""

    columns: tuple[Column, ...]
    groups: tuple[Group, ...]


class ByHand(NamedTuple):
    """Lines to be filled in with a pen, each with its name."""

    names: tuple[str, ...]


class Bar(NamedTuple):
    """One bar: `value` is its length, `text` what is written of it, `note` what is said besides."""

    name: str
    value: float
    text: str
    note: str = ""


class Bars(NamedTuple):
    """Bars side by side on one scale; below nothing they go to the left.

    `low` and `high` widen the scale, so that several pictures can be held against each other.
    Under a heading of the same words they are not `captioned`.
    """

    title: str
    rows: tuple[Bar, ...]
    low: float = 0.0
    high: float = 0.0
    narrow: bool = False
    captioned: bool = True


class Figure(NamedTuple):
    """A picture as SVG of our own making, which is put into the page as it is."""

    svg: str


class Big(NamedTuple):
    """A figure to be read from a step away, with its name above and what is said beside it."""

    name: str
    figure: str
    unit: str
    note: str = ""


class Ticket(NamedTuple):
    """A card for a bench: `code` is read back by a person; `lines` are names and values."""

    code: str
    title: str
    subtitle: str
    big: tuple[Big, ...]
    lines: tuple[tuple[str, str], ...]
    notes: tuple[str, ...] = ()


class Tickets(NamedTuple):
    """Cards, four to a page, to be cut apart."""

    tickets: tuple[Ticket, ...]


Simple = Heading | Para | Points | Facts | Table | Bars | Figure


class Beside(NamedTuple):
    """Blocks set beside each other where there is room."""

    blocks: tuple[Simple, ...]


class Whole(NamedTuple):
    """Blocks that stay on one page."""

    blocks: tuple[Simple, ...]


Block = Simple | Whole | Grouped | ByHand | Beside | Tickets
Blocks = Sequence[Block]
