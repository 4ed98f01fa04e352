"""Who may come in, and who is turned away."""

from __future__ import annotations

import pytest

from core.problems import BadInput
from floor.serve.door import Asked, Door, token_for
from floor.serve.listening import Listening

HOME = Door(Listening("127.0.0.1", 8017).hosts, None)
TOKEN = "carretera-4711-norte"
OPEN = Door(None, TOKEN)


@pytest.mark.parametrize("host", ["127.0.0.1:8017", "localhost:8017", "LOCALHOST:8017"])
def test_a_browser_on_this_machine_comes_in(host: str) -> None:
    assert HOME.refuses(Asked(host, None, "")) is None
    assert HOME.refuses(Asked(host, f"http://{host}", "", types=True)) is None


@pytest.mark.parametrize("host", ["rebound.example:8017", "127.0.0.1:8018", "127.0.0.1", ""])
def test_a_name_that_is_not_ours_is_turned_away(host: str) -> None:
    """A page elsewhere may have pointed its own name at this machine (DNS rebinding)."""
    why = HOME.refuses(Asked(host, None, ""))
    assert why is not None
    assert f'not served as "{host}"' in why


def test_browsers_leave_port_80_out_of_the_host() -> None:
    door = Door(Listening("127.0.0.1", 80).hosts, None)
    assert door.refuses(Asked("localhost", None, "")) is None


def test_the_address_of_the_next_version_is_bracketed() -> None:
    assert Listening("::1", 8017).hosts == {"localhost:8017", "[::1]:8017"}
    assert Listening("::1", 8017).url() == "http://[::1]:8017/"


@pytest.mark.parametrize(
    "origin", ["http://rebound.example", "http://127.0.0.1:9000", "null", "file://"]
)
def test_another_page_does_not_come_in(origin: str) -> None:
    for door, token in ((HOME, ""), (OPEN, TOKEN)):
        for types in (False, True):
            why = door.refuses(Asked("127.0.0.1:8017", origin, token, types=types))
            assert why == "Another page asked for this floor. Open it in a window of its own."


def test_nobody_types_without_saying_from_which_page() -> None:
    assert HOME.refuses(Asked("127.0.0.1:8017", None, "", types=True)) is not None


@pytest.mark.parametrize("token", ["", "x", TOKEN[:-1], TOKEN + "x", TOKEN.upper(), "ñandú-ñandú"])
def test_a_wrong_token_is_turned_away_in_plain_words(token: str) -> None:
    why = OPEN.refuses(Asked("10.0.0.7:8017", None, token))
    assert why is not None
    assert why.startswith("This floor asks for its token.")
    assert OPEN.refuses(Asked("10.0.0.7:8017", None, TOKEN)) is None


def test_an_address_that_others_reach_always_has_a_token() -> None:
    assert token_for(None, at_home=True) is None
    made = {token_for(None, at_home=False) for _ in range(20)}
    assert len(made) == 20
    assert all(token is not None and len(token) >= 32 for token in made)
    assert token_for(TOKEN, at_home=True) == TOKEN


@pytest.mark.parametrize(
    "token", ["short", "has a blank in it", "and&others=1234", "señas-de-paso"]
)
def test_a_weak_or_unsendable_token_is_refused(token: str) -> None:
    with pytest.raises(BadInput, match="--token expects 12 or more letters"):
        token_for(token, at_home=True)
