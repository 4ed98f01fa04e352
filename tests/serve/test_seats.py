"""Which browser sits where."""

from __future__ import annotations

import asyncio

from floor.serve.seats import Seat, Seats

AT_ONCE_S = 0.01


def two() -> Seats:
    return Seats(2, "web", "77")


async def test_each_browser_is_a_terminal_of_its_own_name() -> None:
    seats = two()
    first, second = await seats.take("a", AT_ONCE_S), await seats.take("b", AT_ONCE_S)
    assert (first, second) == (Seat("a", "web-1.77"), Seat("b", "web-2.77"))


async def test_there_is_no_seat_beyond_the_last_until_somebody_leaves() -> None:
    seats = two()
    first = await seats.take("a", AT_ONCE_S)
    await seats.take("b", AT_ONCE_S)
    assert first is not None
    assert await seats.take("c", AT_ONCE_S) is None
    waiting = asyncio.create_task(seats.take("c", 5))
    await seats.leave(first)
    assert await waiting == Seat("c", "web-3.77")
    assert seats.taken == 2


async def test_a_page_loaded_again_sits_where_it_sat() -> None:
    seats = two()
    first = await seats.take("a", AT_ONCE_S)
    assert first is not None
    again = asyncio.create_task(seats.take("a", 5))  # before the floor of before has ended
    await asyncio.sleep(0)
    await seats.leave(first)
    assert await again == first


async def test_a_copy_of_a_tab_sits_elsewhere() -> None:
    seats = two()
    await seats.take("a", AT_ONCE_S)
    assert await seats.take("a", AT_ONCE_S) == Seat("a", "web-2.77")


async def test_a_name_once_given_is_nobody_elses() -> None:
    seats = two()
    first = await seats.take("a", AT_ONCE_S)
    assert first is not None
    await seats.leave(first)
    assert await seats.take("b", AT_ONCE_S) == Seat("b", "web-2.77")
