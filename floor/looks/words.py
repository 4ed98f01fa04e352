"""The floor's words in one language: each screen takes them from here, none has its own."""

from __future__ import annotations

import datetime as dt

from core.desk.figures import thousands
from floor.looks.words_bench import BoardWords, CardWords, ChartWords, RoundsWords
from floor.looks.words_day import DaysWords, DayWords, LeafWords, LogWords
from floor.looks.words_help import FrameWords, HelpWords
from floor.looks.words_line import LineWords, PanelWords


class Words(
    FrameWords,
    HelpWords,
    BoardWords,
    CardWords,
    RoundsWords,
    ChartWords,
    DayWords,
    DaysWords,
    LeafWords,
    LogWords,
    LineWords,
    PanelWords,
):
    """Everything the screens say themselves. Braces are filled in."""

    def class_of(self, leaf_class: str) -> str:
        """A leaf's class, or its use as binder or wrapper."""
        return {"binder": self.binder, "wrapper": self.wrapper}.get(leaf_class, leaf_class)


def plural(forms: tuple[str, str], n: int) -> str:
    """The form for one or for many, with the count in it."""
    return forms[0 if n == 1 else 1].format(n=thousands(n))


def long_date(date: dt.date, words: Words) -> str:
    """The date as people write it."""
    return words.date.format(
        weekday=words.weekdays[date.weekday()],
        day=date.day,
        month=words.months[date.month - 1],
        year=date.year,
    )
