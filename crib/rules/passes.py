"""Rules on the passes themselves: what a cutter is put to, how it meets the metal, what can be lost."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf, radians

from crib.cutters.base import Motion
from crib.features import KINDS
from crib.features.base import Feature
from crib.features.request import is_said
from crib.findings.finding import Finding, Grade
from crib.findings.message import Mm, said
from crib.geometry.outline import Opening
from crib.handbook.bites import teeth_in_cut
from crib.handbook.deviations import floor_tilt, tram_hollow, wall_lean
from crib.machining.draft import Draft
from crib.machining.ends import climbs, run_out
from crib.machining.overruled import may_be
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import BY_THE_AXIS, PREPARES, Entry, Manner, Side

HOURS_AT_STAKE = 8
_ROUND_MM, _BY_EYE_DEG = 0.002 * 25.4, 0.25
"""A corner that lacks less is sharp [mm], from memory; what a protractor holds [deg], common practice."""

MOST_TEETH = 4
"""Teeth of a saw in the cut at once (common practice)."""


def opens_from_solid(draft: Draft) -> Iterator[Finding]:
    """BU1: a cutter without end teeth, or with a neck thinner than half its diameter, doesn't open from solid what an
    end mill can reach from above."""
    for job in draft.jobs:
        if job.manner not in (Manner.OWN_SIZE, *BY_THE_AXIS) or not is_weak(job.tool):
            continue
        if never_opens(draft.question, job.tool, job.room):
            yield Finding("BU1", Grade.STOP, said("{cutter} doesn't open the {room} from solid while an end mill that "
                                                  "can is owned", cutter=job.tool.owned.label,
                                                  room=job.room), cutter_id=job.tool.id, short_mm=inf)
        else:
            yield Finding("BU1", Grade.CAUTION, said("{cutter} opens the {room} from solid: light bites, an end mill "
                                                     "would be better", cutter=job.tool.owned.label,
                                                     room=job.room), cutter_id=job.tool.id)


def is_weak(tool: Tool) -> bool:
    """Whether a cutter isn't made to open anything from solid; most are told before a tool is made of them."""
    return tool.kind.buried or (tool.known.neck_mm is not None and tool.kind.is_weak(tool.cutter))


def never_opens(question: Question, tool: Tool, room: str) -> bool:
    """Whether BU1 keeps a tool from opening a room from above."""
    return room in question.rooms_an_end_mill_opens and is_weak(tool) and not may_be(question.shop, tool.owned, "BU1")


def levels(draft: Draft) -> Iterator[Finding]:
    """FC2: more than two levels leave lines and take time."""
    for job in draft.jobs:
        if job.manner in PREPARES:
            continue
        if job.levels > 2:
            yield Finding("FC2", Grade.WARN, said("{levels} levels in the {room}: lines where they "
                                                  "meet", levels=job.levels,
                                                  room=job.room), "from memory")
        elif job.levels == 2:
            yield Finding("FC2", Grade.NOTE, said("two levels in the {room}: a line where they meet", room=job.room))


def full_width(draft: Draft) -> Iterator[Finding]:
    """CL2: a disc's middle pass cuts both walls at once."""
    cuts = [(job.room, cut) for job, cut in draft.passes() if job.tool.kind.buried]
    both = [(room, cut.slow) for room, cut in cuts if cut.side == Side.BOTH]
    for room in dict.fromkeys(room for room, _ in both):
        slow, is_stepped = (room, True) in both, any(mine == room and cut.side != Side.BOTH for mine, cut in cuts)
        count = sum(mine == room for mine, _ in both)
        which = "the middle" if is_stepped else "the one" if count == 1 else "each"
        grave = Grade.WARN if slow else Grade.NOTE
        yield Finding("CL2", grave, said("{which} pass of the {room} cuts both walls at once: {how}", room=room,
                                         which=which, how=no_faster(slow)))


def no_faster(slow: bool) -> str:
    """How both walls, or both points, are fed that cut at once: the figure that stands in the table is meant."""
    return "half the feed, as the table says" if slow else "by hand, no faster than the table says"


def back_through(draft: Draft) -> Iterator[Finding]:
    """LR1: a mill isn't run back through a full-width cut: it stood bent while it cut, and takes the other wall too.
    Where it goes on to the next strip without lifting, walls that are finished later don't mind."""
    rooms = dict.fromkeys(job.room for job, cut in draft.passes() if cut.side == Side.BOTH and not job.tool.kind.buried)
    if rooms and draft.question.layers:
        goes_on = {job.room for job, cut in draft.passes() if cut.course and cut.course.entry is Entry.ON}
        finished = goes_on & {job.room for job, cut in draft.passes() if cut.wall}
        rooms = dict.fromkeys(room for room in rooms if room not in finished)
    if rooms and not draft.is_round:
        yield Finding("LR1", Grade.NOTE, said("lift clear, or stop the spindle, before coming back through {rooms}: "
                                              "run back through, a full-width cut grows and leans",
                                              rooms=" and ".join(f"the {room}" for room in rooms)))


_CREEPS_MM, _CREEPS_BITE = 12.0, 0.15
"""From what size a mill may be pulled out of a collet, and in how deep a full-width cut, of its diameter [mm, -]. From
memory; half an inch is common practice."""


def creeps(draft: Draft) -> Iterator[Finding]:
    """PO1: the helix pulls a mill down out of its collet in a heavy cut in steel."""
    if draft.is_round or draft.question.material.group not in ("steel", "stainless", "titanium"):
        return
    for job, cut in draft.passes():
        tool, wide = job.tool, job.tool.cutter.diameter_mm or 0.0
        shank = tool.cutter.shank_mm or 0.0
        if (cut.side == Side.BOTH and not tool.kind.buried and wide >= _CREEPS_MM and shank
                and cut.axial >= _CREEPS_BITE * wide * 1e6):
            yield Finding("PO1", Grade.NOTE, said("{cutter} may creep down out of its collet: collet and shank dry and "
                                                  "clean, tight, its shank marked with a pen at the collet; look after "
                                                  "each pass", cutter=tool.owned.label), cutter_id=tool.id)
            return


def shared_room(draft: Draft) -> Iterator[Finding]:
    """JN1: two cutters in one room: what the second cuts must meet what the first has cut."""
    for room in dict.fromkeys(job.room for job in draft.jobs):
        if len({job.tool.id for job in draft.jobs if job.room == room and Motion.ALONG in job.tool.kind.motions}) > 1:
            yield Finding("JN1", Grade.WARN, said("two cutters share the {room}: touch off the second with care, there "
                                                  "may be a line where they meet", room=room))


_SLACK_MM, MUCH_SLACK_MM, _MUCH_CLIMB_MM = 0.003 * 25.4, 0.010 * 25.4, 0.010 * 25.4
"""Slack that is felt, slack with which the cutter pulls the table, and how wide a climb cut does it (common
practice)."""


def backlash(draft: Draft) -> Iterator[Finding]:
    """CL1: slack in the screw and a cut that is climb, on one wall or altogether."""
    slack = draft.question.shop.backlash_mm
    if slack <= _SLACK_MM:
        return
    amount = Mm(slack)
    if any(cut.side == Side.BOTH for _, cut in draft.passes()):
        yield Finding("CL1", Grade.WARN, said("{slack} of backlash and full-width cuts: snug the gib of the axis that "
                                              "is locked and come to every setting from the same side of the screw",
                                              slack=amount))
    if climb := climbs(draft):
        widest = max(cut.radial for cut in climb) / 1e6
        says = said("{slack} of backlash and a climb cut {widest} wide: the cutter pulls the table through the slack",
                    slack=amount, widest=Mm(widest))
        if slack <= MUCH_SLACK_MM or widest <= _MUCH_CLIMB_MM:
            yield Finding("CL1", Grade.CAUTION, says)
        else:
            less = said("slack of {most} or less would do", most=Mm(MUCH_SLACK_MM))
            yield Finding("CL1", Grade.STOP, says, has_mm=slack, needs_mm=MUCH_SLACK_MM, fix=less,
                          short_mm=slack - MUCH_SLACK_MM)


def from_the_open_end(draft: Draft) -> Iterator[Finding]:
    """CL3: with one end closed the front wall is cut on the way out, so that it isn't cut climb."""
    if draft.question.feature.request.ends != "one" or not any(cut.side == Side.FRONT for _, cut in draft.passes()):
        return
    if climbs(draft):
        yield Finding("CL3", Grade.WARN, "with no way in but along it, a wall is cut climb: light bites, table lock "
                      "dragging")
        return
    yield Finding("CL3", Grade.NOTE, "the front wall is cut on the way out of the open end: in where nothing is left "
                  "to cut, over to the setting at the stop, then out; going in along it would be climb")


def room_to_run_out(draft: Draft) -> Iterator[Finding]:
    """EN3: the open end has room for the widest cutter to run out."""
    if draft.question.feature.request.ends == "closed" or draft.question.layers:
        return
    buried = [tool for tool in draft.tools if tool.kind.buried]
    if buried:
        tool = max(buried, key=lambda one: one.cutter.diameter_mm or 0.0)
        need = (tool.cutter.diameter_mm or 0.0) / 2 + 0.1 * 25.4
        body = "teeth" if Motion.FLANK in tool.kind.motions else "disc"
        yield Finding("EN3", Grade.NOTE, said("leave {free} free past the open end for the {body} to run out",
                                              free=Mm(need), body=body))


def toothless_end(draft: Draft) -> Iterator[Finding]:
    """G8: no end teeth, so never down into metal."""
    for tool in draft.tools:
        if tool.kind.buried and not tool.cutter.end_teeth:
            straight = any(room.across for room in draft.question.outline.rooms)
            way = ("feed it in from beside" if straight else "lower it in the middle, in room as wide as it is"
                   if draft.question.layers else "feed it in from the open end")
            yield Finding("G8", Grade.NOTE, said("{cutter} has no teeth on its end: {way}, never down into metal",
                                                 cutter=tool.owned.label, way=way),
                          cutter_id=tool.id)
            return


def at_stake(draft: Draft) -> Iterator[Finding]:
    """G14: hours in the part and anything risky in the plan: try it in scrap first."""
    hours = draft.question.feature.request.hours
    if hours >= HOURS_AT_STAKE and any(tool.kind.buried for tool in draft.tools):
        yield Finding("G14", Grade.WARN, said("{hours:g} hours are in the part: try the cut in scrap first",
                                              hours=hours), "from memory")


def sawing(draft: Draft) -> Iterator[Finding]:
    """SW2: a saw runs out, so that one tooth may do the cutting. SW3: too many teeth in the cut have no room for their
    chips."""
    for job in draft.jobs:
        tool = job.tool
        if not tool.kind.saws:
            continue
        yield Finding("SW2", Grade.NOTE, said("{cutter}: one tooth may do the cutting: feed by the high tooth, slowly; "
                                              "guard the saw, hands well clear",
                                              cutter=tool.owned.label), "common practice, no source")
        deepest = max((cut.radial for cut in job.cuts), default=0)
        teeth = teeth_in_cut(tool.cutter.flutes or 0, tool.form.radius, deepest)
        if teeth > MOST_TEETH and "flutes" not in tool.cutter.assumed:
            yield Finding("SW3", Grade.WARN, said("{cutter} has {teeth:.0f} teeth in the cut: a coarser one packs "
                                                  "less, else feed slowly and clear the chips", cutter=tool.owned.label,
                                                  teeth=teeth), "common practice, no source")


OUT_OF_SQUARE_DEG, _WIDE_MM = 0.05, 25.4
"""How far a head that is squared by its scale is out [deg]; a narrower cutter leaves no hollow that counts [mm].
Common practice."""

_OF_ITS_BAND = 0.5
"""From this share of its limits on it is told."""


def tram(draft: Draft) -> Iterator[Finding]:
    """TM1: with the head square a wide cutter faces flat, and walls and floors come out true."""
    faces = {room.name: room.aim.width / 1e6 for room in draft.question.outline.rooms
             if room.opens(Opening.LEFT, Opening.RIGHT)}
    for job in draft.jobs:
        across = job.tool.form.radius / 5e5
        if job.room in faces and across >= _WIDE_MM:
            hollow = tram_hollow(across, min(across, faces[job.room]), OUT_OF_SQUARE_DEG)
            says = ("{cutter}: a head {off:g} degrees out of square leaves the face {hollow} hollow: sweep it in by "
                    "indicator")
            yield Finding("TM1", Grade.NOTE, said(says, cutter=job.tool.owned.label, off=OUT_OF_SQUARE_DEG,
                                                  hollow=Mm(hollow, places=4)))
    lean = max(_leans(draft), key=lambda one: one[0], default=None)
    if lean and lean[0] > _OF_ITS_BAND:
        yield Finding("TM1", Grade.NOTE, said("a head {off:g} degrees out of square has the {face} {lean} off over its "
                                          "{size}: sweep it in by indicator", off=OUT_OF_SQUARE_DEG, face=lean[1],
                                          lean=Mm(lean[2], places=4), size=Mm(lean[3])))


def _leans(draft: Draft) -> Iterator[tuple[float, str, float, float]]:
    """For each face with a band: what of it a head out of square takes, its name, how far it comes out off, over what
    height or width [mm]."""
    for face in draft.question.outline.faces:
        over = (face.high - face.low) / 1e6
        off = wall_lean(over, OUT_OF_SQUARE_DEG) if face.upright else floor_tilt(over, OUT_OF_SQUARE_DEG)
        if face.band and not face.lean:
            yield off / face.band * 1e6, face.name, off, over


def flats(draft: Draft) -> Iterator[Finding]:
    """FL1: a bar thinner than sharp corners want leaves them round. FL2: by protractor a flat is a quarter of a degree
    off."""
    asked = draft.question.feature.flats
    if asked is None:
        return
    if asked.short_mm > _ROUND_MM:
        yield Finding("FL1", Grade.WARN, said("the corners stay round: {bar} across them, sharp ones would be {sharp}; "
                                              "each lacks {short}", bar=Mm(asked.bar_mm), sharp=Mm(asked.sharp_mm),
                                              short=Mm(asked.short_mm)), "geometry")
    from crib.machining.indexing import indexed

    if indexed(asked, draft.question.shop).by_eye:
        off = radians(_BY_EYE_DEG) * asked.bar_mm / 2
        yield Finding("FL2", Grade.CAUTION, said("turned by protractor a flat is a quarter of a degree off, {off} at "
                                                 "the bar's edge: a collet block, a dividing head or a rotary table "
                                                 "holds it (crib shop --collet-blocks, --dividing-turns, "
                                                 "--rotary-turns)", off=Mm(off)))


def may_run_out(feature: Feature) -> bool:
    """Whether whoever asks says that a closed end may run out."""
    return is_said(feature.request, KINDS[feature.kind].runs_out)


def runs_out(draft: Draft) -> Iterator[Finding]:
    """EN6: how far a closed end that is cut from the side runs out, where it may."""
    if (run := run_out(draft)) and may_run_out(draft.question.feature):
        tool = draft.tools[-1]
        yield Finding("EN6", Grade.NOTE, said("full depth as far as its length; from there it runs out {run} farther, "
                                              "with the radius of {cutter}, {radius}", run=Mm(run / 1e6),
                                              cutter=tool.owned.label, radius=Mm(tool.form.radius / 1e6)), "geometry")


RULES = (
    opens_from_solid, levels, full_width, shared_room, backlash, from_the_open_end, room_to_run_out, toothless_end,
    at_stake, sawing, tram, runs_out, flats, back_through, creeps,
)
STOPS = (opens_from_solid,)
MAY_STOP = (*STOPS, backlash)
