"""Before and after: what lending, dulling, selling or buying a cutter changes in the parts on file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.app.part.made import numbered, state_of
from crib.app.part.plan import Known, plan, planned_of
from crib.app.rehearsal import rehearsed
from crib.app.take_in import session_of
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.light.records import dataclass
from crib.planning.parts.planned import PlannedPart
from crib.store import Crib


@dataclass(frozen=True)
class Changed:
    """A part as it is planned now and as it would be then; what stands in the way where it can't be planned."""

    name: str
    now: PlannedPart | None = None
    then: PlannedPart | None = None
    fault: Finding | None = None


@dataclass(frozen=True)
class Changes:
    """What some cutters less and some more change: the cutters, and every part on file."""

    without: tuple[Cutter, ...]
    more: tuple[Cutter, ...]
    parts: tuple[Changed, ...]


def changes(crib: Crib, without: Sequence[int] = (), words: Sequence[str] = ()) -> Changes:
    """What it changes in every part on file to be without some cutters, and to have some more that are told in words.
    Nothing is kept. Raises `CribError` for a cutter that there isn't, and for words that can't be read."""
    gone = tuple(crib.cutter(number) for number in dict.fromkeys(without))
    more = tuple(_in_words(crib, text) for text in words)
    known = Known()
    return Changes(gone, more, tuple(_each(crib, {one.id for one in gone}, more, known)))


def _each(crib: Crib, without: set[int], more: Sequence[Cutter], known: Known) -> Iterator[Changed]:
    cutters = (*(one for one in crib.holdings().cutters if one.id not in without), *more)
    for kept in crib.parts():
        try:
            reply = plan(crib, kept.name, known=known, lacking=False)
        except CribError as error:
            yield Changed(kept.name, fault=error.finding)
            continue
        if not more and without.isdisjoint(one.cutter.id for one in reply.planned.operations if not one.done):
            yield Changed(kept.name, reply.planned, reply.planned)
            continue
        state = state_of(crib, kept.name)
        then = numbered(planned_of(reply.part, cutters, reply.shop, state, known=known), state)
        yield Changed(kept.name, reply.planned, then)


def _in_words(crib: Crib, text: str) -> Cutter:
    """A cutter as it would be taken in. Raises `CribError` where nothing could be made of the words."""
    taken: list[Cutter] = []
    rehearsed(crib, lambda: taken.extend(session_of(crib).say(text).taken))
    if not taken:
        raise CribError("usage", f"no cutter can be read from {text!r}", text, '--with "3/8 keyseat cutter 1/8 wide"')
    return taken[0]


def numbers_of(text: str) -> list[int]:
    """Numbers of cutters with commas between. Raises `CribError`.

    >>> numbers_of("3, 4,9"), numbers_of("")
    ([3, 4, 9], [])
    """
    words = text.replace(",", " ").split()
    wrong = next((word for word in words if not (word.isascii() and word.isdigit() and len(word) <= _LONG)), None)
    if wrong is not None:
        raise CribError("usage", f"{wrong!r} is not a cutter's number", wrong, "numbers with commas between: 3,4,9")
    return [int(word) for word in words]


_LONG = 18
"""A number of more digits is none."""
