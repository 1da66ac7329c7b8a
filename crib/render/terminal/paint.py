"""Colour on a terminal: stretches of a line that are looked for first. It says nothing that isn't said without it."""

from __future__ import annotations

from collections.abc import Iterable

from crib.light.choices import StrEnum
from crib.light.tuples import NamedTuple
from crib.render.text import plain


class Look(StrEnum):
    """How a stretch looks, as the terminal is told (ECMA-48, select graphic rendition)."""

    HEAD = "1"
    GOOD = "1;32"
    MIND = "1;33"
    BAD = "1;31"
    TEETH = "36"
    TIGHT = "1;35"


class Mark(NamedTuple):
    """From where to where in a line something looks so."""

    start: int
    end: int
    look: Look


class Painted(str):
    """A line with its marks, in order and apart; to whoever doesn't ask for them, the line."""

    marks: tuple[Mark, ...] = ()


def painted(line: str, marks: Iterable[Mark]) -> str:
    """A line with marks, where there are any.

    >>> painted("no. 7", [Mark(0, 3, Look.HEAD)]) == "no. 7"
    True
    """
    kept = tuple(marks)
    if not kept:
        return line
    out = Painted(line)
    out.marks = kept
    return out


def marks_of(line: str, by: int = 0) -> list[Mark]:
    """The marks of a line, moved to the right."""
    return [Mark(one.start + by, one.end + by, one.look) for one in getattr(line, "marks", ())]


def in_colour(line: str) -> str:
    """A line as a terminal shows it in colour, without signs that would move the cursor.

    >>> in_colour(painted("ab", [Mark(1, 2, Look.TEETH)]))
    'a\\x1b[36mb\\x1b[0m'
    """
    out, at = "", 0
    for start, end, look in marks_of(line):
        out += f"{plain(line[at:start])}\x1b[{look.value}m{plain(line[start:end])}\x1b[0m"
        at = end
    return out + plain(line[at:])
