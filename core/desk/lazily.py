"""A sequence that is made when it is first looked into."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar, overload

T = TypeVar("T")


class Lazily(Sequence[T], Generic[T]):
    """What `make` returns, of which only the length is known before somebody looks.

    A chart of every bench is drawn for what it says; its points are wanted where it is shown.
    """

    def __init__(self, length: int, make: Callable[[], tuple[T, ...]]) -> None:
        self._length = length
        self._make: Callable[[], tuple[T, ...]] | None = make
        self._made: tuple[T, ...] = ()

    def _look(self) -> tuple[T, ...]:
        if self._make is not None:
            self._made, self._make = self._make(), None
        return self._made

    def __len__(self) -> int:
        return self._length

    @overload
    def __getitem__(self, at: int) -> T: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[T, ...]: ...
    def __getitem__(self, at: int | slice) -> T | tuple[T, ...]:
        return self._look()[at]

    def __eq__(self, other: object) -> bool:
        return self._look() == (other._look() if isinstance(other, Lazily) else other)

    def __hash__(self) -> int:
        return hash(self._look())

    def __repr__(self) -> str:
        return repr(self._look())
