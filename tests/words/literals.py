"""Text in the sources that is said without the catalogue: two words in a row, outside `say`."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

SAYING = frozenset({"say", "say_as", "say_many"})
TYPING = frozenset({"cast", "Literal", "Annotated", "TypeVar"})
FOR_DEVELOPERS = frozenset(
    {"TypeError", "ValueError", "AssertionError", "RuntimeError", "KeyError"}
)
TWO_WORDS = re.compile(r"[A-Za-zÁ-ú]{2,},? [a-zá-ú]{2,}")


class Literal(NamedTuple):
    """A literal, and where it stands."""

    path: Path
    line: int
    text: str


def unsaid(path: Path) -> Iterator[Literal]:
    """The literals of a file that read like a sentence and do not go through the catalogue."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    passed = _passed(tree)
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or node in passed:
            continue
        if isinstance(node.value, str) and TWO_WORDS.search(node.value):
            yield Literal(path, node.lineno, node.value)


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
