"""What a line that records nothing does, in words, and where it leads."""

from __future__ import annotations

from core.desk.faces import Go
from core.entry import requests as ask
from core.measure import MEASURES
from core.say import say


def plain_words(request: ask.Request) -> str | None:
    """What is done by a line that needs no judging."""
    if isinstance(request, ask.OpenBench):
        return say("open bench {bench}'s card", bench=request.bench)
    if isinstance(request, ask.Reopen):
        return say("open the day again: {reason}", reason=request.reason)
    if isinstance(request, ask.Initials):
        return initials_words(request)
    if isinstance(request, ask.Show):
        return _SHOWS[request.screen].format(words=request.words)
    return _chart_words(request) if isinstance(request, ask.Chart) else None


def initials_words(request: ask.Initials) -> str:
    """Whose initials entries carry from here on."""
    return say("entries of this terminal carry {who} from here on", who=request.who)


def where(request: ask.OpenBench | ask.Show | ask.Chart, at: str | None) -> Go:
    """The page it goes to; `at` is the bench whose card is shown."""
    if isinstance(request, ask.Show):
        return Go(request.screen, at, request.words)
    if isinstance(request, ask.Chart):
        return Go("chart", request.bench, request.measure or "")
    return Go("card", request.bench)


def _chart_words(request: ask.Chart) -> str:
    if not request.measure:
        return say("show bench {bench}'s chart", bench=request.bench)
    name = MEASURES[request.measure]
    return say("show bench {bench}'s chart of {measure}", bench=request.bench, measure=name)


_SHOWS = {
    "board": say("go to the Board"),
    "why": say("show the steps behind this card"),
    "rounds": say("go to the rounds: who is to be weighed next"),
    "leaf": say("go to the Leaf: what is in stock and for how long"),
    "line": say("go to the Line: what holds in which size, and what it costs"),
    "drop": say("go to the Line as it is today"),
    "day": say("go to the Day"),
    "days": say("go to the Days: the last weeks side by side"),
    "panel": say("go to the Panel: does the line taste alike?"),
    "log": say("go to the Log"),
    "help": say("show help"),
    "only": say("list only the benches with: {words}"),
    "sort": say("sort the benches by {words}"),
    "close": say("close the day (asks first)"),
}
