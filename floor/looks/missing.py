"""What a page shows where there is nothing to show yet, and what to do about it."""

from __future__ import annotations

from pathlib import Path
from shlex import quote

from rich.cells import cell_len

from core.desk.faces import DeskFace
from core.problems import BadInput, UserError
from floor.commands.folder import own_folder
from floor.looks.spans import BLANK, Line, Span, inked, wrap
from floor.looks.words import Words, plural


def no_card(missing: BadInput, title: str, width: int, words: Words) -> list[Line]:
    """Why a bench has no card, as the core says it."""
    return [BLANK, (Span(f" {title}", "wrong"),), *troubled(missing, width, words)]


def troubled(trouble: UserError, width: int, words: Words) -> list[Line]:
    """What a user or a disk did, as the core says it."""
    lines: list[Line] = [BLANK]
    for problem in trouble.problems:
        lines += [(Span("  "), *row) for row in inked(words.tell(problem.said), width - 3)]
    return lines


def no_house(desk: DeskFace, words: Words, width: int) -> list[Line]:
    """Where a house book was looked for, how to come by one, and the commands that load it.

    Damage is told first: it may be what took the house book.
    """
    folder = desk.data_folder
    data = data_option(folder)
    lines: list[Line] = [BLANK]
    if desk.damaged:
        damage = inked(plural(words.damaged, desk.damaged), width - 3, "wrong")
        lines += [*((Span("  "), *row) for row in damage), BLANK]
    for text in words.no_house:
        margin = len(text) - len(text.lstrip()) + 2
        filled = text.strip().format(folder=folder, data=data)
        if "bunchbook" in text and margin > 2:
            lines += command_lines(filled, width, margin)
        else:
            lines += [(Span(" " * margin + row),) for row in wrap(filled, width - margin - 1)]
    return lines


def data_option(folder: Path) -> str:
    """What a command needs so as to work on that data folder; nothing for the user's own."""
    return "" if folder == Path(own_folder()) else f" --data {quote(str(folder))}"


def command_lines(command: str, width: int, margin: int) -> list[Line]:
    """A command to copy, set in by so many cells."""
    return [(Span(" " * margin + row),) for row in _command(command, width - margin - 1)]


def _command(command: str, width: int) -> list[str]:
    """The command as a shell takes it, on more than one line where it is too long for one."""
    if cell_len(command) <= width:
        return [command]
    *rows, last = wrap(command, width - 2)
    return [*(f"{row} \\" for row in rows), last]
