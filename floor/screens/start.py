"""The first run on the screen: the question, what is usual, the answers so far."""

from __future__ import annotations

from rich.cells import cell_len

from core.desk.start.check import question_told, summary, worded
from core.desk.start.first import FirstHouse
from core.desk.start.questions import QUESTIONS, because
from core.desk.start.usual import TAKEN_AS_USUAL
from core.problems import Problem
from core.say import joined, say
from floor.looks.missing import command_lines, data_option
from floor.looks.spans import BLANK, Ink, Line, Span, fit, inked, width_of, wrap
from floor.looks.words import Words

LABEL_CELLS = 24
NUMBER_CELLS = 5


def start_lines(first: FirstHouse, row: int, width: int, height: int, words: Words) -> list[Line]:
    """The page of the stage that the first run stands at; `row` is where its list stands."""
    page = _Page(width, words)
    match first.stage:
        case "choose" | "done":
            _choice(page, first, height)
        case "ask":
            _question(page, first)
        case "write" | "over":
            _summary(page, first)
        case "path":
            page.title(say("A house book that is there already"))
            page.text(say("Type its path and Enter. It is checked first, and not changed."))
            page.text(_BACK, "faint")
        case "mend":
            return _problems(page, first, row, height)
        case "confirm":
            _sound(page, first)
    if first.stage in ("ask", "write", "over"):
        _answers(page, first, row)
    return page.lines[:height]


_BACK = say("< or Esc goes back · quit leaves")


class _Page:
    """Lines as they are added, told and within the width."""

    def __init__(self, width: int, words: Words) -> None:
        self.width = width
        self.words = words
        self.lines: list[Line] = []

    def title(self, said: str) -> None:
        self.gap()
        self.lines += [
            (Span(" "), *row) for row in inked(self._told(said), self.width - 2, "title")
        ]

    def text(self, said: str, ink: Ink = "plain") -> None:
        self.lines += [(Span(" "), *row) for row in inked(self._told(said), self.width - 2, ink)]

    def gap(self) -> None:
        self.lines += [BLANK]

    def choice(self, word: str, said: str) -> None:
        """A word to type, and what it does."""
        told = inked(self._told(said), self.width - NUMBER_CELLS - 4)
        for n, row in enumerate(told):
            head = Span(f"  {fit(word if n == 0 else '', NUMBER_CELLS)} ", "strong")
            self.lines += [(head, *row)]

    def pair(self, label: str, value: str) -> None:
        room = self.width - LABEL_CELLS - 4
        told = Span(f"  {fit(self._told(label), LABEL_CELLS)} ", "faint")
        margin = Span(" " * width_of((told,)))
        for n, row in enumerate(wrap(self._told(value), room)):
            self.lines += [(told if n == 0 else margin, Span(row))]

    def _told(self, said: str) -> str:
        return self.words.tell(said)


def _choice(page: _Page, first: FirstHouse, height: int) -> None:
    """The ways to begin; the commands as far as they have room, for half of one is none."""
    page.title(page.words.no_house[0].format(folder=first.folder))
    page.text(say("It says what the house rolls and where. Three ways to begin:"))
    page.gap()
    answered, every = len(first.answers or first.kept), len(QUESTIONS)
    if answered:
        going_on = say("go on: {n} of {all} questions are answered", n=answered, all=every)
        page.choice("1", going_on)
        page.choice(page.words.tell(say("new")), say("forget them and begin anew"))
    else:
        page.choice("1", say("answer {n} questions; the house book is written for you", n=every))
    if first.names_files:
        page.choice("2", say("load a house book that is there: its path is asked"))
    page.choice("3", say("look at the demo house first: bunchbook --demo"))
    page.gap()
    page.text(say("Type one and Enter; Enter alone takes 1. Ctrl+L: en español."), "strong")
    data = data_option(first.folder)
    more = _Page(page.width, page.words)
    more.gap()
    more.text(say("The same by commands:"), "faint")
    for command in (
        say("bunchbook{data} house start", data=data),
        say("bunchbook{data} house load house.toml", data=data),
    ):
        more.lines += command_lines(str(command), page.width, 4)
        if len(page.lines) + len(more.lines) <= height:
            page.lines += more.lines
            more.lines = []


def _question(page: _Page, first: FirstHouse) -> None:
    question = first.question
    if question is None:
        return
    page.title(question_told(question, first.answers))
    page.text(because(question, first.answers))
    page.gap()
    page.text(say("Enter alone takes: {usual}", usual=worded(first.usual)), "strong")
    page.text(joined(" · ", (_BACK, say("answers are kept"))) if first.answers else _BACK, "faint")


def _summary(page: _Page, first: FirstHouse) -> None:
    page.title(say("The house: {contents}", contents=first.contents))
    page.text(TAKEN_AS_USUAL)
    page.gap()
    file = str(first.target)
    if first.stage == "over":
        page.text(say("{file} is there already.", file=file), "wrong")
        page.text(say("yes overwrites it · no, or another path, leaves it"), "strong")
    else:
        if first.names_files:
            page.text(say("Enter writes it and loads it; or type another path:"), "strong")
        else:
            page.text(say("Enter writes it and loads it:"), "strong")
        page.text(file)
    page.text(_BACK, "faint")


def _answers(page: _Page, first: FirstHouse, row: int) -> None:
    """The answers, newest first, from the row on that was scrolled to."""
    rows = summary(first.answers)[::-1]
    if not rows:
        return
    page.gap()
    page.text(say("Answers so far, newest first (arrows, PgDn):"), "faint")
    for label, value in rows[row:]:
        page.pair(label, value)


def _problems(page: _Page, first: FirstHouse, row: int, height: int) -> list[Line]:
    """One problem a row, the whole sentence of the one under the cursor below."""
    problems = first.problems
    row = min(row, len(problems) - 1)
    page.title(say("{n} of {all} to mend in {file}", n=row + 1, all=len(problems), file=first.file))
    whole = inked(page.words.tell(problems[row].said), page.width - 2, "strong")
    foot = _Page(page.width, page.words)
    foot.gap()
    foot.lines += [(Span(" "), *line) for line in whole]
    foot.gap()
    foot.text(say("Mend it in an editor; then again and Enter reads it again"), "strong")
    foot.text(_BACK, "faint")
    room = max(1, height - len(page.lines) - len(foot.lines))
    begin = max(0, min(row - room + 1, row))
    for n, problem in enumerate(problems[begin : begin + room], start=begin):
        page.lines += [_problem(page, problem, first.file, under_cursor=n == row)]
    return [*page.lines, *foot.lines]


def _problem(page: _Page, problem: Problem, file: str, *, under_cursor: bool) -> Line:
    """The place within the file and the sentence, as much as there is room for."""
    told = page.words.tell(problem.said).removeprefix(f"{file}: ")
    mark = "▸" if under_cursor else " "
    room = page.width - 3
    if cell_len(told) > room:
        told = told[: room - 1].rstrip() + "…"
    return (Span(f" {mark}{told}", "strong" if under_cursor else "plain"),)


def _sound(page: _Page, first: FirstHouse) -> None:
    page.title(say("{file} is sound", file=first.file))
    page.text(first.contents)
    page.gap()
    page.text(say("Enter or yes loads it; no, < or Esc goes back"), "strong")
    if first.odd:
        page.gap()
        page.text(say("Possible, but unusual:"), "faint")
        for problem in first.odd:
            page.text(problem.said)
