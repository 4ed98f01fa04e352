"""How benches are numbered: 7 and 7-A, in order and in JSON."""

from __future__ import annotations


def bench_order(number: str) -> tuple[int, str]:
    """Sort key that puts 7 before 7-A before 10."""
    digits, _, text = number.partition("-")
    return int(digits), text


def bench_json(number: str) -> int | str:
    """A bench as JSON gives it: a plain number as one, `7-A` as text."""
    return int(number) if number.isdecimal() else number
