"""Rules on holding, speed and the state of a cutter."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Down, Motion
from crib.cutters.edges import BROKEN, SERRATED, edges
from crib.findings.finding import Finding, Grade
from crib.findings.message import ByUnits, Fact, Feed, Message, Mm, Power, Rpm, Text, Torque, said
from crib.handbook.bites import (
    E_CARBIDE,
    E_HSS,
    FAR_OUT,
    FAR_OUT_BAND_MM,
    FULL_BITE_STICKOUT,
    bend,
    bend_ratio,
    stickout_grade,
)
from crib.handbook.deviations import cusp
from crib.handbook.power import torque
from crib.machining.draft import Draft
from crib.machining.feeding import MOTOR, Feeding
from crib.machining.methods.cuts import Job
from crib.machining.tool import Tool


def holder(draft: Draft) -> Iterator[Finding]:
    """HD1: a collet, arbor or holder takes the shank or bore. HD2: no drill chuck for what cuts on its side."""
    for tool in draft.tools:
        if not tool.held.ok:
            held = tool.held
            yield Finding(held.rule, Grade.STOP, said("{cutter}: {says}", cutter=tool.owned.label, says=held.says),
                          cutter_id=tool.id, has_mm=held.has, needs_mm=held.needs, fix=held.fix, unsure=held.unsure)


def anew(draft: Draft) -> Iterator[Finding]:
    """SU1: what another set-up than the usual one puts at risk."""
    setup = draft.question.setup
    if setup.warns:
        yield Finding("SU1", Grade.WARN, setup.warns, "common practice, no source")


def speed(draft: Draft) -> Iterator[Finding]:
    """SP1: the slowest spindle speed isn't too fast for the cutter. A drill that could go faster is no worse for it."""
    for tool in draft.tools:
        idle = tool.by_hand or (draft.is_round and tool.step is not None and tool.step.ratio < 1)
        if tool.step and tool.step.grade and not idle:
            guessed = tool.cutter.material == "unknown"
            unsure = ", taken as carbon steel: its material isn't on record" if guessed else ""
            yield Finding("SP1", tool.step.grade, said("{cutter}: {says}{unsure}", cutter=tool.owned.label,
                                                          says=tool.step.says, unsure=unsure), tool.step.source,
                          tool.id, fix=said("a spindle speed of {most} or less", most=Rpm(tool.most_rpm)))


def hand(draft: Draft) -> Iterator[Finding]:
    """G10: the hand of cut is the spindle's; a tap's, which is turned by hand, is its thread's."""
    for tool in draft.tools:
        if tool.cutter.hand == "left" and Down.TAPPING not in tool.kind.down:
            yield Finding("G10", Grade.STOP, said("{cutter} cuts left-handed: the spindle would run backwards",
                                                  cutter=tool.owned.label),
                          cutter_id=tool.id)


def condition(draft: Draft) -> Iterator[Finding]:
    """CD1: chipped, burnt, bent or serrated makes no size, nor a dull one in metal that hardens as it is rubbed; burnt
    and bent don't go to work at all."""
    for tool in draft.tools:
        state = edges(tool.cutter)
        if draft.is_round:
            yield from _down(tool, state)
            continue
        ends = [] if tool.can_finish else [job.room for job in draft.jobs
                                           if job.tool.id == tool.id and _is_ended_by(draft, job)]
        if ends:
            yield Finding("CD1", Grade.STOP, said("{cutter} is {state}: it may rough, another must make the {ends} to "
                                                  "size",
                                                  cutter=tool.owned.label, state=state, ends=ends[0]),
cutter_id=tool.id)
        if state in ("burnt", "bent"):
            yield Finding("CD1", Grade.STOP, said("{cutter} is {state}: it doesn't go to work", cutter=tool.owned.label,
                                                  state=state), cutter_id=tool.id)
        elif not tool.can_finish and state != SERRATED:
            yield Finding("CD1", Grade.CAUTION, said("{cutter} is {state}: for roughing only", cutter=tool.owned.label,
                                                     state=state), cutter_id=tool.id)
        elif state == "dull":
            yield Finding("CD1", Grade.CAUTION, said("{cutter} is dull: hone or grind it before the finishing passes",
                                                     cutter=tool.owned.label),
                          cutter_id=tool.id)
        elif state == "unknown":
            yield _unseen(tool)


def _unseen(tool: Tool) -> Finding:
    return Finding("CD1", Grade.NOTE, said("{cutter}: look at the edges first, its condition isn't on record",
                                           cutter=tool.owned.label), cutter_id=tool.id)


def _down(tool: Tool, state: str) -> Iterator[Finding]:
    """The same down an axis, where every edge makes a size."""
    if state in (*BROKEN, SERRATED):
        yield Finding("CD1", Grade.STOP, said("{cutter} is {state}: no hole to size with it", cutter=tool.owned.label,
                                              state=state), cutter_id=tool.id)
    elif state == "dull":
        grave = Grade.CAUTION if tool.can_finish else Grade.STOP
        yield Finding("CD1", grave, said("{cutter} is dull: grind it first", cutter=tool.owned.label),
                      cutter_id=tool.id)
    elif state == "unknown":
        yield _unseen(tool)


def unfit(tool: Tool, room: str) -> Finding:
    """CD1 of a cutter that may only rough, put to a room that it would have to end."""
    state = edges(tool.cutter)
    says = said("it is {state}: it may rough, another must make the {room} to size", state=state, room=room)
    fix = "" if state == SERRATED else "ground sharp it would do"
    return Finding("CD1", Grade.STOP, says, cutter_id=tool.id, fix=fix)


def _is_ended_by(draft: Draft, job: Job) -> bool:
    """Whether a job leaves its room clear, so that its tool made the size."""
    room = next((room for room in draft.question.outline.rooms if room.name == job.room), None)
    if room is None or not job.cuts:
        return False
    return draft.question.outline.is_waived(draft.question.outline.rest(room, job.removed))


def feed(draft: Draft) -> Iterator[Finding]:
    """FD1: what keeps the feed below what the teeth would take: the hand at the wheel, or the motor."""
    for tool in draft.tools:
        feeding = tool.feeding
        if not feeding.held_by or tool.by_hand:
            continue
        by: Text = "as fast as a hand turns the wheel" if draft.question.shop.power_feed_mm is None else (
            "as fast as the power feed goes")
        if feeding.held_by == MOTOR:
            pull = said(", {pull} at the tool", pull=_pull(feeding))
            by = said("as much as the motor pulls{pull}", pull="" if draft.is_round else pull)
        yield Finding("FD1", Grade.NOTE, said("{cutter}: fed at {feed}, {by}; its {edges} would take {wants}",
                                              cutter=tool.owned.label, feed=Feed(feeding.feed), by=by,
                                              edges="lips" if draft.is_round else "teeth", wants=Feed(feeding.wants)),
                      "from memory", tool.id)


def _pull(feeding: Feeding) -> Message:
    """Power and torque at the tool."""
    return said("{power} and {torque}", power=Power(feeding.power),
                torque=Torque(torque(feeding.power, feeding.rpm)))


UNKNOWN_STEEL = Finding("UN1", Grade.NOTE, "steel not on record: run as carbon steel, half as fast as HSS; a spark "
                        "tells, and where most of yours are HSS say so once: crib shop --unknown-steel hss",
                        "common practice, no source")


def steel(draft: Draft) -> Iterator[Finding]:
    """UN1: what a cutter of unknown steel is run as, until the owner says what most of his are; a tap that a hand turns
    has no speed."""
    if any(tool.cutter.material == "unknown" and not tool.by_hand for tool in draft.tools):
        yield UNKNOWN_STEEL


_BENDS = 1.5
"""From here on it is told how many times as much it bends."""


def stickout(draft: Draft) -> Iterator[Finding]:
    """RE4: how far an end mill stands out, against its diameter."""
    tightest = min((d.size.band for d in draft.question.dimensions), default=None)
    for tool in draft.tools:
        if tool.kind.buried or Motion.ALONG not in tool.kind.motions:
            continue
        ratio = tool.stickout / (tool.cutter.diameter_mm or 1.0)
        severity = stickout_grade(ratio, tightest or None)
        if severity:
            more = bend_ratio(ratio, FULL_BITE_STICKOUT)
            bends = f" and bends {more:.1f} times as much as at {FULL_BITE_STICKOUT:g}" if more > _BENDS else ""
            facts: dict[str, Fact] = {"cutter": tool.owned.label, "ratio": ratio, "bends": bends,
                                      "aside": Mm(_bends_aside(tool), places=4), "push": _push(tool)}
            if severity == Grade.STOP:
                yield Finding("RE4", severity, said(_FAR + "{too_far}", **facts, too_far=TOO_FAR), "from memory",
                              tool.id, fix=said("one that stands out {most} or less, or a stouter one",
                                       most=Mm(FAR_OUT * (tool.cutter.diameter_mm or 0.0))))
                continue
            yield Finding("RE4", severity, said(_STANDS_OUT, **facts) if severity == Grade.WARN or not
                          tool.cutter.centre_cutting else said(_STANDS_OUT + _PECKED, **facts, **_pecked(tool)),
                          "from memory", tool.id)


_FAR = "{cutter} stands out {ratio:.1f} times its diameter{bends}, {aside} where {push} push its end aside: "
_STANDS_OUT = _FAR + "light cuts, and measure for bend"
TOO_FAR = said("over {times:g} times it holds no tolerance under {band}", times=FAR_OUT, band=Mm(FAR_OUT_BAND_MM))
_PECKED = "; pecked straight down every {apart} it bears more, and leaves {left} of the wall between two"

_PUSH_N_MM = 80 * 4.4482216 / 25.4
"""A side force as a light cut in steel has it, over the mill's diameter: 30 lb on 3/8 [N/mm]. From memory."""


def _force(tool: Tool) -> float:
    return _PUSH_N_MM * (tool.cutter.diameter_mm or 1.0)


def _push(tool: Tool) -> ByUnits:
    return ByUnits(f"{_force(tool) / 4.4482216:.0f} lb", f"{_force(tool):.0f} N")


def _bends_aside(tool: Tool) -> float:
    """How far such a force bends an end mill at its end [mm]."""
    modulus = E_CARBIDE if tool.cutter.material == "carbide" else E_HSS
    return bend(_force(tool), tool.stickout, tool.cutter.diameter_mm or 1.0, modulus)


_APART = 0.16
"""How far apart a slender mill is pecked down along a wall, of its diameter [-]. From memory."""


def _pecked(tool: Tool) -> dict[str, Fact]:
    """How far apart a slender mill is pecked straight down along a wall instead, and what stands between two."""
    across = tool.cutter.diameter_mm or 0.0
    return {"apart": Mm(_APART * across), "left": Mm(cusp(across / 2, _APART * across), places=4)}


TOOLS = (holder, speed, feed, steel, hand, condition)
RULES = (holder, anew, speed, feed, steel, hand, condition, stickout)
STOPS = (holder, speed, hand, condition, stickout)
