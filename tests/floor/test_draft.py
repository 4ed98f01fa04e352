"""The line being typed, without a screen."""

from __future__ import annotations

from floor.widgets.draft import Draft


def entered(*lines: str) -> Draft:
    draft = Draft()
    for line in lines:
        draft.insert(line)
        draft.take()
    return draft


def test_signs_go_in_at_the_caret() -> None:
    draft = Draft()
    draft.insert("7 15.6")
    draft.move_to(2)
    draft.insert("15.3 ")
    assert (draft.text, draft.caret) == ("7 15.3 15.6", 7)


def test_backspace_and_delete_work_on_either_side_of_the_caret() -> None:
    draft = Draft()
    draft.insert("7 115.3")
    draft.move_to(3)
    draft.backspace()
    assert draft.text == "7 15.3"
    draft.delete()
    assert draft.text == "7 5.3"
    draft.move_to(0)
    draft.backspace()
    assert (draft.text, draft.caret) == ("7 5.3", 0)


def test_the_caret_stays_within_the_line() -> None:
    draft = Draft()
    draft.insert("7")
    draft.move_to(9)
    assert draft.caret == 1
    draft.move_to(-3)
    assert draft.caret == 0


def test_earlier_lines_come_back_and_what_was_being_typed_is_not_lost() -> None:
    draft = entered("7 15.3", "8 made 50")
    draft.insert("9 no")
    draft.earlier()
    assert draft.text == "8 made 50"
    draft.earlier()
    draft.earlier()
    assert draft.text == "7 15.3"
    draft.later()
    draft.later()
    assert draft.text == "9 no"


def test_the_same_line_twice_in_a_row_is_one_to_come_back_to() -> None:
    draft = entered("7 15.3", "7 15.3", "  ")
    draft.earlier()
    draft.earlier()
    assert draft.text == "7 15.3"
    draft.later()
    assert draft.text == ""


def test_a_line_that_stands_refused_is_mended_by_any_edit() -> None:
    draft = Draft()
    draft.insert("7 zz")
    draft.stand(2)
    assert (draft.standing, draft.wrong_at) == (True, 2)
    draft.backspace()
    assert (draft.text, draft.standing, draft.wrong_at) == ("7 z", False, None)
