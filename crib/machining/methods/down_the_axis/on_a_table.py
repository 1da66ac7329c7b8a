"""Work that is turned under the spindle on a rotary table: how it is held and found, where a cutter stands beside the
axis, one turn of the work for each setting."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import accumulate
from math import pi, sin

from crib.cutters.base import Cutter
from crib.findings.message import Mm, Text, said
from crib.geometry.region import NOTHING
from crib.handbook.bites import level_overlap, levels_needed
from crib.handbook.deviations import plunged_round_left
from crib.handbook.indexing import CRANKED_A_MINUTE
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Cut, Job
from crib.machining.methods.down_the_axis.sizes import by_condition
from crib.machining.question import Question
from crib.machining.tool import Tool, at_kindest, at_worst, ready, unknowns
from crib.machining.words import Fed, Manner, Role, Side
from crib.shop import Shop
from crib.units import nm

HELD = ("clamped on the rotary table, on a plate or parallels that leave the cutter air under the work; the table "
        "bolted down, its locks eased just enough to turn it")
"""How the work is held. Common practice, no source."""

TABLE_FIRST = ("indicator in the spindle, its point in the rotary table's own hole: table and cross until it reads "
               "alike all round, set table 0 and cross 0, lock cross")

_CLOSE_MM = 1e-3

WALKED = 36
"""Settings of table and cross by which a groove would be walked round, every 10 degrees."""


def no_table(question: Question, across_mm: float, tool: Tool) -> Limit | None:
    """That nothing turns the work under a cutter, and what two slides by hand would leave of a round so wide [mm]; None
    where there is a rotary table."""
    if question.shop.rotary_turns:
        return None
    cutter = 2 * tool.form.radius / 1e6
    says = said("it goes round only where the work is turned under it, and no rotary table is on record: {left}",
                left=_left_by_hand(across_mm, cutter))
    return Limit("IG1", says, fix="a rotary table, told by crib shop --rotary-turns", short=0.0)


def _left_by_hand(across_mm: float, cutter_mm: float) -> Text:
    if (across_mm - cutter_mm) * sin(pi / WALKED) >= cutter_mm:
        return said("{settings} settings of two slides by hand don't even meet", settings=WALKED)
    return said("two slides by hand leave facets, {proud} proud even in {settings} settings", settings=WALKED,
                proud=Mm(plunged_round_left(across_mm, cutter_mm, WALKED), places=4))


def step_of(shop: Shop) -> int:
    """The finest step that a slide is set to [nm]."""
    return nm(shop.readout_mm)


def nearest(value: float, step: int) -> int:
    """The nearest whole step."""
    return round(value / step) * step


def settings(first: int, last: int, bites: Sequence[int], step: int) -> list[int]:
    """Where the axis stands after each bite from a first place out to a last one, on whole steps short of it.

    >>> settings(0, 100, [50, 50], 30), settings(0, 20, [10, 10], 30)
    ([30, 100], [20])
    """
    taken, found = accumulate(bites[:-1]), [first]
    for at in ((first + each) // step * step for each in taken):
        if found[-1] < at < last:
            found.append(at)
    return [*found[1:], last]


def levels_of(width_mm: float, face_mm: float) -> int:
    """How many levels a face takes for a groove so wide, overlapping.

    >>> levels_of(3.0, 3.0), levels_of(3.0, 2.0), levels_of(3.0, 1.5)
    (1, 2, 3)
    """
    return levels_needed(width_mm, face_mm, min(face_mm / 2, level_overlap(face_mm)))


def least_face(width_mm: float, most: int) -> float:
    """The least face that takes no more levels than that [mm]; found by halving."""
    low, high = 0.0, width_mm
    while high - low > _CLOSE_MM:
        middle = (low + high) / 2
        low, high = (low, middle) if levels_of(width_mm, middle) <= most else (middle, high)
    return high


def sized(question: Question, cutter: Cutter) -> tuple[Tool | None, Tool | None]:
    """The tool that a cutter is with what isn't known of it at its worst and at its kindest; the same twice where all
    is known."""
    shop, material = question.shop, question.material
    if not unknowns(cutter):
        tool = ready(cutter, shop, material)
        return tool, tool
    worst = at_worst(cutter)
    return (ready(worst, shop, material, cutter) if worst else None,
            ready(at_kindest(cutter, question.feature.kindest), shop, material, cutter))


def why_not(question: Question, cutter: Cutter, across_mm: float, short_of: Callable[[Tool], Limit | None]
            ) -> Limit | None:
    """What keeps a cutter from going round so wide [mm]: what it is short of at its kindest, its edges, that nothing
    turns the work, a size that isn't known; None where nothing does."""
    worst, kindest = sized(question, cutter)
    if kindest is None:
        return asks(cutter)
    at_worst = short_of(worst) if worst is not None and worst is not kindest else None
    return (short_of(kindest) or by_condition(cutter) or no_table(question, across_mm, kindest)
            or (asks(cutter, at_worst) if at_worst or worst is None else None))


def asks(cutter: Cutter, worst: Limit | None = None) -> Limit:
    """That an answer turns on what nobody measured, and what would do, as far as it keeps it from the work at its
    `worst`."""
    ask = " and ".join(one.ask for one in unknowns(cutter))
    fix = said("{ask}: {fix}", ask=ask, fix=worst.fix) if worst and worst.fix and len(unknowns(cutter)) == 1 else ask
    return Limit("G7", "a size that decides isn't known", fix=fix, short=0.0, unsure=True)


def round_once(tool: Tool, room: str, at: int, z: int, radial: int, across_mm: float, says: Text, *, start: int,
               on_from: bool, role: Role = Role.GROOVE, is_measured: bool = False, axial: int = 0,
               cranked: float = 0.0) -> Job:
    """One turn of the work with the axis at a place and a height [nm], the metal's path so wide [mm]; `cranked`: how
    often the table's crank goes round for it."""
    cut = Cut(at, z, role, room, Side.AXIS, radial, axial, says=says, start=start, on_from=on_from, fed=Fed.ROUND,
              round_mm=pi * across_mm, turns=cranked, is_measured=is_measured)
    return Job(tool, room, (cut,), NOTHING, Manner.DOWN)


def one_turn(shop: Shop, tool: Tool, across_mm: float) -> Text:
    """How fast the work is turned: by the feed, and no faster than a hand cranks."""
    turns = cranked(shop)
    seconds = 60 * max(pi * across_mm / tool.feed, turns / CRANKED_A_MINUTE)
    return said("{turns:g} turns of its crank in about {seconds:.0f} seconds", turns=turns,
                seconds=5 * max(1, round(seconds / 5)))


def cranked(shop: Shop) -> float:
    """How often the crank goes round for one turn of the table."""
    return float(shop.rotary_turns or 0)
