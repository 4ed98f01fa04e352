"""The guides for people hold: what they say is typed is typed, and what comes back is looked for.

A fenced block of a guide is of one of three kinds, and there is no fourth.

`floor`: a session at the entry line, which goes on from block to block. A row `▸ words` is typed
and ended with Enter; a row `[Key]` presses a key. `Enter: ...` beneath a typed row is what stands
there before Enter is pressed. Every other row must be on the screen after it.

`console`: `$ command` is run, and every other row must be a row of what it says. A row of three
dots stands for what is left out.

`toml`: rows added to the end of `house.toml` in the folder where the commands are run.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import re
import shlex
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from core.desk.desk import Desk
from core.entry.parse import parse
from core.entry.requests import Parsed
from core.house.model import HouseBook
from floor.commands.parser import parse as read_command
from floor.main import main
from tests.floor.hall import ESC, Hall, floor

ROOT = Path(__file__).parents[2]
GUIDES = ("demo/shift.md", "demo/blender.md")
BLOCK = re.compile(r"^```(\w*)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
CODE = re.compile(r"`([^`]+)`")
PAUSE_S, TRIES = 0.01, 2000
LEFT_OUT = "..."
REFUSED = "not recorded: "
PROMPT, SHELL, BEFORE = "▸ ", "$ ", ("Enter: ", "Intro: ")
DONE_ON_THE_FLOOR = re.compile(r"▸ (?! )|\[")
DONE_AT_THE_SHELL = re.compile(r"\$ ")
FUNCTION = {f"F{n}": f"\x1b[{11 + n - 1 + (n > 5)}~" for n in range(1, 11)}
KEYS = {
    **FUNCTION,
    "Enter": "\r",
    "Esc": ESC,
    "PgDn": "\x1b[6~",
    "PgUp": "\x1b[5~",
    "Ctrl+L": "\x0c",
    "Ctrl+U": "\x15",
}


class Step(NamedTuple):
    """What somebody does, and the rows that the guide says come back."""

    does: str
    rows: tuple[str, ...]


def blocks(guide: str, kind: str) -> list[str]:
    """The guide's fenced blocks of a kind, as they come."""
    text = (ROOT / guide).read_text(encoding="utf-8")
    return [body for name, body in BLOCK.findall(text) if name == kind]


def steps(block: str, marks: re.Pattern[str]) -> Iterator[Step]:
    """A block taken apart; rows before the first thing done follow on from the block before."""
    does, rows = "", list[str]()
    for row in block.splitlines():
        if marks.match(row):
            yield Step(does, tuple(rows))
            does, rows = row, []
        elif row.strip() and row.strip() != LEFT_OUT:
            rows.append(row.rstrip())
    yield Step(does, tuple(rows))


@pytest.mark.parametrize("guide", GUIDES)
def test_a_guide_has_no_block_that_is_not_tried(guide: str) -> None:
    kinds = {name for name, _ in BLOCK.findall((ROOT / guide).read_text(encoding="utf-8"))}
    assert {"floor", "console"} <= kinds <= {"floor", "console", "toml"}


@pytest.mark.parametrize("guide", GUIDES)
async def test_what_is_typed_on_the_floor_is_answered_as_the_guide_says(
    guide: str, built: tuple[Path, dt.datetime], tmp_path: Path
) -> None:
    folder, moment = tmp_path / "data", built[1]
    shutil.copytree(built[0], folder)
    async with floor(Desk(folder, lambda: moment, "T1")) as hall:
        for block in blocks(guide, "floor"):
            for step in steps(block, DONE_ON_THE_FLOOR):
                await _do(hall, step)


async def _do(hall: Hall, step: Step) -> None:
    before = [row for row in step.rows if row.strip().startswith(BEFORE)]
    if step.does.startswith(PROMPT):
        hall.type(step.does.removeprefix(PROMPT).strip())
        for row in before:
            await _shows(hall, row)
        hall.type("\r")
    elif step.does:
        hall.type(KEYS[step.does.strip().strip("[]")])
    await hall.settled()
    if step.does.startswith(PROMPT):
        refused = any(row.strip().startswith(REFUSED) for row in step.rows)
        assert (REFUSED in hall.text) == refused, (step.does, hall.text)
    for row in step.rows:
        if row not in before:
            await _shows(hall, row)


async def _shows(hall: Hall, row: str) -> None:
    """Wait for a row as it stands, but for blanks at its ends and where the clock stands."""
    for _ in range(TRIES):
        if any(row.strip() in shown for shown in hall.rows):
            return
        await asyncio.sleep(PAUSE_S)
    raise AssertionError(f"waited for {row}; the screen is\n{hall.text}")


@pytest.mark.parametrize("guide", GUIDES)
def test_what_is_run_at_the_shell_says_what_the_guide_says(
    guide: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("DATA", "TERMINAL", "WHO", "PIN", "TOKEN"):
        monkeypatch.setenv(f"BUNCHBOOK_{name}", "-")
        monkeypatch.delenv(f"BUNCHBOOK_{name}")
    text, ran = (ROOT / guide).read_text(encoding="utf-8"), 0
    for kind, block in BLOCK.findall(text):
        if kind == "toml":
            with Path("house.toml").open("a", encoding="utf-8") as book:
                book.write(f"\n{block}")
        for step in steps(block, DONE_AT_THE_SHELL) if kind == "console" else ():
            if step.does:
                said = _run(step, monkeypatch, capsys)
                missing = [row for row in step.rows if row.strip() not in said]
                assert not missing, (step.does, missing, said)
                ran += 1
    assert ran


def _run(
    step: Step, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> list[str]:
    """The rows that a command says; it is done, unless the guide shows that it is refused.

    `> FILE` at the end takes what it prints, as in a shell.
    """
    line, _, file = step.does.removeprefix(SHELL).partition(" > ")
    words = shlex.split(line)
    if words[0] == "export":
        monkeypatch.setenv(*words[1].split("=", 1))
        return []
    assert words[0] == "bunchbook", line
    code = main(words[1:])
    out, err = capsys.readouterr()
    refused = any(row.startswith(REFUSED) for row in step.rows)
    assert code == (2 if refused else 0), (line, out, err)
    if file:
        Path(file).write_text(out, encoding="utf-8")
        out = ""
    return [row.strip() for row in (out + err).splitlines()]


Reads = Callable[[str], bool]


@pytest.fixture
def reads(house: HouseBook) -> Reads:
    """Whether a line can be read in the demo house, on bench 7's card or elsewhere."""
    return lambda line: any(isinstance(parse(line, house, at), Parsed) for at in (None, "7"))


def test_every_line_of_the_readme_can_be_typed(reads: Reads) -> None:
    """The first column of its table is what is typed; words in brackets say where."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    rows = [row.split("|")[1] for row in text.splitlines() if row.startswith("| `")]
    lines = [line for row in rows for line in CODE.findall(row)]
    assert len(lines) > 20
    assert [line for line in lines if not reads(line)] == []


def test_every_command_of_the_readme_can_be_given() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = re.findall(r"^bunchbook .*?(?=\s+#|$)", text, re.MULTILINE)
    assert len(commands) > 15
    for line in commands:
        read_command(shlex.split(line)[1:])
