"""What is asked of the panel as the document to keep: checked against the house and the session."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from string import ascii_uppercase

from core.house.model import HouseBook
from core.nearest import nearest
from core.panel.line import Open, Remark, Request, Reveal, Score
from core.panel.session import TRAITS, Document, Kept, Noted, Opened, Revealed, Scored, Session
from core.problems import BadInput
from core.say import say

NO_SESSION = "no session of the panel is open; begin one with: panel open BLEND"
LONGEST_NOTE = 500


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
    blend = _known("blend", request.blend, house.blend)
    vitolas = [_known("vitola", code, house.vitola) for code in request.vitolas]
    if not vitolas:
        rolled = {bench.vitola for bench in house.benches if bench.blend == blend}
        vitolas = [code for code in house.vitola if code in rolled]
    twice = next((v for i, v in enumerate(vitolas) if v in vitolas[:i]), None)
    if twice is not None:
        raise BadInput(f"{twice} is named twice; name each vitola once")
    if not 2 <= len(vitolas) <= len(ascii_uppercase):
        raise BadInput(
            f"expected 2 to {len(ascii_uppercase)} vitolas, the line's chosen one first, found"
            f" {len(vitolas)}; name them, as: panel open {blend} toro,corona"
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
    code = _known("code in this session", request.code, session.codes)
    if session.blind and session.revealed:
        raise BadInput("the codes are told: a score given now would not be blind; open a new one")
    traits = session.traits
    if len(request.scores) != len(traits):
        raise BadInput(
            f"expected {len(traits)} scores, {', '.join(traits)} (- for none),"
            f" found {len(request.scores)}"
        )
    scores = {t: s for t, s in zip(traits, request.scores, strict=True) if s is not None}
    if not scores:
        raise BadInput("expected a score of one trait at least, found none")
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
        raise BadInput("this session is not blind: its vitolas are told already")
    if session.revealed:
        raise BadInput("the codes are told already")
    if not session.scores:
        raise BadInput("nothing is scored yet; the codes are told once it is")
    return {**kept, "house": session.house, "kind": "reveal", "session": session.id}


def _noted(request: Remark, session: Session, kept: Kept) -> Noted:
    if len(request.text) > LONGEST_NOTE or not request.text.isprintable():
        raise BadInput(f"expected a note of up to {LONGEST_NOTE} printable characters")
    return {
        **kept,
        "house": session.house,
        "kind": "note",
        "session": session.id,
        "text": request.text,
    }


def _known(what: str, code: str, known: Iterable[str]) -> str:
    """The code as it is spelt there, whatever its capitals; BadInput where it is not."""
    codes = list(known)
    found = next((each for each in codes if each.casefold() == code.casefold()), None)
    if found is None:
        near = nearest(code, codes)
        hint = f"; did you mean {near}?" if near else f"; there are: {', '.join(codes)}"
        raise BadInput(f'there is no {what} "{code}"{hint}')
    return found
