"""Where the spindle stands for each of several holes, by table and cross and on the handwheels; how the work is turned
to each of several flats."""

from __future__ import annotations

from crib.machining.question import Question
from crib.machining.words import Slide
from crib.planning.process.dials import dial
from crib.planning.told.passes import Place, Turned


def places(question: Question) -> tuple[Place, ...]:
    """Every hole of a circle in order, each on the nearest step of the readout; nothing for what is by itself."""
    circle, shop = question.feature.circle, question.shop

    def step(mm: float) -> float:
        return round(round(mm / shop.readout_mm) * shop.readout_mm, 6)

    return tuple(
        Place(number, x, y, step(x), step(y), (dial(Slide.TABLE, step(x), shop), dial(Slide.CROSS, step(y), shop)))
        for number, (x, y) in enumerate(circle.places, start=1)) if circle else ()


def counted_from(question: Question) -> str:
    """What they count from; nothing where there are none."""
    circle = question.feature.circle
    if circle is None:
        return ""
    return "the left-hand and the front face" if circle.middle else "the middle of the circle"


def turned_to(question: Question) -> tuple[Turned, ...]:
    """Every flat in the order in which they are cut; nothing for what isn't turned."""
    flats = question.feature.flats
    if flats is None:
        return ()
    from crib.machining.indexing import indexed, turned

    way = indexed(flats, question.shop)
    return tuple(Turned(place + 1, flat, 360 * (flat - 1) / flats.number, turned(flats, way, place))
                 for place, flat in enumerate(flats.order))


def index_by(question: Question) -> str:
    """What it is turned by; nothing for what isn't."""
    flats = question.feature.flats
    if flats is None:
        return ""
    from crib.machining.indexing import indexed

    return indexed(flats, question.shop).name
