"""Blocks as HTML; every text is escaped here or in the pictures, and nowhere else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from core.papers.bars import bars_svg
from core.papers.blocks import (
    Bars,
    Beside,
    Block,
    ByHand,
    Column,
    Facts,
    Figure,
    Grouped,
    Heading,
    Para,
    Points,
    Table,
    Ticket,
    Tickets,
    Whole,
)

TO_A_PAGE = 4
FEW, BIG, MANY = 5, 6, 11
"""Figures that fit a card at their largest, smaller and small; with more it has its own pages."""
FEW_LINES, SHORT_FIGURE, SHORT_TEXT = 6, 4, 22
"""Lines below the figures, and characters of a figure and of a name, beside the largest ones."""
LONG, PART = 11, 6
"""Characters of a code that a cell may break, longer than a date, and how many stay together."""
WIDE = 8
"""Columns that fit the paper at the size of other text; more are set smaller."""


def markup(block: Block) -> str:
    """The block as HTML."""
    match block:
        case Beside():
            return f'<div class="beside">{"".join(map(markup, block.blocks))}</div>'
        case Whole():
            return f'<section class="whole">{"".join(map(markup, block.blocks))}</section>'
        case Tickets():
            return "".join(_sheets(block.tickets))
        case Table():
            return "".join(_table(block))
        case Grouped():
            return "".join(_grouped(block))
        case Bars():
            said = f"<figcaption>{escape(block.title)}</figcaption>" if block.captioned else ""
            return f"<figure>{said}{_bars(block)}</figure>"
        case Figure():
            return f"<figure>{block.svg}</figure>"
        case _:
            return _text(block)


def _text(block: Heading | Para | Points | Facts | ByHand) -> str:
    match block:
        case Heading():
            return f"<h{block.level}>{escape(block.text)}</h{block.level}>"
        case Para():
            return f'<p class="{block.kind}">{escape(block.text)}</p>'
        case Points():
            items = "".join(f"<li>{escape(text)}</li>" for text in block.texts)
            return f"<ul>{items}</ul>"
        case Facts():
            pairs = (f"<div><dt>{escape(n)}</dt><dd>{escape(v)}</dd></div>" for n, v in block.pairs)
            return f'<dl class="facts">{"".join(pairs)}</dl>'
        case ByHand():
            lines = "".join(f"<div>{escape(name)}</div>" for name in block.names)
            return f'<div class="sign">{lines}</div>'


def _bars(bars: Bars) -> str:
    return bars_svg(bars) if bars.rows else ""


def _table(table: Table) -> Iterator[str]:
    yield '<table class="dense">' if len(table.columns) > WIDE else "<table>"
    if table.caption:
        yield f"<caption>{escape(table.caption)}</caption>"
    yield "<thead><tr>"
    yield from map(_head, table.columns)
    yield "</tr></thead><tbody>"
    # Cell by cell in one pass: a room of 300 benches has thousands of them.
    sides = [' class="r">' if column.right else ">" for column in table.columns]
    yield from (_row(row, sides) for row in table.rows)
    yield "</tbody>"
    if table.last:
        # Not a foot: browsers repeat that on every page.
        yield '<tbody class="last">'
        yield from (_row(row, sides) for row in table.last)
        yield "</tbody>"
    yield "</table>"


def _grouped(table: Grouped) -> Iterator[str]:
    yield '<table class="hand"><thead><tr>'
    yield from map(_head, table.columns)
    yield "</tr></thead>"
    sides = [' class="r">' if column.right else ">" for column in table.columns]
    for group in table.groups:
        name = f'<th scope="rowgroup" colspan="{len(sides)}">{escape(group.name)}</th>'
        yield f"<tbody><tr>{name}</tr>"
        yield from (_row(row, sides) for row in group.rows)
        yield "</tbody>"
    yield "</table>"


def _head(column: Column) -> str:
    unit = f" <small>{escape(column.unit)}</small>" if column.unit else ""
    side = ' class="r"' if column.right else ""
    return f'<th scope="col"{side}>{escape(column.name)}{unit}</th>'


def _row(row: tuple[str, ...], sides: list[str]) -> str:
    first, *rest = row
    cells = (f"<td{side}{_cell(cell)}</td>" for cell, side in zip(rest, sides[1:], strict=True))
    return f'<tr><th scope="row"{sides[0]}{_cell(first)}</th>{"".join(cells)}</tr>'


def _cell(text: str) -> str:
    """Long codes may be broken between lines: several of them are wider than the paper."""
    if len(text) < LONG:
        return escape(text)
    return " ".join(map(_breakable, text.split(" ")))


def _breakable(word: str) -> str:
    if len(word) < LONG or "\u00a0" in word:
        return escape(word)
    parts = (word[start : start + PART] for start in range(0, len(word), PART))
    return "<wbr/>".join(map(escape, parts))


def _sheets(tickets: Sequence[Ticket]) -> Iterator[str]:
    short = [ticket for ticket in tickets if len(ticket.big) <= MANY]
    sheets = [short[start : start + TO_A_PAGE] for start in range(0, len(short), TO_A_PAGE)]
    sheets += ([ticket] for ticket in tickets if len(ticket.big) > MANY)
    for sheet in sheets:
        yield f'<section class="sheet">{"".join(map(_ticket, sheet))}</section>'


def _ticket(ticket: Ticket) -> str:
    big = "".join(
        f'<div class="big"><span>{escape(each.name)}</span><b>{escape(each.figure)}'
        f"<small> {escape(each.unit)}</small></b><span>{escape(each.note)}</span></div>"
        for each in ticket.big
    )
    lines = "".join(
        f"<div><dt>{escape(name)}</dt><dd>{escape(value)}</dd></div>"
        for name, value in ticket.lines
    )
    notes = "".join(f"<p>{escape(note)}</p>" for note in ticket.notes)
    return (
        f'<article class="{_look(ticket)}"><h2>{escape(ticket.title)}</h2>'
        f"<p>{escape(ticket.subtitle)}</p>"
        f'{big}<dl>{lines}</dl>{notes}<p class="code">{escape(ticket.code)}</p></article>'
    )


def _look(ticket: Ticket) -> str:
    """How large its figures are: as large as its other lines leave room for."""
    if len(ticket.big) > MANY:
        return "ticket many long"
    if len(ticket.big) > BIG:
        return "ticket many"
    return "ticket few" if _is_short(ticket) else "ticket"


def _is_short(ticket: Ticket) -> bool:
    """Whether everything on it is so short that the figures can be larger still."""
    texts = [len(ticket.title), *(len(each.name) for each in ticket.big)]
    figures = [len(each.figure) for each in ticket.big]
    return (
        len(ticket.big) <= FEW
        and not ticket.notes
        and len(ticket.lines) <= FEW_LINES
        and max(figures, default=0) <= SHORT_FIGURE
        and max(texts) <= SHORT_TEXT
    )
