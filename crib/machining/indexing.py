"""How a bar is held and turned from one flat to the next, by what the shop has: a collet block, a dividing head, a
rotary table; else in a vee block by protractor."""

from __future__ import annotations

from crib.features.down import Flats
from crib.findings.message import Deg, Text, said
from crib.handbook.indexing import crank
from crib.light.records import dataclass
from crib.shop import Shop
from crib.units.angles import minutes_of

_BLOCKS = {"square": (2, 4), "hexagon": (2, 3, 6)}
"""The flats that a collet block's own faces give."""


@dataclass(frozen=True)
class Indexed:
    """A way to hold and turn it: what it is called, how the work is held and indicated, what it takes once and for each
    flat, the settings behind that; `turns`: of a crank for one of the spindle; `by_eye`: by protractor."""

    name: str
    held: Text
    settings: tuple[str, ...]
    turns: int = 0
    by_eye: bool = False

    def once_minutes(self, shop: Shop) -> float:
        """What it takes to put up beyond holding the work."""
        return shop.index_setup_minutes if self.turns else 0.0

    def each_minutes(self, shop: Shop) -> float:
        """What it takes to turn the work to a flat."""
        return shop.protractor_minutes if self.by_eye else shop.index_minutes


def indexed(flats: Flats, shop: Shop) -> Indexed:
    """The way that takes least and holds best of those that there are. Common practice."""
    face = next((name for name, those in _BLOCKS.items() if flats.number in those), None)
    if shop.collet_blocks and face:
        return Indexed(f"{face} collet block", f"in the {face} collet block in the vise, its face flat on a parallel, "
                       "against a stop at the block; the bar in a collet of its own size, the closer tight",
                       ("index_minutes",))
    if shop.dividing_turns:
        return Indexed("dividing head", "in the dividing head's chuck or collet, swung upright where the bar stands on "
                       "end, the bar indicated; its spindle locked for each cut, the crank always come to from the "
                       "same side",
                       ("index_setup_minutes", "index_minutes"), shop.dividing_turns)
    if shop.rotary_turns:
        return Indexed("rotary table", "in a chuck on the rotary table, the table centred under the spindle by "
                       "indicator, then the bar on the table; locked for each cut, its worm come to from the same side",
                       ("index_setup_minutes", "index_minutes"), shop.rotary_turns)
    return Indexed("vee block", "in a vee block, a clamp over the bar, square by an indicator up and down it",
                   ("protractor_minutes",), by_eye=True)


def turned(flats: Flats, way: Indexed, place: int) -> Text:
    """How the work is brought to the flat that is cut at a place in the order; the first is where it is clamped."""
    number, this = flats.number, flats.order[place]
    angle = 360 * (this - 1) / number
    if place == 0:
        return "as it is clamped" if not way.turns else "dial to 0"
    on = (this - flats.order[place - 1]) % number
    by = said("on by {angle}", angle=minutes_of(360 * on / number))
    if not way.turns:
        how = " by protractor" if way.by_eye else ""
        return said("{by}{how}", by=by, how=how)
    if way.name == "rotary table":
        return said("table to {angle}", angle=minutes_of(angle))
    whole, holes, circle = crank(way.turns, on, number)
    if holes and not circle:
        return said("{by}: no circle of the usual plates has it, {angle} by degrees", by=by, angle=Deg(angle))
    more = f" + {holes} holes of the {circle} circle" if holes else ""
    return said("{by}: crank {whole} turns{more}", by=by, whole=whole, more=more)
