"""The catalogue says all that the sources say, and nothing else."""

from __future__ import annotations

import string
from collections.abc import Sequence
from typing import cast

import pytest
from babel.messages import Message

from tests.words.catalogue import (
    ROOT,
    TRANSLATED,
    as_mo,
    as_po,
    kept,
    messages,
    po_of,
    sources,
    untranslated,
)
from tests.words.catalogue import updated as brought_up_to_date
from tests.words.literals import GRAMMAR, codes_of, templates_that_vary, unsaid

UP_TO_DATE = "bring it up to the sources: python -m tests.words"


@pytest.mark.parametrize("language", TRANSLATED)
def test_nothing_is_missing_or_stale(language: str) -> None:
    assert po_of(language).read_text(encoding="utf-8") == as_po(brought_up_to_date(language)), (
        UP_TO_DATE
    )


@pytest.mark.parametrize("language", TRANSLATED)
def test_everything_is_translated(language: str) -> None:
    assert [message.id for message in untranslated(kept(language))] == []


@pytest.mark.parametrize("language", TRANSLATED)
def test_what_the_program_reads_is_what_stands_in_the_file(language: str) -> None:
    assert po_of(language).with_suffix(".mo").read_bytes() == as_mo(kept(language)), UP_TO_DATE


@pytest.mark.parametrize("language", TRANSLATED)
def test_translations_fill_in_what_the_english_does(language: str) -> None:
    wrong = [message.id for message in messages(kept(language)) if not _same_blanks(message)]
    assert wrong == []


def test_no_sentence_is_outside_the_catalogue() -> None:
    codes = codes_of(sources())
    read = [path for path in sources() if path.relative_to(ROOT).as_posix() not in GRAMMAR]
    found = [literal for path in read for literal in unsaid(path, codes)]
    assert [f"{it.path.relative_to(ROOT)}:{it.line}: {it.text!r}" for it in found] == []


def test_the_catalogue_knows_every_template() -> None:
    found = [call for path in sources() for call in templates_that_vary(path)]
    assert [f"{it.path.relative_to(ROOT)}:{it.line}: {it.text}" for it in found] == []


def _same_blanks(message: Message) -> bool:
    """Every blank of the English is filled in; a singular may leave out how many there are."""
    wanted = [_blanks(text) for text in _texts(message.id)]
    told = [_blanks(text) for text in _texts(message.string)]
    if len(wanted) == 1:
        return told == wanted
    return all(blanks | {"n"} == wanted[-1] | {"n"} for blanks in (*wanted, *told))


def _texts(given: object) -> tuple[str, ...]:
    return (given,) if isinstance(given, str) else tuple(cast("Sequence[str]", given or ()))


def _blanks(template: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(template) if name is not None}
