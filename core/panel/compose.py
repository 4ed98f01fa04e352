"""What is asked of the panel as the document to keep: checked against the house and the session."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from string import ascii_uppercase

from core.house.model import HouseBook
from core.nearest import nearest
from core.panel.line import Open, Remark, Request, Reveal, Score
from core.panel.session import (
    TRAIT_WORDS,
    TRAITS,
    Document,
    Kept,
    Noted,
    Opened,
    Revealed,
    Scored,
    Session,
)
from core.problems import BadInput
from core.say import Said, joined, say

NO_SESSION = say("no session of the panel is open; begin one with: panel open BLEND")
LONGEST_NOTE = 500
_NO_BLEND = (
    say('there is no blend "{code}"; there are: {there}'),
    say('there is no blend "{code}"; did you mean {near}?'),
)
_NO_VITOLA = (
    say('there is no vitola "{code}"; there are: {there}'),
    say('there is no vitola "{code}"; did you mean {near}?'),
)
_NO_CODE = (
    say('there is no code in this session "{code}"; there are: {there}'),
    say('there is no code in this session "{code}"; did you mean {near}?'),
)
"""Without a code that is alike, and with one."""


def composed(request: Request, session: Session | None, house: HouseBook, kept: Kept) -> Document:
    """The document; BadInput says why it cannot be kept.

    The codes of a blind session fall as the event's name has them: by chance, and the same when
    the same event is tried again.
    """
    if isinstance(request, Open):
        opened = _opened(request, house, kept)
        if session is not None and session.hidden and session.scores:
            raise BadInput(
                say(
                    "the session of {day} on {blend} is scored and still blind: tell its codes "
                    "first, with panel reveal, or they are never told",
                    day=f"{session.at:%Y-%m-%d}",
                    blend=session.blend,
                )
            )
        return opened
    if session is None:
        raise BadInput(NO_SESSION)
    if isinstance(request, Score):
        return _scored(request, session, kept)
    if isinstance(request, Reveal):
        return _revealed(session, kept)
    return _noted(request, session, kept)


def _opened(request: Open, house: HouseBook, kept: Kept) -> Opened:
    blend = _known(request.blend, house.blend, _NO_BLEND)
    vitolas = [_known(code, house.vitola, _NO_VITOLA) for code in request.vitolas]
    if not vitolas:
        rolled = {bench.vitola for bench in house.benches if bench.blend == blend}
        vitolas = [code for code in house.vitola if code in rolled]
    twice = next((v for i, v in enumerate(vitolas) if v in vitolas[:i]), None)
    if twice is not None:
        raise BadInput(say("{vitola} is named twice; name each vitola once", vitola=twice))
    if not 2 <= len(vitolas) <= len(ascii_uppercase):
        raise BadInput(
            say(
                "expected 2 to {most} vitolas, the line's chosen one first, found {n}; name them,"
                " as: panel open {blend} toro,corona",
                most=len(ascii_uppercase),
                n=len(vitolas),
                blend=blend,
            )
        )
    codes = {vitola: vitola for vitola in vitolas}
    if request.blind:
        shuffled = sorted(vitolas, key=lambda vitola: _chance(kept["event"], vitola))
        codes = dict(zip(ascii_uppercase, shuffled, strict=False))
    return {
        **kept,
        "kind": "open",
        "blend": blend,
        "chosen": vitolas[0],
        "blind": request.blind,
        "codes": codes,
        "traits": list(TRAITS),
    }


def _chance(event: str, vitola: str) -> bytes:
    return hashlib.sha256(f"{event} {vitola}".encode()).digest()


def _scored(request: Score, session: Session, kept: Kept) -> Scored:
    code = _known(request.code, session.codes, _NO_CODE)
    if session.blind and session.revealed:
        raise BadInput(
            say("the codes are told: a score given now would not be blind; open a new one")
        )
    traits = session.traits
    if len(request.scores) != len(traits):
        raise BadInput(
            say(
                "expected {n} scores, {traits} (- for none), found {found}",
                n=len(traits),
                traits=joined(", ", (TRAIT_WORDS.get(trait, trait) for trait in traits)),
                found=len(request.scores),
            )
        )
    scores = {t: s for t, s in zip(traits, request.scores, strict=True) if s is not None}
    if not scores:
        raise BadInput(say("expected a score of one trait at least, found none"))
    return {
        **kept,
        "house": session.house,
        "kind": "score",
        "session": session.id,
        "taster": request.taster,
        "vitola": session.codes[code],
        "scores": scores,
    }


def _revealed(session: Session, kept: Kept) -> Revealed:
    if not session.blind:
        raise BadInput(say("this session is not blind: its vitolas are told already"))
    if session.revealed:
        raise BadInput(say("the codes are told already"))
    if not session.scores:
        raise BadInput(say("nothing is scored yet; the codes are told once it is"))
    return {**kept, "house": session.house, "kind": "reveal", "session": session.id}


def _noted(request: Remark, session: Session, kept: Kept) -> Noted:
    if len(request.text) > LONGEST_NOTE or not request.text.isprintable():
        raise BadInput(
            say("expected a note of up to {most} printable characters", most=LONGEST_NOTE)
        )
    return {
        **kept,
        "house": session.house,
        "kind": "note",
        "session": session.id,
        "text": request.text,
    }


def _known(code: str, known: Iterable[str], says: tuple[Said, Said]) -> str:
    """The code as it is spelt there, whatever its capitals; BadInput `says` that it is not."""
    codes = list(known)
    found = next((each for each in codes if each.casefold() == code.casefold()), None)
    if found is None:
        near = nearest(code, codes)
        text = says[near is not None]
        raise BadInput(text.format(code=code, near=near, there=joined(", ", codes)))
    return found
