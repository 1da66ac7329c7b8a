"""What is told of a draft that was proved: its passes with speeds and dials, its words and figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from math import atan2, degrees

from crib.findings.finding import Figure, Finding
from crib.findings.message import Mm, Text, said
from crib.geometry.faces import FINE, Made
from crib.geometry.outline import Opening, Room
from crib.geometry.trace import Trace
from crib.geometry.view import View
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.methods import method_of
from crib.machining.methods.cuts import Cut, Job
from crib.machining.question import ZEROS
from crib.machining.tool import Tool, run_as
from crib.machining.words import BY_THE_AXIS, PREPARES, Direction, Fed, Manner, Role, Side
from crib.planning.closed import figures as closed_figures
from crib.planning.closed import on_their_way, shapes_of_ends, stop_mm
from crib.planning.dialled.dialling import Dials, dials_of
from crib.planning.dialled.dialling import figures as dialled_figures
from crib.planning.process.sheet import down_the_axis, for_passes
from crib.planning.process.throat_floor import figures as floor_figures
from crib.planning.reckoning.minutes import cut_minutes, feed_of
from crib.planning.search.aims import what_is_aimed
from crib.planning.search.weighed import Weighed
from crib.planning.told.advice import FaceReport, Plan, Proof, TightSpot
from crib.planning.told.passes import Pass
from crib.rules.sizes import one_cut

_SIDES = {Side.BOTH: Direction.BOTH, Side.BACK: Direction.CONVENTIONAL, Side.FRONT: Direction.CONVENTIONAL,
          Side.AXIS: Direction.AXIAL}
_DRILLED = {Manner.DRILLED: "a way in with", Manner.IN_THE_CORNERS: "its corners drilled with",
            Manner.IN_A_ROW: "a chain of holes drilled with"}
_FEEDS = {Side.BOTH: Fed.RIGHT, Side.BACK: Fed.RIGHT, Side.FRONT: Fed.LEFT, Side.AXIS: Fed.DOWN}


def plan_of(weighed: Weighed, draft: Draft, trace: Trace, passes: tuple[Pass, ...], off: Sequence[Finding]) -> Plan:
    """The plan that a draft is which was proved, by its passes; `off`: what is said of it as it is dialled."""
    chain = draft if isinstance(draft, Chain) else None
    tools = tools_of(draft)
    plan = Plan(
        answer=weighed.answer,
        way=way_of(draft),
        cutters=tuple(tool.owned for tool in tools),
        passes=passes,
        proof=_proof(trace.elevation if chain else trace),
        deviations=weighed.deviations,
        figures=tuple(_figures(draft)),
        setup=_setup(draft),
        zeros=draft.question.zeros,
        holders=tuple(tool.held.label for tool in tools),
        assumed=tuple(dict.fromkeys(_assumed(draft))),
        warnings=(*weighed.warnings, *shapes_of_ends(draft), *off),
        minutes=weighed.reckoning.minutes,
        cost=weighed.reckoning.cost,
        currency=draft.question.shop.currency,
        cost_lines=weighed.reckoning.lines,
        scrap_chance=weighed.reckoning.scrap,
    )
    return down_the_axis(plan, chain) if chain else for_passes(plan, draft)


def tools_of(draft: Draft) -> tuple[Tool, ...]:
    """The cutters as they are told: of a chain each once."""
    return tuple({tool.id: tool for tool in draft.tools}.values()) if draft.is_round else draft.tools


def _setup(draft: Draft) -> Text:
    """How the work lies, and where what x and z count from isn't plain, what that is."""
    question, zeros = draft.question, draft.question.zeros
    words, level = question.feature.stands or question.setup.words, question.feature.level
    if zeros == ZEROS:
        return words
    from_it: Text = ""
    if level and not question.outline.rooms[0].opens(Opening.TOP):
        from_it = said(", {level} {face}", level=Mm(level[0]), face=level[1])
    return said("{words}; cross 0: {cross_zero}; Z 0: {height_zero}{from_it}", words=words, cross_zero=zeros[0],
                height_zero=zeros[1],
                from_it=from_it)


def passes_of(draft: Draft) -> Iterator[Pass]:
    """Its passes as they are set, numbered from one."""
    if isinstance(draft, Chain):
        from crib.planning.reckoning import strokes

        yield from strokes.passes(draft)
        return
    each = [(cut, dials) for cut, dials in dials_of(draft)]
    plain = [_pass(draft, number, dials, cut) for number, (cut, dials) in enumerate(each, start=1)]
    across = [partial(dials.across, z=cut.z) for cut, dials in each]
    yield from on_their_way(draft, plain, lambda value: _dialled(value, draft.question.shop.readout_mm), across)


def _pass(draft: Draft, number: int, dials: Dials, cut: Cut) -> Pass:
    job = dials.job
    tool = job.tool
    return Pass(
        no=number,
        cutter_id=tool.id,
        role=cut.role,
        room=job.room,
        x_mm=cut.x / 1e6,
        z_mm=cut.z / 1e6,
        dial_x_mm=dials.across(cut.x, cut.z),
        dial_z_mm=dials.down(cut.z),
        radial_mm=cut.radial / 1e6,
        axial_mm=cut.axial / 1e6,
        feed=_FEEDS[cut.side],
        direction=_SIDES[cut.side],
        rpm=tool.step.rpm if tool.step else None,
        wanted_rpm=round(tool.wanted_rpm),
        mm_per_min=feed_of(tool, cut.slow),
        minutes=cut_minutes(tool, draft.question.feature.length, cut) * draft.question.feature.number,
        says=_with_the_way_out(draft, job, cut, (method_of(_room(draft, job)).says or _says)(job, cut)),
        stop_mm=stop_mm(draft, job),
    )


def _dialled(value: int, step: float) -> float:
    return round(round(value / 1e6 / step) * step, 6)


def _with_the_way_out(draft: Draft, job: Job, cut: Cut, says: str) -> str:
    """What is said of a pass, and how what ends under a lip comes up again: where it went down, or out the way it came
    where the far end is closed. Common practice: anywhere else its teeth tear the lip."""
    if cut is not job.cuts[-1] or not job.tool.kind.buried or _room(draft, job).open:
        return says
    if cut.course is not None:
        return "; ".join(filter(None, ("back to the middle, then up", says)))
    if stop_mm(draft, job) is None or cut.side == Side.FRONT:
        return says
    return "; ".join(filter(None, ("spindle stopped, out the way it came, then up", says)))


def _says(job: Job, cut: Cut) -> str:
    """What to look at or measure with a pass."""
    if job.manner == Manner.IN_THE_CORNERS:
        return "a corner: table and cross locked, the point stops at the floor; clear it every diameter"
    if job.manner == Manner.IN_A_ROW:
        return ("spot them all first; table and cross locked, the point stops at the floor, a web stays to the next: "
                "every other hole, then those between; clear it every diameter") if cut is job.cuts[0] else ""
    if cut.role == Role.DRILL:
        return "stop with the point at the floor; the mill goes down in it"
    if cut.role == Role.ROUGH:
        return "measure the depth after it" if cut is job.cuts[0] else ""
    if cut.role == Role.FLOOR:
        return "depth by micrometer" if cut is next(c for c in job.cuts if c.role == Role.FLOOR) else ""
    if cut.role == Role.FINISH and job.manner in (Manner.OWN_SIZE, *BY_THE_AXIS):
        front = cut.side == Side.FRONT
        return "measure the width before it" if front else "measure from the wall to the reference face"
    if cut.z != job.cuts[0].z and cut is next(other for other in job.cuts if other.z == cut.z):
        return ("back to the middle before the height is changed" if cut.course else
                "out of the end before the height is changed")
    if cut is job.cuts[-1]:
        return "measure the lip, then the height of the " + job.room
    return "chips out after it" if job.tool.kind.buried else ""


def way_of(draft: Draft) -> str:
    """Which cutters do what, and how, in a line."""
    if isinstance(draft, Chain):
        return draft.way
    way = []
    for job in draft.jobs:
        if job.manner in _DRILLED:
            way.append(f"{_DRILLED[job.manner]} {job.tool.owned.label}")
            continue
        how = method_of(_room(draft, job)).manners[job.manner].format(levels=job.levels)
        way.append(f"{job.room} with {job.tool.owned.label}, {how}")
    return "; ".join(way)


def _room(draft: Draft, job: Job) -> Room:
    return next(room for room in draft.question.outline.rooms if room.name == job.room)


def _proof(trace: Trace | View) -> Proof:
    spot = TightSpot.of(trace.tight) if trace.tight else None
    return Proof(
        left_mm=_clean(trace.left),
        gouge_mm=_clean(trace.gouge),
        neck_gap_mm=spot.gap_mm if spot else None,
        tight=spot,
        faces=tuple(FaceReport(m.face.name, m.tags, m.joints, m.off / 1e6, _angle(m)) for m in trace.faces),
    )


def _angle(made: Made) -> float | None:
    """The angle from the level of a face that leans, as it was made [deg]."""
    lean = made.face.lean
    if lean is None or made.runs is None:
        return None
    run = max(made.runs, key=lambda each: abs(each - lean.run))
    return round(degrees(atan2(lean.rise, abs(run))), 3)


def _clean(distance: int) -> float:
    """A distance in mm; what is finer than the proof measures is nothing."""
    return 0.0 if distance <= FINE else distance / 1e6


def _assumed(draft: Draft) -> Iterator[Text]:
    if isinstance(draft, Chain):
        from crib.planning.reckoning import strokes

        yield from strokes.assumed(draft)
    if draft.question.feature.request.source:
        yield f"sizes of {draft.question.feature.request.source}"
    for key, size in draft.question.feature.request.sizes.items():
        if size.doubtful:
            yield said("the {key} is {about}: {least} to {most} taken, measure it", key=key.replace("_", " "),
                       about=size.text, least=Mm(size.lo), most=Mm(size.hi))
        elif not size.given and size.band and key not in draft.question.feature.exact:
            yield said("tolerance of the {key}: {least} to {most}, the shop's default", key=key.replace("_", " "),
                       least=Mm(size.lo), most=Mm(size.hi))
    for hole in draft.question.layers.holes if draft.question.layers else ():
        yield said("the entry hole, {across} across and flat at the floor, is in the middle before anything else",
                   across=Mm(2 * hole.radius / 1e6))
    feature = draft.question.feature
    if feature.request.length is None and feature.feed_mm is None and not draft.is_round:
        yield said("length {length}: only the minutes depend on it", length=Mm(draft.question.feature.length))
    yield from draft.question.feature.assumed
    for tool in draft.tools:
        if tool.held.assumed:
            yield tool.held.assumed
        if tool.owned.material == "unknown" and not tool.by_hand:
            yield f"{tool.owned.label}: {run_as(tool.cutter.material)}"
        if tool.step is None and not tool.by_hand:
            yield f"{tool.owned.label} at the speed wanted: no spindle speeds on record"
        yield from _usual(draft, tool)
        if not tool.owned.measured and not draft.is_round:
            yield f"{tool.owned.label}: sizes as stated, not measured"


def _usual(draft: Draft, tool: Tool) -> Iterator[Text]:
    """The sizes that are taken as usual."""
    for key in tool.cutter.assumed:
        value = getattr(tool.cutter, key)
        plain = f"{value:g}" if isinstance(value, float) else str(value).lower()
        yield said("{cutter}: {key} {taken}, {usual}", cutter=tool.owned.label,
                   key=key.removesuffix("_mm").removesuffix("_deg").replace("_", " "),
                   taken=Mm(value) if key.endswith("_mm") else plain,
                   usual="usual" if draft.is_round else "usual for its kind")


def _figures(draft: Draft) -> Iterator[Figure]:
    if isinstance(draft, Chain):
        from crib.planning.reckoning import strokes

        yield from strokes.figures(draft)
        return
    aims = True
    for place, job in enumerate(draft.jobs):
        if job.manner in PREPARES:
            continue
        room = _room(draft, job)
        figures = tuple(method_of(room).figures(job, draft.jobs[:place], room, draft.question.shop))
        for figure in figures:
            if str(figure.what).endswith(("width aimed at", "depth aimed at")) and figure.mm is not None:
                aims = aims and abs(figure.mm - room.aim.width / 1e6) <= 2e-6
        yield from figures
    yield from (Figure(what, mm) for what, mm in draft.question.feature.measures)
    yield from floor_figures(draft)
    yield from one_cut(draft)
    yield from dialled_figures(draft)
    yield from closed_figures(draft)
    yield Figure("aim", value=what_is_aimed(draft.question) if aims else
                 "the nearest to the middle that the cutter allows inside the tolerance")
