"""Rules on holding, speed and the state of a cutter."""

from __future__ import annotations

from collections.abc import Iterator

from crib.handbook.bites import stickout_severity
from crib.planning.advice import Warning
from crib.planning.draft import Draft


def holder(draft: Draft) -> Iterator[Warning]:
    """HD1: a collet, arbor or holder takes the shank or bore. HD2: no drill chuck for what cuts on its side."""
    for tool in draft.tools:
        if not tool.held.ok:
            yield Warning(tool.held.rule, "stop", f"{tool.owned.label}: {tool.held.says}", cutter_id=tool.id)


def anew(draft: Draft) -> Iterator[Warning]:
    """SU1: what another set-up than the usual one puts at risk."""
    setup = draft.question.setup
    if setup.warns:
        yield Warning("SU1", "warn", setup.warns, "common practice, no source")


def speed(draft: Draft) -> Iterator[Warning]:
    """SP1: the slowest spindle speed isn't too fast for the cutter."""
    for tool in draft.tools:
        if tool.step and tool.step.severity:
            guessed = tool.cutter.material == "unknown"
            unsure = ", taken as carbon steel: its material isn't on record" if guessed else ""
            yield Warning("SP1", tool.step.severity, f"{tool.owned.label}: {tool.step.says}{unsure}", tool.step.source,
                          tool.id)


def hand(draft: Draft) -> Iterator[Warning]:
    """G10: the hand of cut is the spindle's."""
    for tool in draft.tools:
        if tool.cutter.hand == "left":
            yield Warning("G10", "stop", f"{tool.owned.label} cuts left-handed: the spindle would run backwards",
                          cutter_id=tool.id)


def condition(draft: Draft) -> Iterator[Warning]:
    """CD1: chipped, burnt or bent makes no finished size; burnt and bent don't go to work at all."""
    for tool in draft.tools:
        state = tool.cutter.condition
        if state in ("burnt", "bent"):
            yield Warning("CD1", "stop", f"{tool.owned.label} is {state}: it doesn't go to work", cutter_id=tool.id)
        elif state in ("chipped", "dull"):
            yield Warning("CD1", "caution", f"{tool.owned.label} is {state}: for roughing only", cutter_id=tool.id)
        elif state == "unknown":
            yield Warning("CD1", "note", f"{tool.owned.label}: look at the edges first, its condition isn't on record",
                          cutter_id=tool.id)


def stickout(draft: Draft) -> Iterator[Warning]:
    """RE4: how far an end mill stands out, against its diameter."""
    tightest = min((d.size.band for d in draft.question.dimensions), default=None)
    for tool in draft.tools:
        if tool.kind.buried or "along" not in tool.kind.ways:
            continue
        ratio = tool.stickout / (tool.cutter.diameter_mm or 1.0)
        severity = stickout_severity(ratio, tightest or None)
        if severity:
            yield Warning("RE4", severity, f"{tool.owned.label} stands out {ratio:.1f} times its diameter: light cuts, "
                          "and measure for bend", "from memory", tool.id)


RULES = (holder, anew, speed, hand, condition, stickout)
STOPS = (holder, speed, hand, condition, stickout)
