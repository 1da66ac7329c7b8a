"""What goes into a room with round corners before the mill that goes round its walls, and what that costs at the
least."""

from __future__ import annotations

from math import inf

from crib.findings.message import Text
from crib.geometry.outline import Room
from crib.light.tuples import NamedTuple
from crib.machining.ends.cornered import Walls
from crib.machining.ends.roughed import is_for_corners
from crib.machining.overruled import may_be
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Role
from crib.planning.reckoning.cost import wear_share
from crib.units import NM


class BeforeRounds(NamedTuple):
    """The least money of a mill that roughs a room, by what holds it, and of a drill down its corners, infinite where
    there is none; what it costs to change what holds a tool; how often is measured at the least for what the mill
    makes; whether it is surely warned of two cutters in a room, whoever follows."""

    mills: dict[Text, float]
    drill: float
    change: float
    checks: int
    warned: bool

    @staticmethod
    def of(question: Question, room: Room) -> BeforeRounds:
        """That of a room. No mill takes less than it was reckoned with, and no drill less than `_down_the_corners`, the
        collet changed after it unless it holds some mill too."""
        layers, shop, mills = question.layers, question.shop, dict[Text, float]()
        assert layers is not None
        change = shop.collet_minutes / 60 * shop.hour_rate
        for one in question.roughers:
            label = one.job.tool.held.label
            mills[label] = min(mills.get(label, inf), one.money)
        walls = Walls.of(layers, room)
        drill = min((_down_the_corners(question, drill, room) + change * (drill.held.label not in mills)
                     for drill in question.drills if is_for_corners(drill, walls)), default=inf)
        makes_floor = all(any(cut.role is Role.FLOOR for cut in one.job.cuts) for one in question.roughers)
        warned = not any(may_be(shop, one.job.tool.owned, "JN1") for one in question.roughers)
        return BeforeRounds(mills, drill, change, 1 + makes_floor, warned)

    def money(self, tool: Tool, drilled: bool) -> float:
        """What goes before a tool: the collet is changed for it unless it holds the mill too; and a drill, where one
        goes first, for which it needn't be."""
        mill = min(money + self.change * (label != tool.held.label) for label, money in self.mills.items())
        return mill + (self.drill if drilled else 0.0)


def _down_the_corners(question: Question, drill: Tool, room: Room) -> float:
    """What a drill costs at the least that goes down each corner of a room as deep as that must be: to put it up, to
    touch it off, its four strokes and its wear."""
    shop = question.shop
    deep = (question.outline.stock.bounds()[3] - room.least.low) / NM
    strokes = 4 * question.feature.number * (deep / drill.feed + drill.pass_minutes)
    wear: float = getattr(shop, wear_share(drill.kind.buried, question.material)[0])
    minutes = shop.cutter_minutes + drill.touch_minutes + strokes
    return minutes / 60 * shop.hour_rate + wear * (drill.owned.price or 0.0)
