"""The first run at one terminal: by answering, or with a house book that is there already.

It is told lines and says what came of them, as the desk is. Whoever shows it asks what it
stands at: `stage`, `question`, `problems`, `summary`.
"""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from core.day.calendar import Clock
from core.desk.book_file import book_text, contents
from core.desk.faces import Meaning, Mistake, Told
from core.desk.load import examine, take_in
from core.desk.start.book import as_toml
from core.desk.start.check import Refused, answered, house_of, worded
from core.desk.start.files import holds, is_among_records, names_path, path_of, write_over
from core.desk.start.kept import forget, keep, kept
from core.desk.start.questions import QUESTIONS, Question
from core.desk.today import Today
from core.house.model import HouseBook, Language
from core.problems import BadInput, Problem, StoreUnusable, UserError
from core.say import Said, say

Stage = Literal["choose", "ask", "write", "over", "path", "mend", "confirm", "done"]

BACK = frozenset({"<", "back", "atrás", "atras"})
YES = frozenset({"yes", "y", "sí", "si", "s"})
NO = frozenset({"no", "n"})
AGAIN = frozenset({"again", "otra"})
NEW = frozenset({"new", "nuevo"})
DEMO = "bunchbook --demo"

LOADED_ELSEWHERE = say("another terminal has loaded a house book: this is it")


class FirstHouse:
    """From no house book to one in force."""

    def __init__(
        self,
        folder: Path,
        clock: Clock,
        language: Language,
        *,
        target: Path | None = None,
        keeps: bool = True,
        names_files: bool = True,
    ) -> None:
        """`target` is where the house book is written if nothing else is said.

        Without `keeps` the answers are kept nowhere, and none that were are offered. Without
        `names_files` no path is taken: who is at a browser has no business among the files of
        the machine that serves it.
        """
        self.folder = folder
        self._clock = clock
        self.keeps = keeps
        self.names_files = names_files
        self._beginning: Language = language
        self._were: dict[str, str] = {}
        self._read: tuple[HouseBook, str] | None = None
        self.target = target or folder / "house.toml"
        self.stage: Stage = "choose"
        self.answers: dict[str, str] = {}
        self.kept = kept(folder) if keeps else {}
        self.unkept = not keeps
        self.file = ""
        self.problems: tuple[Problem, ...] = ()
        self.odd: tuple[Problem, ...] = ()

    # -- what it stands at --------------------------------------------------------------------

    @property
    def language(self) -> Language:
        """The house's, as soon as it was answered."""
        answer = self.answers.get("language", self._beginning)
        return "es" if answer == "es" else "en"

    @property
    def question(self) -> Question | None:
        """The question asked now; None where all are answered."""
        return next((q for q in QUESTIONS if q.key not in self.answers), None)

    @property
    def usual(self) -> str:
        """What an empty line answers: what was answered before one went back, else the usual."""
        question = self.question
        if question is None:
            return ""
        if question.key == "language":
            return self._were.get("language", self._beginning)
        return self._were.get(question.key) or question.usual(self.answers)

    @property
    def contents(self) -> Said:
        """What the house book to be loaded holds."""
        house = self._read[0] if self._read else house_of(self.answers).house
        return say("nothing") if house is None else contents(house)

    # -- lines --------------------------------------------------------------------------------

    def enter(self, line: str) -> Told | Mistake:
        """Do what the line says here; nothing that a user or a disk can do is raised."""
        line = line.strip()
        if line.casefold() in BACK:
            return Told("") if self.back() else Mistake(say("this is the beginning"))
        try:
            if self.stage in ("write", "over", "confirm") and self._is_elsewhere():
                return self._arrived(LOADED_ELSEWHERE)
            return self._at_stage(line)
        except UserError as trouble:
            return Mistake(trouble.said)
        except OSError as error:  # of a path that is too long, or within a folder of others
            return Mistake(say("the system refused: {why}", why=error.strerror or str(error)))

    def _at_stage(self, line: str) -> Told | Mistake:
        match self.stage:
            case "choose":
                return self._choose(line)
            case "ask":
                return self._ask(line)
            case "write":
                return self._write(line)
            case "over":
                return self._overwrite(line)
            case "path":
                return self._look(line)
            case "mend":
                return self._again(line)
            case "confirm":
                return self._confirm(line)
            case "done":
                return Told("")

    def would(self, line: str) -> Meaning:
        """What Enter would do with the line; nothing is done."""
        line = line.strip()
        if line.casefold() in BACK:
            return Meaning(say("go back one question"), ok=True)
        question = self.question
        if self.stage == "ask" and question is not None:
            taken = answered(self.answers, question, line, self.usual)
            if isinstance(taken, Refused):
                return Meaning(taken.says, ok=False)
            value = taken.answers[question.key]
            return Meaning(
                say("{what}: {value}", what=question.label, value=worded(value)), ok=True
            )
        if self.stage == "path" or (self.stage == "choose" and names_path(line)):
            return Meaning(say("read {file}", file=line), ok=True)
        if self.stage == "write":
            return Meaning(say("write {file}, and load it", file=line), ok=True)
        if self.stage == "choose":
            says = _CHOICES.get(line.casefold())
            return Meaning(_NO_CHOICE, ok=False) if says is None else Meaning(says, ok=True)
        return Meaning(_WOULD[self.stage], ok=True)

    def back(self) -> bool:
        """Go back one question, or to the choice; False where there is nothing before."""
        if self.stage in ("choose", "done"):
            return False
        before: Stage = "write" if self.stage == "over" else "choose"
        answering = self.stage in ("ask", "write")
        if answering and self.answers:
            key = next(reversed(self.answers))
            self._were[key] = self.answers.pop(key)
            before = "ask"
        self.stage = before
        return True

    def begin(self) -> None:
        """Ask the first question that has no answer yet."""
        self.stage = "ask" if self.question else "write"

    # -- each stage ---------------------------------------------------------------------------

    def _choose(self, line: str) -> Told | Mistake:
        word = line.casefold()
        if word in ("", "1"):
            self.answers = self.answers or dict(self.kept)
            self.begin()
        elif word == "2":
            if not self.names_files:
                return Mistake(_NO_FILES)
            self.stage = "path"
        elif word == "3":
            return Told(say("leave the floor (quit), then type: {command}", command=DEMO))
        elif word in NEW and (self.kept or self.answers):
            self.answers, self._were, self.kept = {}, {}, {}
            self.begin()
        elif names_path(line):
            return self._look(line)
        else:
            return Mistake(_NO_CHOICE)
        return Told("")

    def _ask(self, line: str) -> Told | Mistake:
        question = self.question
        if question is None:
            self.begin()
            return Told("")
        taken = answered(self.answers, question, line, self.usual)
        if isinstance(taken, Refused):
            return Mistake(taken.says)
        self.answers = taken.answers
        self.begin()
        if self.keeps:
            try:
                keep(self.folder, self.answers)
                self.unkept = False
            except StoreUnusable as trouble:
                self.unkept = True
                return Told(say("taken, but not kept: {why}", why=trouble.said))
        return Told(say("noted; {why}", why=taken.noted.says) if taken.noted else "")

    def _write(self, line: str) -> Told | Mistake:
        if line:
            self.target = self._path(line)
        if is_among_records(self.target, self.folder):
            return Mistake(
                say(
                    "{file}: the records are kept there; type another path, as {example}",
                    file=str(self.target),
                    example="~/house.toml",
                )
            )
        text = as_toml(self.answers, self.language)
        content = text.encode()
        if self.target.exists() and not holds(self.target, content):
            if not self.target.is_file():
                return Mistake(
                    say("{file}: is not a file; type another path", file=str(self.target))
                )
            self.stage = "over"
            return Told("")
        return self._written(text)

    def _overwrite(self, line: str) -> Told | Mistake:
        word = line.casefold()
        if word in YES:
            return self._written(as_toml(self.answers, self.language))
        if word in NO or not word:
            self.stage = "write"
            return Told(say("nothing was written; type another path, or < to go back"))
        self.stage = "write"
        return self._write(line)

    def _written(self, text: str) -> Told | Mistake:
        read = examine(text, str(self.target))
        if read.house is None:
            return Mistake(read.problems[0].said)
        if not holds(self.target, text.encode()):
            write_over(self.target, text.encode())
        self._load(read.house, text, str(self.target))
        return self._arrived(
            say(
                "{file} is written and in force; change it in an editor, then load it again",
                file=str(self.target),
            )
        )

    def _look(self, line: str) -> Told | Mistake:
        if not line:
            return Mistake(say("type the path of a house book, as in: {example}",
                               example="~/house.toml"))  # fmt: skip
        path = self._path(line)
        if path.exists() and not path.is_file():
            return Mistake(say("{file}: is not a file; type another path", file=str(path)))
        return self._examined(str(path))

    def _again(self, line: str) -> Told | Mistake:
        if not line or line.casefold() in AGAIN:
            return self._examined(self.file)
        return self._look(line)

    def _examined(self, file: str) -> Told | Mistake:
        """Read the file: its problems are shown; a sound one waits for a yes."""
        text = book_text(file)
        read = examine(text, file)
        self.file, self.problems, self.odd = file, read.problems, read.odd
        if read.house is None:
            self.stage = "mend"
            return Told("")
        self._read = (read.house, text.decode("utf-8-sig"))
        self.stage = "confirm"
        return Told("")

    def _confirm(self, line: str) -> Told | Mistake:
        word = line.casefold()
        if word in AGAIN:
            return self._examined(self.file)
        if word in NO or self._read is None:
            self.stage, self._read = "choose", None
            return Told(say("nothing was loaded"))
        if word and word not in YES:
            return self._look(line)
        self._load(*self._read, self.file)
        return self._arrived(say("{file} is in force", file=self.file))

    def _path(self, line: str) -> Path:
        if not self.names_files:
            raise BadInput(_NO_FILES)
        return path_of(line)

    # -- loading ------------------------------------------------------------------------------

    def _is_elsewhere(self) -> bool:
        """Whether another terminal has loaded a house book meanwhile."""
        today = Today(self.folder, self._clock)
        try:
            return today.house is not None
        finally:
            today.folder.close()

    def _load(self, house: HouseBook, text: str, file: str) -> None:
        today = Today(self.folder, self._clock)
        try:
            take_in(today, house, text, file, real=self._clock, pin=None)
        finally:
            today.folder.close()

    def _arrived(self, says: Said) -> Told:
        if self.keeps:
            forget(self.folder)
        self.stage = "done"
        return Told(says)


_NO_FILES = say(
    "a browser names no file of the machine that serves it; there: bunchbook house load FILE"
)
_NO_CHOICE = say("expected 1, 2, 3 or the path of a file")
_NEW = say("forget the answers and begin anew")
_CHOICES = {
    "1": say("answer the questions"),
    "2": say("type the path of a house book"),
    "3": say("the command that shows the demo house"),
    **dict.fromkeys(NEW, _NEW),
}
_WOULD: dict[Stage, Said] = {
    "done": say("show the Board"),
    "over": say("yes: overwrite it; no: another path"),
    "mend": say("read the file again"),
    "confirm": say("yes: load it; no: go back"),
}
