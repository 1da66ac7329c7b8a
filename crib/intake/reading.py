"""What came of reading: cutters to take in, lines to hold back, and what else should be said."""

from __future__ import annotations

from dataclasses import dataclass

from crib.cutters.base import Cutter
from crib.store import HeldBack

_LONGEST_KEPT = 200_000


@dataclass(frozen=True)
class Taken:
    """A cutter that was read, and what was typed for its lengths by field; under `words` the whole line.

    `line` is where it stood in a file, 0 where in none.
    """

    cutter: Cutter
    typed: dict[str, str]
    line: int = 0


@dataclass(frozen=True)
class Reading:
    """Cutters and held back lines, each in the order of the lines; `notes` is for people."""

    taken: tuple[Taken, ...] = ()
    held_back: tuple[HeldBack, ...] = ()
    notes: tuple[str, ...] = ()


def kept(text: str) -> str:
    """A text as it can be kept anywhere: what isn't UTF-8 and the NUL byte are spelt out."""
    plain = text.encode("utf-8", "backslashreplace").decode("utf-8").replace("\0", "\\x00")
    return plain if len(plain) <= _LONGEST_KEPT else plain[:_LONGEST_KEPT] + " ..."
