"""`[[bench]]`: who sits where, and what they roll."""

from __future__ import annotations

from core.house import limits
from core.house.codes import Known, bench_number
from core.house.fields import LONGEST_SHORT, Fields
from core.house.model import Bench
from core.house.shown import shown
from core.say import say

BENCH_KEYS = ("number", "buncher", "roller", "blend", "vitola", "quota")
NUMBER_LIKE = say('a number, or text such as "7-A"')
NUMBER_TAKEN = say("the number {code} is taken by entry {entry}; each must have its own")


def read_bench(table: Fields, known: Known) -> Bench | None:
    """`[[bench]]`."""
    table.only(BENCH_KEYS)
    value = table.raw("number", need=True, like=NUMBER_LIKE)
    number = bench_number(value)
    if number is not None:
        table.is_first(number, known.bench, NUMBER_TAKEN)
    elif value is not None:
        table.wrong(
            say('number {found} must be 1 to 9999, or text such as "7-A"', found=shown(value))
        )
    return table.make(
        Bench,
        number=number,
        buncher=table.text("buncher", LONGEST_SHORT),
        roller=table.text("roller", LONGEST_SHORT),
        blend=table.reference("blend", known.blend, "blend"),
        vitola=table.reference("vitola", known.vitola, "vitola"),
        quota=table.whole("quota", limits.QUOTA),
    )
