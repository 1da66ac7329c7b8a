"""The lines of a long text, each made when it is asked for: a text takes half of what its lines take."""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Sequence
from typing import overload


class Lines(Sequence[str]):
    """What lies between the ends of lines in a text.

    >>> lines = Lines("1/4 drill\\n\\n3/8 reamer")
    >>> list(lines), lines[-1], lines[:2], len(Lines(""))
    (['1/4 drill', '', '3/8 reamer'], '3/8 reamer', ['1/4 drill', ''], 1)
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._begins = array("q", _begins(text))

    def __len__(self) -> int:
        return len(self._begins)

    @overload
    def __getitem__(self, place: int) -> str: ...
    @overload
    def __getitem__(self, place: slice) -> list[str]: ...

    def __getitem__(self, place: int | slice) -> str | list[str]:
        if isinstance(place, slice):
            return [self[one] for one in range(*place.indices(len(self)))]
        begin = self._begins[place]
        end = self._text.find("\n", begin)
        return self._text[begin:] if end < 0 else self._text[begin:end]

    def __iter__(self) -> Iterator[str]:
        return (self[place] for place in range(len(self)))


def _begins(text: str) -> Iterator[int]:
    """Where each line begins."""
    begin = 0
    while True:
        yield begin
        if not (begin := text.find("\n", begin) + 1):
            return
