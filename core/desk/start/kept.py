"""The answers so far, in a small file of the data folder: a dropped terminal loses none."""

from __future__ import annotations

import contextlib
import json
from pathlib import Path

from core.desk.start.check import Refused, answered
from core.desk.start.files import write_over
from core.desk.start.questions import QUESTIONS
from core.desk.start.usual import Answers

NAME = "start.json"


def keep(folder: Path, answers: Answers) -> None:
    """Keep the answers, in place of those kept before. StoreUnusable where the disk refuses."""
    write_over(folder / NAME, json.dumps(answers, ensure_ascii=False).encode())


def kept(folder: Path) -> dict[str, str]:
    """The answers that were kept, as far as they still make a sound house; none is no fault."""
    try:
        found = json.loads((folder / NAME).read_bytes()[:1_000_000])
    except (OSError, ValueError, RecursionError):
        return {}
    answers: dict[str, str] = {}
    for question in QUESTIONS:
        value = found.get(question.key) if isinstance(found, dict) else None
        if not isinstance(value, str) or not value.strip():
            break
        taken = answered(answers, question, value, value)
        if isinstance(taken, Refused):
            break
        answers = taken.answers
    return answers


def forget(folder: Path) -> None:
    """Take the file away; one that stays is only offered again."""
    with contextlib.suppress(OSError):
        (folder / NAME).unlink()
