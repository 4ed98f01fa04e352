"""What the bars, the entry line and Help say."""

from __future__ import annotations

from core.say import say, say_as, say_many
from core.wordbook import Wordbook, forms


class FrameWords(Wordbook):
    """Dates, the names of pages, what stands around every page."""

    weekdays: tuple[str, ...] = (
        say("Monday"),
        say("Tuesday"),
        say("Wednesday"),
        say("Thursday"),
        say("Friday"),
        say("Saturday"),
        say("Sunday"),
    )
    months: tuple[str, ...] = (
        say("January"),
        say("February"),
        say("March"),
        say("April"),
        say("May"),
        say("June"),
        say("July"),
        say("August"),
        say("September"),
        say("October"),
        say("November"),
        say("December"),
    )
    date: str = say("{weekday} {day} {month} {year}")
    bench: str = say("bench")
    benches: tuple[str, str] = forms(say_many(1, "{n} bench", "{n} benches"))
    start: str = say_as("page", "Start")
    board: str = say("Board")
    card: str = say("Card")
    why: str = say("Why")
    rounds: str = say("Rounds")
    chart: str = say("Chart")
    day: str = say("Day")
    log: str = say("Log")
    help: str = say("Help")
    quit: str = say("leave")
    back: str = say_as("key", "back")
    closed: str = say("closed")
    opened: str = say("open")
    too_small: str = say(
        "The floor needs 60 × 20 cells; this terminal has {width} × {height}. "
        "The entry line below still works."
    )
    enter_would: str = say("Enter: {what}")
    type_row: str = say("type: {what}")
    held: str = say("{n} held")
    unread: str = say("not read:")


class HelpWords(Wordbook):
    """Help."""

    keys: tuple[tuple[str, str], ...] = (
        (say("number Enter"), say("opens that bench's card; /7 does so from anywhere")),
        (say("bare number"), say("on a card: a reading for the bench shown")),
        (
            say("Enter"),
            say(
                "does the line; on an empty one it answers what is held, ends the open check, or "
                "opens the bench under the cursor"
            ),
        ),
        ("Esc Ctrl+U", say("clears the line; Esc drops what is held; else goes back")),
        ("F1 F2", say("Board, Rounds: whom to weigh next; or type board, rounds")),
        ("F8 F9", say("Why, Chart of the bench; or type why, chart")),
        ("F3 F4 F5", say("Leaf, Line, Day; or type leaf, line, day")),
        ("F6 F7", say("Panel, Log; or type panel, log")),
        ("F10 ?", say("Help; ? on an empty line; or type help")),
        (say("Up Down"), say("move the list's cursor; in a line bring back earlier ones")),
        (say("PgUp PgDn"), say("turn the page")),
        ("Tab", say("finishes a word, a leaf, a vitola")),
        ("Ctrl+G", say("on a card: its figures as large as they can be, and back")),
        ("Ctrl+L", say("says everything in the other language, Spanish or English")),
        ("Ctrl+Q", say("leaves the floor; so does quit and Enter")),
    )
    bench_keys: tuple[tuple[str, str], ...] = (
        (say("bare number"), say("a reading for this screen's bench")),
        (
            say("Enter"),
            say("does the line; on an empty one it answers what is held, or ends the open check"),
        ),
        ("Esc Ctrl+U", say("clears the line; Esc drops what is held; else goes back")),
        ("F8 F9", say("Why, Chart of the bench; or type why, chart")),
        ("F10 ?", say("Help; ? on an empty line; or type help")),
        (say("Up Down"), say("in a line bring back earlier ones")),
        (say("PgUp PgDn"), say("turn the page")),
        ("Tab", say("finishes a word, a leaf, a vitola")),
        ("Ctrl+G", say("on a card: its figures as large as they can be, and back")),
        ("Ctrl+L", say("says everything in the other language, Spanish or English")),
        ("Ctrl+Q", say("leaves the floor; so does quit and Enter")),
    )
    keys_title: str = say("Keys")
    line_title: str = say("The entry line")
    cautions_title: str = say("Cautions")
    cautions: tuple[str, ...] = (
        say(
            "Tobacco harms health. This tool is for adults working in a licensed trade and "
            "speaks for no use of it."
        ),
        say(
            "Leaf dust and nicotine: keep the air moving, wear gloves, wash before eating. Wet "
            "leaf passes more nicotine through the skin."
        ),
        say(
            "Blades, tuck cutters and presses: guards and cut-resistant gloves as the workplace "
            "rules say."
        ),
        say("Necks, backs and wrists: short breaks, and often."),
        say("Fumigants and ammonia: nobody goes back in before the licensed applicator says so."),
        say("A scale used for trade or excise must be verified under local law."),
        say(
            "Tax and record figures here are aids; the local statute and a licensed adviser decide."
        ),
    )
