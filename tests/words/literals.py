"""Text in the sources that is said without the catalogue: two words in a row, outside `say`."""

from __future__ import annotations

import ast
import re
from collections.abc import Container, Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

SAYING = frozenset({"say", "say_as", "say_many"})
TYPING = frozenset({"cast", "Literal", "Annotated", "TypeVar"})
FOR_DEVELOPERS = frozenset(
    {"TypeError", "ValueError", "AssertionError", "RuntimeError", "KeyError"}
)
GRAMMAR = frozenset(
    f"core/entry/{name}.py" for name in ("words", "faults", "numbers", "parse", "complete", "bench")
)
"""Rooms of the entry line's own words, in every language: what is typed is not told."""
CODES = frozenset(
    {"64ths of an inch", "8 on one side", "ring gauge", "ticket few", "ticket many long"}
)
"""Units and rules as a house book and a table name them, and names of styles."""
MARKUP = re.compile(r"[<>={}\\]|^#|^ *(?:bold|underline)|^ticket ")
"""Pictures, pages, inks and patterns."""
TWO_WORDS = re.compile(r"[A-Za-zÁ-ú]{2,},? [a-zá-ú]{2,}")


class Literal(NamedTuple):
    """A literal, and where it stands."""

    path: Path
    line: int
    text: str


def unsaid(path: Path, codes: Container[str]) -> Iterator[Literal]:
    """The literals of a file that read like a sentence and do not go through the catalogue.

    `codes` are the texts that the program compares and records, which are told elsewhere.
    """
    tree = ast.parse(path.read_text(encoding="utf-8"))
    passed = _passed(tree)
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or node in passed:
            continue
        text = node.value
        if isinstance(text, str) and text not in codes and reads_like_words(text):
            yield Literal(path, node.lineno, text)


def reads_like_words(text: str) -> bool:
    """Whether a person may take it for something said."""
    return bool(TWO_WORDS.search(text)) and not MARKUP.search(text) and text not in CODES


def codes_of(paths: Iterable[Path]) -> frozenset[str]:
    """Every text that a type gives as one of its values."""
    found: set[str] = set()
    for path in paths:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Subscript) and _name(node.value) == "Literal":
                inner = (each for each in ast.walk(node.slice) if isinstance(each, ast.Constant))
                found.update(each.value for each in inner if isinstance(each.value, str))
    return frozenset(found)


def templates_that_vary(path: Path) -> Iterator[Literal]:
    """Calls of `say` whose template is no literal: the catalogue cannot know them."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and _name(node.func) in SAYING:
            first = node.args[-1] if node.args else None
            if not (isinstance(first, ast.Constant) and isinstance(first.value, str)):
                yield Literal(path, node.lineno, ast.unparse(node))


def _passed(tree: ast.AST) -> set[ast.AST]:
    """What is text for the catalogue already, or for nobody who stands at a bench."""
    passed: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            for statement in node.body:
                if isinstance(statement, ast.Expr):  # docstrings
                    passed.add(statement.value)
        elif isinstance(node, ast.Call) and _name(node.func) in SAYING | TYPING | FOR_DEVELOPERS:
            for argument in node.args:
                passed.update(ast.walk(argument))
        elif isinstance(node, ast.Subscript) and _name(node.value) in TYPING:
            passed.update(ast.walk(node.slice))
        elif isinstance(node, ast.AnnAssign):
            passed.update(ast.walk(node.annotation))
    return passed


def _name(node: ast.AST) -> str:
    return (
        node.id
        if isinstance(node, ast.Name)
        else node.attr
        if isinstance(node, ast.Attribute)
        else ""
    )
