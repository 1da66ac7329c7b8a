"""A bored hole: the bar in its head, and the ladder of cuts, each with what the head is set to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.base import Cutter, Down
from crib.features.down import HOLE
from crib.findings.message import Mm, Rpm, Text, joined, said
from crib.geometry.silhouette import Silhouette
from crib.handbook.boring import FEED_MM, LAST_FEED_MM, ladder, rough_cut
from crib.handbook.speeds import spindle_step
from crib.holders.base import Held
from crib.holders.heads import Head, from_drawer, hold, is_head, takes
from crib.light.records import replace
from crib.machining.holes import Hole
from crib.machining.methods.cuts import Job
from crib.machining.methods.down_the_axis.strokes import stroke, tool_for
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Role
from crib.shop import Shop
from crib.units import nm

ROOM_BELOW_MM = 0.030 * 25.4
"""What a bar stands out beyond the depth of its bore [mm]. Common practice."""


def heads_of(shop: Shop, cutters: Sequence[Cutter]) -> tuple[Head, ...]:
    """The boring heads of the shop; where none were set, those that lie in the drawers, the rest of them assumed."""
    if shop.boring_heads:
        return tuple(Head(one.bar_mm, one.least_mm, one.most_mm, one.rpm, one.dial, faces=one.faces)
                     for one in shop.boring_heads)
    return tuple(from_drawer(one) for one in cutters if is_head(one) and one.bore_mm is not None)


def untold_head(shop: Shop, cutters: Sequence[Cutter], bar: Cutter) -> Cutter | None:
    """A boring head in the drawers that may take a bar, of which the shop doesn't say so; None where there is none."""
    shank = bar.shank_mm or bar.diameter_mm or 0.0
    return next((one for one in cutters if is_head(one) and (
        one.bore_mm is None or (shop.boring_heads and takes(one.bore_mm, shank)))), None)


def held_in_head(shop: Shop, bar: Cutter, bore_mm: float, cutters: Sequence[Cutter]) -> tuple[Held, Head | None]:
    """The head of the shop or of its drawers that sets a bar out to a bore [mm]; else why none does."""
    return hold(bar, bore_mm, heads_of(shop, cutters), untold=untold_head(shop, cutters, bar))


def dial_step(shop: Shop) -> float:
    """The finest step of a head's dial, on the diameter [mm]."""
    return 0.0254 if shop.units == "in" else 0.01


def stands_out(cutter: Cutter, deep_mm: float) -> float:
    """How far a bar stands out of its head for a bore so deep [mm]: as far as it must, a necked one by its neck."""
    need = deep_mm + ROOM_BELOW_MM
    necked = cutter.shank_mm is not None and abs(cutter.shank_mm - (cutter.diameter_mm or 0.0)) > 1e-6
    return max(need, cutter.reach_mm) if cutter.reach_mm is not None and necked else need


def bored(question: Question, hole: Hole, cutter: Cutter, start_mm: float, deep_mm: float, cutters: Sequence[Cutter]
          ) -> Iterator[Job]:
    """Every cut from the hole that is there to the size; the last once more unchanged, but where that hardens the
    metal. Where no head takes the bar or turns so slowly, one stroke that says so."""
    tool = tool_for(question, cutter, Down.BORING, hole.diameter_mm, hole.expected_mm)
    if tool is None:
        return
    tool, head = at_its_speed(question.shop, tool, *held_in_head(question.shop, cutter, hole.expected_mm, cutters))
    if head is None or not tool.held.ok:
        yield stroke(tool, Role.BORE, HOLE, -deep_mm, "bore to size")
        return
    yield from _cuts(question, tool, head, start_mm, hole.expected_mm, deep_mm)


def at_its_speed(shop: Shop, tool: Tool, held: Held, head: Head | None) -> tuple[Tool, Head | None]:
    """The tool as its head holds it, no faster than that may turn; where the spindle has no such speed, that."""
    steps = shop.spindle_rpm
    slow = [step for step in steps or () if head is None or step <= head.rpm]
    if head is not None and steps and not slow:
        says = said("its boring head turns {most} rpm at the most, the slowest speed is {slowest}", most=Rpm(head.rpm),
                    slowest=Rpm(min(steps)))
        held = Held(False, held.label, says, "SP1", fix="a head for that speed, or a slower one")
    if head is None or not held.ok:
        return replace(tool, held=held), head
    wanted = min(tool.wanted_rpm, head.rpm)
    step = spindle_step(wanted, slow) if slow else None
    rpm = float(step.rpm) if step else wanted
    feeding = replace(tool.feeding, wanted_rpm=wanted, step=step, rpm=rpm, held_by="")
    return replace(tool, held=held, feeding=feeding), head


def _cuts(question: Question, tool: Tool, head: Head, start: float, size: float, deep: float) -> Iterator[Job]:
    shop, cutter = question.shop, tool.cutter
    rough = rough_cut(cutter.diameter_mm or 0.0, stands_out(cutter, deep), question.material, shop.stiffness,
                      cutter.material == "carbide")
    steps = ladder(start, size, rough, dial_step(shop))
    before, last, spring = start, len(steps) - 1, not question.material.work_hardens
    for place, across in enumerate(steps):
        is_last = place >= last - 1
        yield stroke(_set_to(tool, across, LAST_FEED_MM if is_last else FEED_MM), Role.BORE, HOLE, -deep,
                     _says(shop, head, place, last, across, across - before), diameter_mm=across,
                     radial=nm((across - before) / 2),
                     is_measured=place in (0, last - 2, last - 1) or (place == last and not spring))
        before = across
    if spring:
        yield stroke(_set_to(tool, size, LAST_FEED_MM), Role.BORE, HOLE, -deep, "a spring cut: once more, the head "
                     "unchanged; then measure", diameter_mm=size)


def _says(shop: Shop, head: Head, place: int, last: int, across: float, more: float) -> Text:
    """What the head is set to for a cut, and where it is measured after it."""
    fine = place >= last - 1
    dial, to = (Mm(mm, fine=fine) for mm in (more / 2 * head.counts, across))
    set_to = said("to {to_}: the head's dial {dial} on, on the {counts}", to_=to, dial=dial, counts=head.dial)
    if place == last:
        return said("{set_to}, or what is left by the last measure", set_to=set_to)
    if place == last - 1:
        return said("{set_to}; measure: the next cut takes as much again", set_to=set_to)
    touch = "touch the hole's wall, dial at nought; " if place == 0 else ""
    by = ", or what is left by a measure before it" if place == last - 2 else ""
    return joined("", (touch, set_to, by, "; measure" if place in (0, last - 2) else ""))


def _set_to(tool: Tool, across_mm: float, feed_mm: float) -> Tool:
    """The tool with its tooth out to a diameter; the bar goes round inside it, as far from the wall as ever."""
    cutter = tool.cutter
    size = cutter.diameter_mm or 0.0
    room = max(0.0, (cutter.min_hole_mm or size) - size)
    teeth = tuple(part._replace(radius_low=nm(across_mm / 2), radius_high=nm(across_mm / 2)) for part in tool.form.sure)
    bar = nm(across_mm / 2 - room)
    clear = tuple(part._replace(radius_low=bar, radius_high=bar) if part.name == "bar" else part
                  for part in tool.form.clear)
    return replace(tool, form=Silhouette(teeth, teeth, clear), feeding=replace(tool.feeding, feed=tool.rpm * feed_mm))
