"""The house's PIN as it is kept: hashed by scrypt, read strictly, written where it stands."""

from __future__ import annotations

import pytest

from core.desk.load import examine
from core.house.edit import with_house_key
from core.house.pin import KeptPin, hashed, is_pin, is_right, kept_pin, scrypt
from core.house.stored import restore, store
from tests.desk.conftest import HOUSE_TOML

# RFC 7914, section 12: test vectors for scrypt.
NOTHING = (
    "77d6576238657b203b19ca42c18a0497f16b4844e3074ae8dfdffa3fede21442"
    "fcd0069ded0948f8326a753a0fc81f17e8d3e0fb2e0d3628cf35e20c38d18906"
)
PASSWORD = (
    "fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162"
    "2eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640"
)
LETMEIN = (
    "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2"
    "d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887"
)

KEPT = hashed("4711", b"0123456789abcdef")


@pytest.mark.parametrize(
    ("password", "salt", "cost", "block", "parallel", "derived"),
    [
        ("", "", 16, 1, 1, NOTHING),
        ("password", "NaCl", 1024, 8, 16, PASSWORD),
        ("pleaseletmein", "SodiumChloride", 16384, 8, 1, LETMEIN),
    ],
)
def test_it_is_scrypt_as_published(
    password: str, salt: str, cost: int, block: int, parallel: int, derived: str
) -> None:
    how = KeptPin(cost, block, parallel, salt.encode(), b"")
    assert scrypt(password.encode(), how, 64).hex() == derived


def test_the_right_pin_is_told_from_others() -> None:
    assert is_right("4711", KEPT)
    for other in ("4712", "04711", "47110", "", "abcd"):
        assert not is_right(other, KEPT)
    assert hashed("4711", b"another salt 16b") != KEPT
    assert "4711" not in KEPT.rpartition(":")[0]


@pytest.mark.parametrize("text", ["4711", "12345678"])
def test_a_pin_is_four_to_eight_digits(text: str) -> None:
    assert is_pin(text)


@pytest.mark.parametrize("text", ["", "123", "123456789", "12a4", "1 23", "12.4", "१२३४", "4711\n"])
def test_anything_else_is_none(text: str) -> None:
    assert not is_pin(text)


@pytest.mark.parametrize(
    "text",
    [
        "4711",
        KEPT.replace("scrypt", "md5"),
        KEPT.replace(":16384:", ":1024:"),  # too cheap to try
        KEPT.replace(":16384:", ":16385:"),  # no power of two
        KEPT.replace(":16384:", ":999999:"),
        KEPT.replace(":8:1:", ":8:9:"),
        KEPT[:-1],
        KEPT.upper(),
    ],
)
def test_another_form_is_a_problem_that_does_not_show_it(text: str) -> None:
    assert kept_pin(text) is None
    book = with_house_key(HOUSE_TOML, "pin", f'"{text}"')
    assert book is not None
    read = examine(book, "house.toml")
    assert read.house is None
    (problem,) = read.problems
    assert "bunchbook pin" in str(problem)
    assert text not in str(problem)


def test_it_is_written_into_the_houses_own_text_and_out_again() -> None:
    book = with_house_key(HOUSE_TOML, "pin", f'"{KEPT}"')
    assert book is not None
    house = examine(book, "house.toml").house
    assert house is not None
    assert house.house.pin == KEPT
    assert restore(store(house)) == house
    assert [row for row in book.splitlines() if row not in HOUSE_TOML.splitlines()] == [
        f'pin = "{KEPT}"'
    ]
    other = with_house_key(book, "pin", f'"{KEPT[:-1]}0"')
    assert other is not None
    assert other.count("pin =") == 1
    assert with_house_key(book, "pin", None) == HOUSE_TOML
    assert with_house_key(HOUSE_TOML, "pin", None) == HOUSE_TOML


def test_a_house_that_is_not_written_as_a_table_is_left_alone() -> None:
    assert with_house_key('house.name = "Taller"\n', "pin", f'"{KEPT}"') is None
