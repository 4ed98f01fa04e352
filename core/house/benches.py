"""`[[bench]]`: who sits where, and what they roll."""

from __future__ import annotations

from core.house import limits
from core.house.codes import Known, bench_number
from core.house.fields import LONGEST_SHORT, Fields
from core.house.model import Bench
from core.house.shown import shown

BENCH_KEYS = ("number", "buncher", "roller", "blend", "vitola", "quota")


def read_bench(table: Fields, known: Known) -> Bench | None:
    """`[[bench]]`."""
    table.only(BENCH_KEYS)
    value = table.raw("number", need=True, like='a number, or text such as "7-A"')
    number = bench_number(value)
    if number is not None:
        table.is_first(f"the number {number}", number, known.bench)
    elif value is not None:
        table.wrong(f'number {shown(value)} must be 1 to 9999, or text such as "7-A"')
    return table.make(
        Bench,
        number=number,
        buncher=table.text("buncher", LONGEST_SHORT),
        roller=table.text("roller", LONGEST_SHORT),
        blend=table.reference("blend", known.blend, "blend"),
        vitola=table.reference("vitola", known.vitola, "vitola"),
        quota=table.whole("quota", limits.QUOTA),
    )
