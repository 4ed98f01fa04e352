"""The answers so far, in a small file of the data folder: a dropped terminal loses none."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Mapping
from pathlib import Path

from core.desk.start.check import SIZED, Refused, answered, as_written, house_of
from core.desk.start.files import write_over
from core.desk.start.questions import QUESTIONS
from core.desk.start.usual import Answers

NAME = "start.json"
MOST_BYTES = 1_000_000
"""More than any answers take."""


def keep(folder: Path, answers: Answers) -> None:
    """Keep the answers, in place of those kept before. StoreUnusable where the disk refuses."""
    write_over(folder / NAME, json.dumps(answers, ensure_ascii=False).encode())


def kept(folder: Path) -> dict[str, str]:
    """The answers that were kept, as far as they still make a sound house; none is no fault."""
    path = folder / NAME
    try:
        if not path.is_file():  # whoever opened a pipe would wait for its other end
            return {}
        with path.open("rb") as file:
            found = json.loads(file.read(MOST_BYTES))
    except (OSError, ValueError, RecursionError):
        return {}
    return _sound(_readable(found)) if isinstance(found, dict) else {}


def _readable(found: Mapping[str, object]) -> dict[str, str]:
    """The answers up to the first that is none."""
    answers: dict[str, str] = {}
    for question in QUESTIONS:
        value = found.get(question.key)
        written = as_written(question, value) if isinstance(value, str) else ""
        if isinstance(written, Refused) or not written.strip():
            break
        answers[question.key] = written
    return answers


def _sound(found: Answers) -> dict[str, str]:
    """The answers up to the first that makes no sound house; at best all are read at once."""
    if house_of(found, rolled=SIZED in found).house is not None:
        return dict(found)
    answers: dict[str, str] = {}
    for question in QUESTIONS[: len(found)]:
        taken = answered(answers, question, found[question.key], "")
        if isinstance(taken, Refused):
            break
        answers = taken.answers
    return answers


def forget(folder: Path) -> None:
    """Take the file away; one that stays is only offered again."""
    with contextlib.suppress(OSError):
        (folder / NAME).unlink()
