"""What is made when somebody looks at it: of an answer most is only counted."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cached_property

from crib.light.hints import TypeVar, overload

T = TypeVar("T")


class Later(Sequence[T]):
    """Things in order that one function makes, all at once; equal to any sequence of the same.

    >>> looked = []
    >>> some = Later(lambda: looked.append("once") or (1, 2))
    >>> len(looked), some[1], len(some), some == (1, 2), looked
    (0, 2, 2, True, ['once'])
    """

    def __init__(self, make: Callable[[], Iterable[T]]) -> None:
        self._make = make

    @cached_property
    def _all(self) -> tuple[T, ...]:
        return tuple(self._make())

    def __len__(self) -> int:
        return len(self._all)

    @overload
    def __getitem__(self, place: int) -> T: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[T, ...]: ...
    def __getitem__(self, place: int | slice) -> T | tuple[T, ...]:
        return self._all[place]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and tuple(self) == tuple(other)

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        return repr(tuple(self))


class Each(Later[T]):
    """Things in order, each with a function that makes it alone and keeps it.

    >>> looked = []
    >>> some = Each([lambda: looked.append("a") or 1, lambda: looked.append("b") or 2])
    >>> len(some), some[1], some[1:], looked
    (2, 2, (2,), ['b'])
    """

    def __init__(self, makers: Sequence[Callable[[], T]]) -> None:
        self._makers = makers  # none that makes them all: it would hold what holds it
        self._made: dict[int, T] = {}

    def __len__(self) -> int:
        return len(self._makers)

    @overload
    def __getitem__(self, place: int) -> T: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[T, ...]: ...
    def __getitem__(self, place: int | slice) -> T | tuple[T, ...]:
        if isinstance(place, slice):
            return tuple(self[one] for one in range(*place.indices(len(self))))
        at = range(len(self))[place]
        if at not in self._made:
            self._made[at] = self._makers[at]()
        return self._made[at]
