"""Who may do what: what asks for the house's PIN, and what happens to wrong ones."""

from __future__ import annotations

import datetime as dt
import multiprocessing
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import AsksPin, Mistake, NotSaved, Question, Recorded, Told
from core.desk.load import examine, take_in
from core.desk.permission import PinNeeded
from core.desk.pin_save import set_pin
from core.desk.pin_tries import FILE, LONGEST_WAIT_S
from core.problems import BadInput
from core.say import told
from core.tongue import tongue_of
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock, load

PIN = "4711"
At = Callable[..., Desk]


@pytest.fixture
def locked(desk: Desk, clock: HandClock) -> Desk:
    """The small house with a PIN, something recorded."""
    clock.forward(hours=1)
    set_pin(desk, clock, PIN, None)
    desk.follow()
    desk.enter("7 made 10", None)
    return desk


def recorded(outcome: object) -> Recorded:
    assert isinstance(outcome, Recorded), outcome
    return outcome


def asks(outcome: object) -> AsksPin:
    assert isinstance(outcome, AsksPin), outcome
    return outcome


# -- what asks --------------------------------------------------------------------------------


def test_a_house_without_one_asks_nobody(desk: Desk, desk_at: At) -> None:
    desk.enter("7 made 10", None)
    recorded(desk_at("T2", who="RM").enter("undo 1!", None))
    desk.enter("7 made 10", None)
    recorded(desk.close_day())
    recorded(desk.reopen("bundle found"))


def test_closing_and_opening_again_ask(locked: Desk) -> None:
    assert asks(locked.close_day()).says == "to close the day"
    recorded(locked.close_day(PIN))
    assert asks(locked.enter("reopen bundle found", None)).says == "to open the day again"
    recorded(locked.enter("reopen bundle found", None, pin=PIN))
    assert [line.says for line in locked.log()][1:2] == ["day closed"]


def test_entries_and_ones_own_mistakes_ask_for_nothing(locked: Desk) -> None:
    recorded(locked.enter("7 made 5", None))
    recorded(locked.enter("undo", None))


@pytest.mark.parametrize(
    ("mine", "yours", "same_terminal", "theirs"),
    [
        ("RM", "RM", False, False),
        ("RM", "rm", False, False),
        ("RM", "LP", True, True),
        ("RM", "LP", False, True),
        (None, "LP", True, False),
        ("RM", None, True, False),
        (None, "LP", False, True),
        ("RM", None, False, True),
        (None, None, False, True),
        (None, None, True, False),
    ],
)
def test_whose_an_entry_is(
    locked: Desk, desk_at: At, mine: str | None, yours: str | None,
    same_terminal: bool, theirs: bool,
) -> None:  # fmt: skip
    entry = recorded(desk_at("T1", who=mine).enter("7 good 3", None)).entry
    desk = desk_at("T1" if same_terminal else "T2", who=yours)
    line = f"undo {entry} wrong bench!"
    outcome = desk.enter(line, None)
    if theirs:
        assert asks(outcome).says == f"to void entry {entry}, which is another's"
        assert entry not in desk.ledger.undone
        outcome = desk.enter(line, None, pin=PIN)
    recorded(outcome)
    assert entry in desk.ledger.undone


def test_an_undo_that_waits_for_the_pin_stays_of_the_entry_it_was_of(locked: Desk) -> None:
    locked.enter("iniciales RM", None)
    locked.enter("7 good 3", None)
    locked.enter("initials LP", None)
    asked = asks(locked.enter("undo", None))
    locked.enter("7 good 4", None)  # a last entry of one's own meanwhile
    recorded(locked.enter(asked.line, None, pin=PIN))
    assert list(locked.ledger.undone) == [2]


def test_another_terminals_entry_is_anothers_before_it_was_looked_at(
    locked: Desk, desk_at: At
) -> None:
    entry = recorded(desk_at("T2").enter("7 good 3", None)).entry
    question = locked.enter(f"undo {entry}", None)
    assert isinstance(question, Question)  # first whether it is meant, then who it is
    asks(locked.enter(question.line, None, sure=True))


def test_every_change_of_the_house_book_asks(locked: Desk, clock: HandClock) -> None:
    version = locked.house_version
    locked.enter("try LI-1=1.5", None)
    assert isinstance(locked.enter("try save", None), Question)
    assert asks(locked.enter("try save", None, sure=True)).says == "to change the house book"
    target = locked.card("7").targets["bunch"].target_g
    locked.enter(f"7 {target:.2f} {target:.2f} {target:.2f}", None)
    asks(locked.enter("approve 7!", None))
    text = HOUSE_TOML + "\n# changed\n"
    house = examine(text, "house.toml").house
    assert house is not None
    with pytest.raises(PinNeeded):
        take_in(locked, house, text, "house.toml", real=clock, pin=None)
    for new in ("9999", None):
        with pytest.raises(PinNeeded):
            set_pin(locked, clock, new, None)
    assert locked.follow() is None or locked.house_version == version
    recorded(locked.enter("try save", None, sure=True, pin=PIN))
    locked.follow()
    assert set_pin(locked, clock, None, PIN) == version + 2
    locked.follow()
    recorded(locked.close_day())


def test_what_is_in_force_already_may_be_loaded_again(locked: Desk, clock: HandClock) -> None:
    text = locked.shelf.source(locked.house_version)["toml"]
    assert not take_in(locked, locked.loaded, text, "house.toml", real=clock, pin=None).new


def test_asking_as_of_before_the_pin_was_set_asks_all_the_same(
    locked: Desk, desk_at: At, clock: HandClock
) -> None:
    early = desk_at("T2", as_of=True)
    clock.forward(minutes=-30)
    early.follow()
    assert early.house_version == 1
    for line in ("initials RM", "7 made 5", "initials LP"):
        early.enter(line, None)
    assert asks(early.enter("undo 2!", None))


def test_a_pin_that_is_none_is_not_kept(desk: Desk, clock: HandClock) -> None:
    for wrong in ("123", "letters", "123456789", ""):
        with pytest.raises(BadInput, match="4 to 8 digits"):
            set_pin(desk, clock, wrong, None)
    with pytest.raises(BadInput, match="has no PIN"):
        set_pin(desk, clock, None, None)


def test_no_record_holds_the_pin(locked: Desk) -> None:
    locked.close_day(PIN)
    locked.close_day("8264")
    for file in locked.data_folder.rglob("*"):
        if file.is_file():
            text = file.read_text(encoding="utf-8")
            assert f'"{PIN}"' not in text
            assert "8264" not in text.replace(locked.loaded.house.pin or "", "")


# -- tries ------------------------------------------------------------------------------------


def wrong(desk: Desk, pin: str = "0000") -> str:
    return asks(desk.close_day(pin)).wrong


def test_after_the_third_wrong_one_the_wait_doubles_and_a_right_one_resets(
    locked: Desk, clock: HandClock
) -> None:
    assert wrong(locked) == "the PIN is wrong; 2 more tries before there is a wait"
    assert wrong(locked) == "the PIN is wrong; 1 more try before there is a wait"
    for pause_s in (5, 10, 20, 40, 80, 160, 300, 300, 300):
        assert wrong(locked) == f"the PIN is wrong; the next try in {pause_s} s"
        clock.forward(seconds=pause_s - 1)
        assert wrong(locked, PIN) == "too many wrong PINs; wait 1 s, then try again"
        clock.forward(seconds=1)
    recorded(locked.close_day(PIN))
    assert not (locked.data_folder / FILE).exists()


def test_terminals_share_one_count(locked: Desk, desk_at: At) -> None:
    for terminal in ("T1", "T2", "T3"):
        wrong(desk_at(terminal))
    assert "wait 5 s" in wrong(desk_at("T4"), PIN)


def test_what_is_no_pin_is_not_counted(locked: Desk) -> None:
    for text in ("", "12", "fifteen", "15.3"):
        assert "4 to 8 digits" in wrong(locked, text)
    assert not (locked.data_folder / FILE).exists()


def test_a_try_is_counted_before_it_is_checked(
    locked: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def killed(*_: object) -> bool:
        raise KeyboardInterrupt

    monkeypatch.setattr("core.desk.permission.is_right", killed)
    for _ in range(3):
        with pytest.raises(KeyboardInterrupt):
            locked.close_day(PIN)
    monkeypatch.undo()
    assert "wait 5 s" in wrong(locked, PIN)


def test_the_time_a_command_asks_about_shortens_no_wait(locked: Desk, desk_at: At) -> None:
    real = HandClock(locked.now())
    for _ in range(3):
        wrong(desk_at(real=real))
    later = HandClock(MORNING + dt.timedelta(days=1))
    desk = Desk(locked.data_folder, later, "T9", date=MORNING.date(), real=real)
    assert "wait 5 s" in wrong(desk, PIN)


def test_a_clock_set_back_locks_nobody_out_for_more_than_the_longest_wait(
    locked: Desk, clock: HandClock
) -> None:
    for _ in range(3):
        wrong(locked)
    clock.forward(hours=-7)
    assert "wait 5 s" in wrong(locked, PIN)
    clock.forward(seconds=5)
    recorded(locked.close_day(PIN))


@pytest.mark.parametrize("damage", [b"", b"\0\0\0\0", b"3", b"3 nan", b"-9 0", b"99 1", b"x" * 500])
def test_a_damaged_count_neither_lets_in_nor_locks_out(
    locked: Desk, clock: HandClock, damage: bytes
) -> None:
    (locked.data_folder / FILE).write_bytes(damage)
    assert f"wait {LONGEST_WAIT_S} s" in wrong(locked, PIN)
    clock.forward(seconds=LONGEST_WAIT_S / 2)
    assert f"wait {LONGEST_WAIT_S // 2} s" in wrong(locked, PIN)
    clock.forward(seconds=LONGEST_WAIT_S / 2)
    recorded(locked.close_day(PIN))


def test_a_count_that_cannot_be_kept_leaves_the_pin_unchecked(
    locked: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("core.desk.pin_tries.open_private", full)
    outcome = locked.close_day(PIN)
    assert isinstance(outcome, NotSaved)
    assert "the disk is full" in outcome.says
    assert not locked.closed


def _guess(folder: Path, out: multiprocessing.Queue[str]) -> None:
    outcome = Desk(folder, HandClock(MORNING), "T5").close_day("0000")
    out.put(outcome.wrong if isinstance(outcome, AsksPin) else str(outcome))


def test_guesses_of_many_processes_at_once_are_three(locked: Desk) -> None:
    spawn = multiprocessing.get_context("spawn")
    out: multiprocessing.Queue[str] = spawn.Queue()
    guessers = [spawn.Process(target=_guess, args=(locked.data_folder, out)) for _ in range(6)]
    for each in guessers:
        each.start()
    said = [out.get(timeout=60) for _ in guessers]
    for each in guessers:
        each.join()
    assert sum("is wrong" in each for each in said) == 3
    assert sum("too many wrong PINs; wait 5 s" in each for each in said) == 3


# -- initials ---------------------------------------------------------------------------------


def test_initials_are_kept_by_the_terminal_and_stamped_from_then_on(
    desk: Desk, desk_at: At
) -> None:
    assert desk.who is None
    desk.enter("7 made 1", None)
    meaning = desk.meaning("initials rm", "7")
    assert meaning.ok
    outcome = desk.enter("initials rm", "7")
    assert isinstance(outcome, Told)
    assert outcome.says == meaning.says == "entries of this terminal carry RM from here on"
    assert told(outcome.says, tongue_of("es")) == (
        "las anotaciones de esta terminal llevan RM desde ahora"
    )
    assert len(desk.ledger.entries) == 1
    desk.enter("7 made 2", None)
    desk.enter("iniciales ÑU", None)
    desk.enter("7 made 3", None)
    assert [line.who for line in desk.log()] == ["ÑU", "RM", None]
    assert desk_at("T2").who is None


@pytest.mark.parametrize("typed", ["", "R2", "ABCDE", "R M", "R.", "12"])
def test_wrong_initials_are_a_sentence(desk: Desk, typed: str) -> None:
    outcome = desk.enter(f"initials {typed}", None)
    assert isinstance(outcome, Mistake)
    assert desk.who is None


def test_the_pin_travels_with_the_house_book(locked: Desk, desk_at: At) -> None:
    assert str(locked.loaded.house.pin).startswith("scrypt:16384:8:1:")
    load(locked, HOUSE_TOML)  # as by somebody who may write the data folder
    recorded(desk_at("T2").close_day())


def test_it_is_told_in_spanish(locked: Desk) -> None:
    asked = asks(locked.close_day("0000"))
    spanish = tongue_of("es")
    assert told(asked.says, spanish) == "para cerrar el día"
    assert told(asked.wrong, spanish) == (
        "PIN equivocado; quedan 2 intentos antes de tener que esperar"
    )
