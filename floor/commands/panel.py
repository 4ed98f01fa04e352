"""`panel`: the tasting panel. Does the line still taste alike in every size?"""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from typing import Any

from core.desk.faces import Mistake, NotSaved, Recorded
from core.desk.figures import fixed
from core.desk.panel import PanelSheet
from core.panel.apart import Difference
from core.panel.judge import Judged, Size, too_few
from core.panel.session import TRAIT_WORDS, Session, missing
from core.problems import BadInput, StoreUnusable
from core.say import joined, say, say_as, say_many
from floor.commands import out
from floor.commands.setting import setting, tell_damage
from floor.commands.spreadsheet import csv_text

NONE_YET = say(
    "no session of the panel yet; begin one with: bunchbook panel open BLEND"
    " [--vitolas a,b,c] [--blind]"
)


def run(args: argparse.Namespace) -> int:
    """Keep what is told, or print what the newest session says."""
    if args.verb == "show":
        return _show(args)
    with setting(args) as place:
        desk = place.recording()
        outcome = desk.enter(f"panel {_line(args)}", None)
    if isinstance(outcome, Recorded):
        out.result(outcome.says)
        return 0
    error = StoreUnusable if isinstance(outcome, NotSaved) else BadInput
    raise error(
        outcome.says if isinstance(outcome, (Mistake, NotSaved)) else say("nothing to keep")
    )


def _line(args: argparse.Namespace) -> str:
    """What is typed on the floor for the same."""
    if args.verb == "open":
        book = f"book {args.book}" if args.book else ""
        words = ("open", args.blend, args.vitolas or "", book)
        return " ".join((*words, "blind" if args.blind else ""))
    if args.verb == "score":
        return " ".join((args.taster, args.code, *args.scores))
    return f"note {args.text}" if args.verb == "note" else "reveal"


def _show(args: argparse.Namespace) -> int:
    if args.json and args.csv:
        raise BadInput(say("give one of --json and --csv"))
    with setting(args) as place:
        desk = place.desk(question=True)
        tell_damage(desk.damaged)
        sheet = desk.panel()
    if args.json:
        out.json(None if sheet is None else panel_json(sheet))
    elif sheet is None:
        out.message(NONE_YET)
    elif args.csv:
        out.result(csv_text(_scores(sheet.session)).rstrip("\n"))
    else:
        for line in _lines(sheet):
            out.result(line)
    return 0


def panel_json(sheet: PanelSheet) -> dict[str, Any]:
    """The session as JSON; nothing in it tells a hidden vitola."""
    session = sheet.session
    return {
        "session": session.id,
        "at": session.at.isoformat(),
        "blend": session.blend,
        "house": session.house,
        "blind": session.blind,
        "revealed": not session.hidden,
        "chosen": session.chosen,
        "codes": None if session.hidden else dict(session.codes),
        "tasters": session.tasters,
        "traits": [_trait(each) for each in sheet.traits],
        "notes": [
            {"at": n.at.isoformat(), "house": n.house, "who": n.who, "text": n.text}
            for n in session.notes
        ],
    }


def _trait(of: Judged) -> dict[str, Any]:
    test = None
    if of.test is not None:
        method = "exact" if of.test.exact else "chi-square"
        test = {
            "chi2": of.test.chi2,
            "df": of.test.dof,
            "p": of.test.p,
            "p_by": method,
            "w": of.test.w,
        }
    return {
        "trait": of.trait,
        "verdict": of.verdict,
        "apart": of.apart,
        "tasters": of.tasters,
        "left_out": of.left_out,
        "friedman": test,
        "sizes": [_size(size) for size in of.sizes],
    }


def _size(size: Size) -> dict[str, Any]:
    found = size.difference
    return {
        "vitola": size.vitola,
        "mean": size.mean,
        "difference": None if found is None else found._asdict(),
    }


def _scores(session: Session) -> Iterator[Sequence[object]]:
    """A row a taster and size; the size under its code while that is hidden."""
    yield ("taster", "code", "vitola", *session.traits)
    for taster in session.tasters:
        for code, vitola in session.codes.items():
            row = [session.scores.get((taster, vitola, trait)) for trait in session.traits]
            if any(score is not None for score in row):
                yield (taster, code, None if session.hidden else vitola, *row)


def _lines(sheet: PanelSheet) -> Iterator[str]:
    session = sheet.session
    yield say_many(
        len(session.tasters),
        "panel on {blend}, {at}, house book {house}, 1 taster",
        "panel on {blend}, {at}, house book {house}, {n} tasters",
        blend=session.blend,
        at=f"{session.at:%Y-%m-%d %H:%M}",
        house=session.house,
    )
    if session.blind and session.revealed:
        codes = ", ".join(f"{code} {v}" for code, v in session.codes.items())
        yield say("codes: {codes}", codes=codes)
    for of in sheet.traits:
        yield ""
        yield joined(": ", (TRAIT_WORDS.get(of.trait, of.trait), _verdict(of, session)))
        yield out.table([_HEAD, *map(_row, of.sizes)], right=frozenset({1, 2, 3}))
        if of.left_out:
            left = ", ".join(of.left_out)
            yield say("not counted, for they did not score every size: {tasters}", tasters=left)
    if session.hidden and (lacking := missing(session)):
        yield say("not scored yet: {scores}", scores=joined("; ", lacking))
    for note in session.notes:
        yield say("note, house book {house}: {note}", house=note.house, note=note.text)


_HEAD = ("", say("mean"), say_as("column", "differs"), say("95 % of it"))


def _row(size: Size) -> tuple[str, ...]:
    mean = "" if size.mean is None else fixed(size.mean, 1)
    if size.difference is None:
        return size.vitola, mean, "", ""
    return size.vitola, mean, _signed(size.difference.mean), _interval(size.difference)


def _interval(of: Difference) -> str:
    if of.low is None or of.high is None:
        return ""
    return say("{low} to {high}", low=_signed(of.low), high=_signed(of.high))


def _signed(value: float) -> str:
    text = fixed(value, 1)
    return text if text.startswith("-") or text == "0.0" else f"+{text}"


def _verdict(of: Judged, session: Session) -> str:
    if of.verdict == "hidden":
        return say("not judged before the codes are told: bunchbook panel reveal")
    if of.test is None:
        return too_few(len(of.tasters), len(of.sizes))
    rests = say(
        "{n} tasters, Friedman {chi2:.2f}, p {p:.3f} {by}, W {w:.2f}",
        n=len(of.tasters),
        chi2=of.test.chi2,
        p=of.test.p,
        by=say("exact") if of.test.exact else say("chi-square approximation"),
        w=of.test.w,
    )
    if of.verdict == "no difference":
        return say("no difference told ({rests})", rests=rests)
    if of.verdict == "differ":
        return say(
            "not alike, but none stands apart from {chosen} alone ({rests})",
            chosen=session.chosen,
            rests=rests,
        )
    return say_many(
        len(of.apart),
        "{sizes} stands apart from {chosen} ({rests})",
        "{sizes} stand apart from {chosen} ({rests})",
        sizes=", ".join(of.apart),
        chosen=session.chosen,
        rests=rests,
    )
