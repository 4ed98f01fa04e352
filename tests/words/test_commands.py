"""The commands in Spanish: whole sentences, nothing English left between them."""

from __future__ import annotations

import argparse
import ast
import gettext
import inspect
import re
from collections.abc import Iterator

import pytest

from core.papers.words import words_of
from core.tongue import tongue_of
from floor.commands.parser import COMMANDS
from floor.commands.usage import ARGPARSE
from tests.commands.conftest import Bunchbook, bunchbook, loaded

__all__ = ["bunchbook", "loaded"]

FOR_DEVELOPERS = re.compile(
    r"callable|invalid (option string|conflict)|positionals|__call__|mode %r|can't open|conflict"
    r"|cannot (have|merge)|dest=|mutually|unexpected option|deprecated|warning|subcommands|default"
    r"|program's version|%\(heading\)s"
)
"""What argparse says of a parser that is put together wrongly, or of what none of ours has."""
CODES = {
    *("toro", "corona", "seco", "ligero", "terminal", "seconds", "within", "house", "toml"),
    *("bunchbook", "json", "text"),
}


def asked_by_argparse() -> Iterator[str]:
    """The messages that this Python's argparse looks up."""
    for node in ast.walk(ast.parse(inspect.getsource(argparse))):
        match node:
            case ast.Call(ast.Name("_" | "ngettext"), [ast.Constant(str(message)), *_]):
                yield message


def test_the_catalogue_keeps_what_argparse_says() -> None:
    listed = {each.made.template for each in ARGPARSE}
    asked = {text for text in asked_by_argparse() if not FOR_DEVELOPERS.search(text)}
    assert asked <= listed


@pytest.mark.parametrize("name", ["", *COMMANDS])
def test_help_is_spanish_throughout(bunchbook: Bunchbook, name: str) -> None:
    said = bunchbook(*name.split(), "--help", "--lang", "es", at=None).out
    assert said.startswith(f"uso: bunchbook {name}".rstrip())
    assert "muestra esta ayuda y termina" in said
    assert "opciones de todo comando:" in said
    assert "El tabaco daña la salud" in said
    assert not re.search(r"\b(the|with|into|and|of|options|usage|FILE|BENCH)\b", said)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["card"], "bunchbook card: error: hacen falta estos argumentos: MESA"),
        (["house", "sell"], "argumento ACCIÓN: opción no válida: 'sell' (elija entre"),
        (["card", "7", "8"], "bunchbook card: error: argumentos que no se conocen: 8"),
        (["card", "--data"], "argumento --data: se esperaba un argumento"),
        (["card", "7", "--json=x"], "argumento --json: no lleva argumento: 'x'"),
        (["try", "B1", "--strength-within", "x"], "--strength-within: valor no válido: 'x'"),
        (["roll"], "argumento COMANDO: opción no válida: 'roll' (elija entre"),
    ],
)
def test_a_command_line_that_cannot_be_read_is_told_in_spanish(
    bunchbook: Bunchbook, words: list[str], says: str
) -> None:
    ran = bunchbook("--lang=es", *words, at=None) if words == ["roll"] else bunchbook(
        *words[:1], "--lang=es", *words[1:], at=None
    )  # fmt: skip
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("uso: bunchbook")
    assert says in ran.err


def test_a_day_is_told_in_spanish(loaded: Bunchbook) -> None:
    lines = ("7 take SE-1 600", "7 made 50", "7 good 45", "7 fail torn 2", "7 10.8 10.9")
    assert loaded("enter", *(f"{line}!" for line in lines)).code == 0
    said = loaded("day", "--lang", "es").out
    assert "2026-05-04, abierto, anotaciones 5, anuladas 0" in said
    assert "hechos 50, buenos 45, rechazados 2, reproceso 0, a la primera" in said
    assert re.search(r"^roto +2  suele ir a otra capa$", said, re.MULTILINE)
    assert "hoja, gramos a humedad estándar" in said
    assert loaded("close", "--lang", "es").code == 0
    assert "2026-05-04, cerrado, anotaciones" in loaded("day", "--lang", "es").out


def test_what_cannot_be_done_is_told_in_spanish(loaded: Bunchbook) -> None:
    for words, says in (
        (["day", "ayer"], 'se esperaba un día como 2026-05-04, se encontró "ayer"'),
        (["days", "2026", "2025"], "se esperaba primero el día anterior"),
        (["day", "--json", "--csv", "x"], "dé solo una de --json, --html y --csv"),
        (["leaf", "--html", "x"], "lo que se imprime es la hoja de entrega"),
        (["house", "check", "none.toml"], "none.toml: no se puede leer:"),
        (["day", "--demo", "--data", "x"], "--demo trabaja en una copia desechable"),
        ([], "la galera necesita una terminal"),
    ):
        ran = loaded(*words, "--lang", "es")
        assert (ran.code, ran.out) == (2, "")
        assert says in ran.err


class Marked:
    """A language that puts every sentence between « and »."""

    def gettext(self, message: str) -> str:
        return f"«{message}»"

    def pgettext(self, _context: str, message: str) -> str:
        return self.gettext(message)

    def ngettext(self, one: str, many: str, n: int) -> str:
        return self.gettext(one if n == 1 else many)


@pytest.fixture
def marked(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Have that language spoken instead of Spanish; what is kept of either is forgotten."""

    def forget() -> None:
        tongue_of.cache_clear()
        words_of.cache_clear()

    forget()
    monkeypatch.setattr(gettext, "translation", lambda *_, **__: Marked())
    yield
    forget()


def outside(text: str) -> str:
    """What stands in no sentence."""
    while (less := re.sub(r"«[^«»]*»", " ", text)) != text:
        text = less
    return text


@pytest.mark.parametrize(
    "words",
    [
        ("card", "7"), ("card", "7", "--why"), ("cards",), ("chart", "7"), ("leaf",),
        ("leaf", "--issue"), ("day",), ("day", "2026-05-04"), ("days", "2026"),
        ("days", "2026", "--by", "week"), ("pay", "2026"), ("month", "2026-05"), ("verify",),
        ("house", "show"), ("rounds",), ("day", "ayer"), ("enter", "7 made"),
        ("line", "B1"), ("try", "B1", "LI-1=3"), ("panel", "show"), ("try", "B1"),
    ],
)  # fmt: skip
@pytest.mark.usefixtures("marked")
def test_every_word_of_a_command_is_the_catalogues(
    loaded: Bunchbook, words: tuple[str, ...]
) -> None:
    lines = ("receive SE-1 24-1 9kg", "7 take SE-1 600", "7 made 50", "7 good 45", "7 fail torn 2")
    assert loaded("enter", *(f"{line}!" for line in (*lines, "7 10.8 10.9"))).code == 0
    assert loaded("enter", "7 made 5", at="2026-05-03 09:00").code == 0
    assert loaded("close", "2026-05-03", at="2026-05-03 17:00").code == 0
    ran = loaded(*words, "--lang", "es")
    said = outside(ran.err if words[:2] == ("house", "show") else ran.out + ran.err)
    assert set(re.findall(r"[a-z]{4,}", said)) <= CODES
