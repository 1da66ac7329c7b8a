"""Rules for the sizes of what goes round beside an axis, or is slotted along it: a groove in a bore or in a face, a
keyseat in a bore."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import goes_down
from crib.cutters.base import Down
from crib.features.base import Dimension
from crib.features.down import BoreKeyseat, InsideGroove, RingGroove
from crib.findings.finding import Finding
from crib.handbook.bands import Band, band, one_pass
from crib.light.tuples import NamedTuple
from crib.machining.chain import Chain
from crib.rules.sizes import missed, with_care
from crib.units import Size


class Made(NamedTuple):
    """A size, the way in which it comes about, and what it counts from: the cutter's own, and what it is set to
    [mm]."""

    dimension: Dimension
    way: Band
    own: float
    aimed: float


def holds(chain: Chain) -> Iterator[Finding]:
    """G12: the way of cutting holds the drawing's band."""
    for one in _ways(chain):
        yield from with_care(*one)


def misses(chain: Chain) -> Iterator[Finding]:
    """What the way can't hold even with care: how far it may come out beyond the nearer limit."""
    for one in _ways(chain):
        yield from missed(*one)


def _ways(chain: Chain) -> Iterator[Made]:
    """Each size to limits with the way in which it comes about. A head's dial, and the slide under a rotary table, are
    set as a wall is stepped to; a tooth leaves its own face, and a hair. Common practice, no source."""
    asked = chain.question.feature.down
    stepped = band("stepped by readout" if chain.question.shop.dro else "stepped by dials")
    face = chain.tools[-1].cutter.face_mm or 0.0 if chain.tools else 0.0
    if isinstance(asked, InsideGroove):
        is_wide = len({cut.z for _, cut in chain.passes()}) > 1
        yield _to("groove diameter", asked.diameter, stepped)
        yield (_to("groove width", asked.width, band("two levels")) if is_wide
               else _own("groove width", asked.width, face))
        yield _to("from the face to its upper side", asked.from_face, stepped)
    elif isinstance(asked, RingGroove):
        yield _to("across the outside", asked.outside, stepped)
        yield _across(chain, asked.width, stepped)
        yield _to("depth", asked.depth, band("one setting, measured before it"))
    elif isinstance(asked, BoreKeyseat):
        yield _own("keyseat width", asked.width, face)
        yield _to("keyseat depth", asked.depth, band("one setting, measured before it"))


def _across(chain: Chain, width: Size, stepped: Band) -> Made:
    """A groove in a face: as wide as the mill or the tooth that makes it in one place, or stepped to."""
    tool = chain.tools[-1]
    if len({cut.x for _, cut in chain.passes()}) > 1:
        return _to("groove width", width, stepped)
    if goes_down(tool.cutter, Down.TREPANNING):
        return _own("groove width", width, tool.cutter.face_mm or 0.0)
    return Made(_of("groove width", width), one_pass(chain.question.shop.mill_runout_mm),
                tool.cutter.diameter_mm or width.mid, width.mid)


def _to(name: str, size: Size, way: Band) -> Made:
    return Made(_of(name, size), way, 0.0, size.mid)


def _own(name: str, size: Size, face: float) -> Made:
    return Made(_of(name, size), band("own face"), 0.0, face or size.mid)


def _of(name: str, size: Size) -> Dimension:
    return Dimension(name, "width", size, ())


RULES = (holds,)
