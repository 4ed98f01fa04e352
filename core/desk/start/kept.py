"""The answers so far, in a small file of the data folder: a dropped terminal loses none."""

from __future__ import annotations

import contextlib
import json
import os
from pathlib import Path

from core.desk.start.check import Refused, answered
from core.desk.start.questions import QUESTIONS, Answers
from core.records.disk import make_folder, sync_folder, unusable
from core.say import say

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


def write_over(path: Path, content: bytes) -> None:
    """Write a file whole, or leave what was there as it was. StoreUnusable says why."""
    beside = path.with_name(f".{path.name[:200]}.{os.urandom(4).hex()}.part")
    try:
        make_folder(path.parent)
        with beside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
        sync_folder(path.parent)
    except OSError as error:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise unusable(error, path, say("write it")) from error
