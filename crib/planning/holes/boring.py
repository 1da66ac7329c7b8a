"""A bored hole: the bar in its head, and the ladder of cuts, each with what the head is set to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from crib.cutters.base import Cutter, Down
from crib.findings.message import InWords, Mm, Text, joined, said
from crib.geometry.silhouette import Form
from crib.handbook.boring import FEED_MM, LAST_FEED_MM, ladder, rough_cut
from crib.handbook.speeds import spindle_step
from crib.holders.base import Held
from crib.holders.heads import Head, hold
from crib.machining.tool import Descent, Tool, ready
from crib.planning.holes.draft import Question, Stroke
from crib.shop import Shop
from crib.tapping.shape import Hole
from crib.units import nm

ROOM_BELOW_MM = 0.030 * 25.4
"""What a bar stands out beyond the depth of its bore [mm]. Common practice."""

_HEAD_RPM, _HEAD_GOES_TO = 1000.0, 2.0
"""Of a head that is in a drawer with nothing but its size: the fastest that it is turned [rev/min] and the largest
bore, of its own diameter [-]. From memory."""


def heads_of(shop: Shop, cutters: Sequence[Cutter]) -> tuple[Head, ...]:
    """The boring heads of the shop; where none were set, those that lie in the drawers, the rest of them assumed."""
    if shop.boring_heads is not None:
        return tuple(Head(one.bar_mm, one.least_mm, one.most_mm, one.rpm, one.dial) for one in shop.boring_heads)
    return tuple(_from_drawer(one) for one in cutters if one.kind == "boring-head" and one.bore_mm is not None)


def _from_drawer(head: Cutter) -> Head:
    bar = head.bore_mm or 0.0
    return Head(bar, bar / 2, _HEAD_GOES_TO * (head.diameter_mm or 4 * bar), _HEAD_RPM, "diameter",
                f"{head.label}: its range, {_HEAD_RPM:.0f} rpm at the most, its dial on the diameter; look at it, "
                "then crib shop --boring-heads")


def stands_out(cutter: Cutter, deep_mm: float) -> float:
    """How far a bar stands out of its head for a bore so deep [mm]: as far as it must, a necked one by its neck."""
    need = deep_mm + ROOM_BELOW_MM
    necked = cutter.shank_mm is not None and abs(cutter.shank_mm - (cutter.diameter_mm or 0.0)) > 1e-6
    return max(need, cutter.reach_mm) if cutter.reach_mm is not None and necked else need


def bored_strokes(question: Question, hole: Hole, cutter: Cutter, start_mm: float, deep_mm: float) -> list[Stroke]:
    """Every cut from the hole that is there to the size; the last once more unchanged, but where that hardens the
    metal. None of them where no head takes the bar: then one stroke that says so."""
    held, head = hold(cutter, hole.expected_mm, question.heads, question.shop.units)
    tool = ready(cutter, question.shop, question.material,
                 down=Descent(Down.BORING, hole.diameter_mm, hole.expected_mm))
    if tool is None:
        return []
    slow = [step for step in question.shop.spindle_rpm or () if head is None or step <= head.rpm]
    if head is not None and question.shop.spindle_rpm and not slow:
        lowest = min(question.shop.spindle_rpm)
        held = Held(False, held.label, f"its boring head turns {head.rpm:.0f} rpm at the most, the slowest speed is "
                    f"{lowest}", "SP1", head.rpm, float(lowest), "a head for that speed, or a slower one")
    if head is None or not held.ok:
        return [Stroke(replace(tool, held=held), "bore", "hole", -deep_mm, "bore to size")]
    wanted = min(tool.wanted_rpm, head.rpm)
    step = spindle_step(wanted, slow) if slow else None
    tool = replace(tool, held=held, feeding=replace(tool.feeding, wanted_rpm=wanted, step=step,
                                                    rpm=float(step.rpm) if step else wanted))
    return list(_cuts(question, tool, head, start_mm, hole.expected_mm, deep_mm))


def _cuts(question: Question, tool: Tool, head: Head, start: float, size: float, deep: float) -> Iterator[Stroke]:
    shop, cutter = question.shop, tool.cutter
    rough = rough_cut(cutter.diameter_mm or 0.0, stands_out(cutter, deep), question.material, shop.stiffness,
                      cutter.material == "carbide")
    steps = ladder(start, size, rough, 0.0254 if shop.units == "in" else 0.01)
    before, last, spring = start, len(steps) - 1, not question.material.work_hardens
    for place, across in enumerate(steps):
        is_last = place >= last - 1
        yield Stroke(_set_to(tool, across, LAST_FEED_MM if is_last else FEED_MM), "bore", "hole", -deep,
                     _says(shop, head, place, last, across, across - before), diameter_mm=across,
                     radial_mm=(across - before) / 2,
                     is_measured=place in (0, last - 2, last - 1) or (place == last and not spring))
        before = across
    if spring:
        yield Stroke(_set_to(tool, size, LAST_FEED_MM), "bore", "hole", -deep, "a spring cut: once more, the head "
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
    return replace(tool, form=Form(teeth, teeth, clear), feeding=replace(tool.feeding, feed=tool.rpm * feed_mm))


def asks(question: Question, cutter: Cutter) -> tuple[Text, str] | None:
    """What must be measured of a bar before it can be reckoned with, in words and what to measure."""
    if cutter.diameter_mm is None and cutter.min_hole_mm is not None:
        return (said("known by its smallest hole only, {min_hole}: how thick it is decides how far it may stand out",
                     min_hole=InWords(cutter.min_hole_mm)),
                "mic the bar behind its tooth")
    if cutter.min_hole_mm is None and cutter.diameter_mm is not None:
        return (said("a bar of {diameter}, its smallest hole isn't on record", diameter=InWords(cutter.diameter_mm)),
                "mic across tooth and bar: the smallest hole is that and some air")
    return None
