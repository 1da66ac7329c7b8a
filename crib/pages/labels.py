"""Labels to stick on: for each cutter its number, what it is, where it lies, and a code that leads back."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cutters.base import Cutter
from crib.light.records import dataclass
from crib.pages.scene import Shape
from crib.pages.silhouette import silhouette


@dataclass(frozen=True)
class Tag:
    """One label: `code` is what its code reads as; `shape` is None where no size is known."""

    number: int
    place: str
    words: str
    code: str
    shape: Shape | None


def tags(cutters: Iterable[Cutter]) -> tuple[Tag, ...]:
    """The labels of some cutters."""
    return tuple(Tag(one.id, one.drawer or "", one.label, code_text(one.id), silhouette(one)) for one in cutters)


def code_text(number: int) -> str:
    """What a label's code says: the command that shows the cutter.

    >>> code_text(12)
    'crib show 12'
    """
    return f"crib show {number}"
