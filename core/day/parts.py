"""The closed days of a span by vitola, by bench and by buncher."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from core.day.figures import Figures, Sums, figures
from core.day.months import MonthSums, run_sums
from core.day.runsums import Column
from core.day.summary import DaySummary
from core.house.numbering import bench_json, bench_order


class Parts(NamedTuple):
    """The same days by vitola and by buncher, in the order first met, and by bench, in the
    house's order.
    """

    by_vitola: dict[str, Figures]
    by_bench: dict[str, Figures]
    by_buncher: dict[str, Figures]

    def json(self) -> dict[str, list[dict[str, object]]]:
        """The parts under the keys of `days --json`."""
        return {
            "by_vitola": [{"vitola": v, **p._asdict()} for v, p in self.by_vitola.items()],
            "by_bench": [{"bench": bench_json(b), **p._asdict()} for b, p in self.by_bench.items()],
            "by_buncher": [{"buncher": b, **p._asdict()} for b, p in self.by_buncher.items()],
        }


def parts(days: Sequence[DaySummary], months: Mapping[str, MonthSums]) -> Parts:
    """Add up the runs of the closed days, with the sums that are kept of their months."""
    _, runs, columns, told = run_sums(days, months)
    rows = list(zip(*columns, strict=True))
    by_bench = _by((str(bench) for bench, _, _ in runs), rows, told=told)
    return Parts(
        by_vitola=_by((vitola for _, vitola, _ in runs), rows, told=told),
        by_bench={bench: by_bench[bench] for bench in sorted(by_bench, key=bench_order)},
        by_buncher=_by((buncher for _, _, buncher in runs), rows, told=told),
    )


def _by(names: Iterable[str], rows: Iterable[Column], *, told: bool) -> dict[str, Figures]:
    """The rows of one name together, in the order the names come."""
    found: dict[str, list[Column]] = {}
    for name, row in zip(names, rows, strict=True):
        found.setdefault(name, []).append(row)
    return {
        name: _part(map(sum, zip(*mine, strict=True)), told=told) for name, mine in found.items()
    }


def _part(columns: Iterable[float], *, told: bool) -> Figures:
    sums = Sums._make(columns)
    return figures(sums if told else sums._replace(in_good_g=None, unexplained_g=None))
