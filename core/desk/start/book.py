"""The answers as a house book: TOML with notes on every key and on how to add more."""

from __future__ import annotations

import json
import textwrap

from core.desk.start.usual import BUILD, LEAVES, ON_CIGAR, Answers
from core.house.model import Language
from core.say import Said, say, told
from core.tongue import tongue_of

WIDTH = 90


def as_toml(answers: Answers, language: Language) -> str:
    """The house book that all the answers make, its notes in the language."""
    page = _Page(language)
    _house(page, answers)
    _leaves(page, answers)
    _blend(page, answers)
    _vitola(page, answers)
    _benches(page, answers)
    return page.text


class _Page:
    """A text that grows line by line."""

    def __init__(self, language: Language) -> None:
        self._tongue = tongue_of(language)
        self._lines: list[str] = []

    @property
    def text(self) -> str:
        return "\n".join(self._lines) + "\n"

    def note(self, said: Said) -> None:
        """A comment, on as many lines as it needs."""
        self._lines += [f"# {row}" for row in textwrap.wrap(told(said, self._tongue), WIDTH - 2)]

    def head(self, table: str) -> None:
        self._lines += [table]

    def gap(self) -> None:
        self._lines += [""]

    def key(self, key: str, value: str, said: Said | None = None) -> None:
        """A key, its value as TOML writes it, and what it means."""
        row = f"{key} = {value}"
        self._lines += [row if said is None else f"{row:<29} # {told(said, self._tongue)}"]

    def could(self, key: str, value: str, said: Said) -> None:
        """A key that may be added, as a comment."""
        self.key(f"# {key}", value, said)


def quoted(text: str) -> str:
    """Text as a TOML string: JSON's escapes are among TOML's, DEL apart."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _house(page: _Page, answers: Answers) -> None:
    page.note(
        say(
            "The house book: what the house rolls and where. Change it in any editor, then have "
            "it checked and loaded: bunchbook house check FILE, bunchbook house load FILE. "
            "A line that begins with # is a note; take the # away to put a key into use."
        )
    )
    page.gap()
    page.head("[house]")
    page.key("name", quoted(answers["name"]))
    page.key("language", quoted(answers["language"]), say("en or es"))
    page.key(
        "scale_division", quoted(answers["scale_division"]), say("smallest step of the scales")
    )
    page.key(
        "standard_moisture",
        quoted(answers["standard_moisture"]),
        say("wet basis; weights and parts are told at it"),
    )
    page.key("day_begins", quoted(answers["day_begins"]), say("when the working day begins"))
    page.could("tolerance", '"4 %"', say("of a bunch's target, each side"))
    page.could("weigh_every", '"60 min"', say("how often a steady bench is weighed"))
    page.could("readings", "5", say("bunches weighed a check"))
    page.could("currency", '"USD"', say("of prices and rates"))


def _leaves(page: _Page, answers: Answers) -> None:
    page.gap()
    page.note(
        say(
            "The leaves in the store. For one more, copy a whole [[leaf]] and give the copy its "
            "own code. Moisture is what was measured last; the floor takes newer figures."
        )
    )
    for n in range(1, LEAVES + 1):
        page.head("[[leaf]]")
        page.key("code", quoted(answers[f"leaf{n}.code"]))
        page.key("use", '"filler"')
        page.key("class", quoted(answers[f"leaf{n}.class"]), say("volado, seco, viso, ligero, …"))
        page.key("moisture", quoted(answers["moisture"]))
        page.key(
            "half_leaf",
            quoted(answers[f"leaf{n}.half_leaf"]),
            say("one stemmed half-leaf at standard moisture"),
        )
        page.could("piece", "0.5", say("smallest part of a half-leaf that is laid"))
        page.could("price", "21.0", say("a kg at standard moisture"))
        page.could("strength", "3.0", say("the house's own score, 0 to 10"))
        page.gap()
    page.note(
        say(
            "Binder and wrapper. Build and on_cigar are usual figures that nobody was asked for: "
            "measure the house's own. Build is what all layers add to the radius; on_cigar is "
            "the leaf's weight by the area it covers, at standard moisture."
        )
    )
    for use in ("binder", "wrapper"):
        page.head("[[leaf]]")
        page.key("code", quoted(answers[f"{use}.code"]))
        page.key("use", quoted(use))
        page.key("moisture", quoted(answers["cover_moisture"]))
        page.key("half_leaf", quoted(answers[f"{use}.half_leaf"]))
        page.key("pieces", answers[f"{use}.pieces"], say("half-leaves on one bunch"))
        page.key("build", quoted(BUILD))
        page.key("on_cigar", quoted(ON_CIGAR))
        page.could("overlap", '"30 %"', say("area laid over the side's area"))
        page.gap()


def _blend(page: _Page, answers: Answers) -> None:
    parts = answers["blend.parts"].split()
    codes = (answers[f"leaf{n}.code"] for n in range(1, LEAVES + 1))
    told_parts = ", ".join(
        f"{quoted(code)} = {part}" for code, part in zip(codes, parts, strict=True)
    )
    page.note(
        say("A blend: filler in parts by weight. For one more, copy it and give it its own code.")
    )
    page.head("[[blend]]")
    page.key("code", quoted(answers["blend.code"]))
    page.key("parts", f"{{ {told_parts} }}")
    page.key("binder", quoted(answers["binder.code"]))
    page.key("wrapper", quoted(answers["wrapper.code"]))


def _vitola(page: _Page, answers: Answers) -> None:
    page.gap()
    page.note(
        say(
            "A vitola. Each further one is a [[vitola]] of its own; until bunches of it are "
            "approved its filler is reckoned from those that are."
        )
    )
    page.head("[[vitola]]")
    page.key("code", quoted(answers["vitola.code"]))
    page.key("length", quoted(answers["vitola.length"]))
    page.key("ring", answers["vitola.ring"], say("64ths of an inch"))
    page.key("shape", quoted(answers["vitola.shape"]), say("parejo, pressed or figurado"))
    page.could("tolerance", '"0.5 g"', say("where the house's is not meant"))
    page.could("price", "310.0", say("for 1,000"))
    page.gap()
    page.note(
        say(
            "Approved bunches, weighed: the house packs to them. The more sizes have one, the "
            "better the filler of the others is known. Without blend it holds for every blend."
        )
    )
    page.head("[[approved]]")
    page.key("blend", quoted(answers["blend.code"]))
    page.key("vitola", quoted(answers["vitola.code"]))
    page.key("filler", quoted(answers["filler"]), say("a bunch's mean at standard moisture"))
    page.could("bunches", "30", say("how many were weighed"))


def _benches(page: _Page, answers: Answers) -> None:
    page.gap()
    page.note(
        say(
            'The benches. A pair may be given by codes, never by names: buncher = "P-01", '
            'roller = "R-01"; and a day\'s quota: quota = 300.'
        )
    )
    for number in range(1, int(answers["benches"]) + 1):
        page.head("[[bench]]")
        page.key("number", str(number))
        page.key("blend", quoted(answers["blend.code"]))
        page.key("vitola", quoted(answers["vitola.code"]))
