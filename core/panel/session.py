"""A session of the panel: what was smoked under which code, and what each taster scored.

It is told by documents that are only ever added to: one opens it, the others name it. A changed
score is one more document, and the last one counts.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Any, Literal, NamedTuple, TypedDict, cast

from core.day.calendar import local
from core.problems import Problem, StoreUnusable
from core.say import Said, joined, say

FORMAT = 1
TRAITS = ("strength", "balance", "burn", "draw")
"""What is scored where nothing else is said, in the order it is typed."""

TRAIT_WORDS: Mapping[str, Said] = {
    "strength": say("strength"),
    "balance": say("balance"),
    "burn": say("burn"),
    "draw": say("draw"),
}


class Kept(TypedDict):
    """What every document of the panel says; `house` is the house-book version smoked."""

    format: int
    at: str
    offset: int
    event: str
    terminal: str
    who: str | None
    house: int


class Opened(Kept):
    """A session begins; `codes` tell the vitola behind each code."""

    kind: Literal["open"]
    blend: str
    chosen: str
    blind: bool
    codes: dict[str, str]
    traits: list[str]


class Scored(Kept):
    """One taster's scores, 0 to 10, of one vitola, by trait."""

    kind: Literal["score"]
    session: int
    taster: str
    vitola: str
    scores: dict[str, float]


class Revealed(Kept):
    """The codes are told."""

    kind: Literal["reveal"]
    session: int


class Noted(Kept):
    """Free text on the session."""

    kind: Literal["note"]
    session: int
    text: str


Document = Opened | Scored | Revealed | Noted
NEEDS: Mapping[object, frozenset[str]] = {
    "open": Opened.__required_keys__,
    "score": Scored.__required_keys__,
    "reveal": Revealed.__required_keys__,
    "note": Noted.__required_keys__,
}


class Note(NamedTuple):
    """A note, and the house-book version smoked."""

    at: dt.datetime
    house: int
    who: str | None
    text: str


class Session(NamedTuple):
    """A session as it stands. `codes`: code → vitola; `scores` by taster, vitola and trait.

    `id` is the number, in its year's book, of the document that opened it.
    """

    id: int
    at: dt.datetime
    blend: str
    chosen: str
    house: int
    blind: bool
    revealed: bool
    codes: Mapping[str, str]
    traits: tuple[str, ...]
    scores: Mapping[tuple[str, str, str], float]
    notes: tuple[Note, ...]

    @property
    def hidden(self) -> bool:
        """Whether the codes are not to be told yet."""
        return self.blind and not self.revealed

    @property
    def vitolas(self) -> tuple[str, ...]:
        """The vitolas smoked: the chosen one first, the others as they are spelt."""
        return (self.chosen, *sorted(v for v in self.codes.values() if v != self.chosen))

    @property
    def tasters(self) -> tuple[str, ...]:
        """Everybody who scored anything, by code."""
        return tuple(sorted({taster for taster, _, _ in self.scores}))


def missing(session: Session) -> tuple[Said, ...]:
    """What each taster who scored anything has not scored yet, under the session's codes."""
    found: list[Said] = []
    for taster in session.tasters:
        for code, vitola in session.codes.items():
            traits = [t for t in session.traits if (taster, vitola, t) not in session.scores]
            if len(traits) == len(session.traits):
                found.append(say("{taster} {code}", taster=taster, code=code))
            elif traits:
                words = joined(", ", (TRAIT_WORDS.get(trait, trait) for trait in traits))
                found.append(
                    say("{taster} {code} ({traits})", taster=taster, code=code, traits=words)
                )
    return tuple(found)


def sessions(documents: Iterable[tuple[int, Mapping[str, Any]]]) -> tuple[Session, ...]:
    """The sessions that a year's documents tell, oldest first.

    A document that is none, or whose session damage has taken, is passed over: `verify` tells.
    StoreUnusable where one was written by a newer version of this program.
    """
    found: dict[int, Session] = {}
    for number, each in documents:
        if is_newer(each):
            raise StoreUnusable(
                Problem(
                    say("panel document {number}", number=number),
                    say(
                        "written by a newer version of this program (panel format {format}; this"
                        " one reads up to {most}): update this program; nothing was changed",
                        format=each["format"],
                        most=FORMAT,
                    ),
                )
            )
        if not is_sound(each):
            continue
        document = cast("Document", each)
        if document["kind"] == "open":
            found[number] = _opened(number, document)
        elif (session := found.get(document["session"])) is not None:
            found[session.id] = _with(session, document)
    return tuple(found.values())


def is_newer(document: Mapping[str, Any]) -> bool:
    """Whether a newer version of this program wrote it."""
    written = document.get("format")
    return isinstance(written, int) and written > FORMAT


def is_sound(document: Mapping[str, Any]) -> bool:
    """Whether a document of this format says all that its kind must."""
    needs = NEEDS.get(document.get("kind"))
    return document.get("format") == FORMAT and needs is not None and needs <= document.keys()


def _opened(number: int, opened: Opened) -> Session:
    return Session(
        id=number,
        at=local(opened["at"], opened["offset"]),
        blend=opened["blend"],
        chosen=opened["chosen"],
        house=opened["house"],
        blind=opened["blind"],
        revealed=False,
        codes=opened["codes"],
        traits=tuple(opened["traits"]),
        scores={},
        notes=(),
    )


def _with(session: Session, document: Scored | Revealed | Noted) -> Session:
    if document["kind"] == "reveal":
        return session._replace(revealed=True)
    if document["kind"] == "note":
        at = local(document["at"], document["offset"])
        note = Note(at, document["house"], document["who"], document["text"])
        return session._replace(notes=(*session.notes, note))
    taster, vitola = document["taster"], document["vitola"]
    more = {(taster, vitola, trait): score for trait, score in document["scores"].items()}
    return session._replace(scores={**session.scores, **more})
