"""One measured promise, and the table of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from statistics import median
from typing import NamedTuple


class Row(NamedTuple):
    """Ours beside a peer's in one run. `bar` is the most the ratio may be, where promised.

    With `apart` the promise is on ours less theirs, in `unit`, not on their ratio.
    """

    name: str
    ours: float
    unit: str
    peer: str
    theirs: float
    bar: float | None = None
    apart: bool = False

    @property
    def score(self) -> float:
        return self.ours - self.theirs if self.apart else self.ours / self.theirs

    @property
    def met(self) -> bool:
        return self.bar is None or self.score <= self.bar


def table(rows: Sequence[Row]) -> str:
    """The rows as columns that line up."""
    lines = [("what", "ours", "beside", "theirs", "ratio", "promised", "")]
    for row in rows:
        sign = "+" if row.apart else "×"
        bar = "" if row.bar is None else f"≤ {sign}{row.bar:g}"
        state = "" if row.bar is None else "met" if row.met else "MISSED"
        lines.append(
            (
                row.name,
                f"{row.ours:.3g} {row.unit}",
                row.peer,
                f"{row.theirs:.3g} {row.unit}",
                f"{sign}{row.score:.3g}",
                bar,
                state,
            )
        )
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip()
        for line in lines
    )


def interleaved(times: int, *measures: Callable[[], float]) -> list[float]:
    """The medians of several measures, taken in turn so that noise falls on all alike."""
    taken = [[measure() for measure in measures] for _ in range(times)]
    return [median(column) for column in zip(*taken, strict=True)]
