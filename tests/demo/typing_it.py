"""The line that somebody types for a request."""

from __future__ import annotations

from core.entry import requests as ask


def typed(  # noqa: C901, PLR0912 - one short case for each kind of line
    request: ask.Request,
) -> tuple[str, str | None]:
    """The line, and the bench on whose card it is typed, None where that is no matter."""
    match request:
        case ask.Reading(bench, reading):
            return f"{reading:g}", bench
        case ask.Done(bench):
            return "", bench
        case ask.Check(bench, "bunch", readings):
            return f"{bench} {_numbers(readings)}", None
        case ask.Check(bench, "bundle", readings, of):
            return f"{bench} bundle {of} {_numbers(readings)}", None
        case ask.Check(bench, measure, readings):
            return f"{bench} {measure} {_numbers(readings)}", None
        case ask.Count(bench, kind, n):
            return f"{bench} {kind} {n}", None
        case ask.Fail(bench, faults):
            return f"{bench} fail " + " ".join(f"{fault} {n}" for fault, n in faults), None
        case ask.Hold(bench, n, reason):
            return f"{bench} hold {n} {reason}", None
        case ask.Leaf(bench, kind, leaf, grams, None):
            return f"{bench} {kind} {leaf} {grams:g}", None
        case ask.Leaf(bench, kind, leaf, grams, lot):
            return f"{bench} {kind} {leaf} {grams:g} lot {lot}", None
        case ask.Scrap(bench, grams, None, kind):
            return f"{bench} {kind} {grams:g}", None
        case ask.Sweepings(grams, None):
            return f"sweepings {grams:g}", None
        case ask.Receive(leaf, lot, grams, moisture, crop, bales, price):
            own = "" if moisture is None else f"{100 * moisture:.1f}% "
            more = f"crop {crop} bales {bales} price {price:g}"
            return f"receive {leaf} {lot} {grams / 1000:g}kg {own}{more}", None
        case ask.Stocktake(leaf, lot, grams, None):
            return f"stock {leaf} {lot} {grams / 1000:g}kg", None
        case ask.Roll(bench, vitola):
            return f"{bench} roll {vitola}", None
        case ask.Moisture(leaf, moisture):
            return f"{leaf} {100 * moisture:.1f}%", None
        case ask.Undo(reason=reason):
            return f"undo {reason}", None
        case ask.Note(text, None):
            return f"note {text}", None
        case ask.Note(text, bench):
            return f"{bench} note {text}", None
        case _:
            raise AssertionError(request)


def _numbers(readings: tuple[float, ...]) -> str:
    return " ".join(f"{reading:g}" for reading in readings)
