"""The process told with a plan: made from its passes when it is finished, so that no search waits for it."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.message import Mm, Text, said
from crib.light.records import replace
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.words import BESIDE_THE_AXIS, IN_THE_HOLE, Direction, Entry, Fed, Role, Seen, Slide
from crib.planning.process import dials
from crib.planning.process.fluid import fluid
from crib.planning.process.measuring import checks
from crib.planning.process.places import counted_from, index_by, places, turned_to
from crib.planning.process.touching import held, held_for_a_hole, over_the_hole, touch_off
from crib.planning.reckoning.buried import stops_of
from crib.planning.reckoning.minutes import RUN_OUT_MM
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Dial, Pass
from crib.shop import Shop

SLIDES = tuple(Slide)


def for_passes(plan: Plan, draft: Draft) -> Plan:
    """The plan with all that goes with feeding along the work."""
    question, shop = draft.question, draft.question.shop
    passes = tuple(_told(one, draft, place) for place, one in enumerate(plan.passes))
    return replace(
        plan,
        passes=passes,
        fluid=fluid(question.material, (), (tool.cutter.material for tool in draft.tools)),
        locks=_throughout(passes),
        hold=held(question, min((one.dial_z_mm for one in passes), default=0.0)),
        touch_off=touch_off(draft),
        checks=checks(draft, passes, {face.name: face.off_mm for face in plan.proof.faces}),
        handwheels="" if shop.dro else dials.in_words(shop, any(map(dials.goes_across, passes))),
        indexed=turned_to(question),
        index_by=index_by(question),
        assumed=(*plan.assumed, *(one for one in (dials.assumed(shop), _feelers(shop)) if one)),
    )


def _told(one: Pass, draft: Draft, place: int) -> Pass:
    job, cut = tuple(draft.passes())[place]
    shop, by_power = draft.question.shop, draft.question.shop.power_feed_mm is not None
    enters, leaves = _in_and_out(one, draft.question.feature.length, job.tool.form.radius / 1e6)
    return replace(one, dials=_dials(one, shop), stops_mm=stops_of(draft.question, job, cut), locks=locked(one),
                   enters_mm=enters, leaves_mm=leaves, by_hand=not by_power and one.direction != Direction.AXIAL)


def _in_and_out(one: Pass, length: float, radius: float) -> tuple[float | None, float | None]:
    """Where the axis stands before and after a pass, along from the left end [mm]; nothing between closed ends."""
    if one.dial_from_mm is not None:
        return None, None
    left, right = -radius - RUN_OUT_MM / 2, length + radius + RUN_OUT_MM / 2
    if one.stop_mm is not None:
        right = one.stop_mm
    return (right, left) if one.feed == Fed.LEFT else (left, right)


def locked(one: Pass) -> tuple[Slide, ...]:
    """The slides that are locked in a pass: all that it doesn't feed with. Common practice."""
    if one.feed in BESIDE_THE_AXIS:
        return SLIDES
    if one.role == Role.SLOT:
        return (Slide.TABLE, Slide.KNEE)
    if one.role == Role.BROACH:
        return ()
    if one.direction == Direction.AXIAL:
        return (Slide.TABLE, Slide.CROSS, Slide.KNEE) if one.dial_from_mm is None else (Slide.TABLE, Slide.CROSS)
    across = len({y for _, y in one.dial_path_mm}) > 1
    stays = (Slide.TABLE,) if one.entry == Entry.BESIDE else ()
    goes_down = one.entry in (Entry.PLUNGE, Entry.RAMP, Entry.HOLE, Entry.FREE)
    return stays + tuple(slide for slide in (Slide.CROSS, Slide.KNEE, Slide.QUILL)
                 if not ((slide == Slide.CROSS and across) or (slide == Slide.KNEE and goes_down)))


def _throughout(passes: Sequence[Pass]) -> tuple[Slide, ...]:
    """What is locked in every pass."""
    return tuple(slide for slide in SLIDES if all(slide in one.locks for one in passes))


def _dials(one: Pass, shop: Shop) -> tuple[Dial, ...]:
    stop = one.dial_from_mm
    if stop is None and one.stop_mm is not None:
        stop = max((along for along, _ in one.dial_path_mm), default=one.stop_mm)
    along = [] if stop is None else [(Slide.TABLE, stop)]
    across = one.dial_x_mm if one.view == Seen.CROSS else one.y_mm or 0.0
    return tuple(dials.dial(slide, reading, shop)
                 for slide, reading in (*along, (Slide.CROSS, across), (Slide.KNEE, one.dial_z_mm)))


def _feelers(shop: Shop) -> Text:
    """The edge finder and the paper, where the owner hasn't said."""
    if shop.edge_finder_mm and shop.paper_mm:
        return ""
    finder, paper = (Mm(mm) for mm in (shop.finder_mm, shop.feeler_mm))
    return said("edge finder {finder} and paper {paper}: crib shop --edge-finder, --paper", finder=finder, paper=paper)


def down_the_axis(plan: Plan, chain: Chain) -> Plan:
    """The plan with all that goes with coming down an axis."""
    from crib.planning.process import measuring_holes

    shop = chain.question.shop
    passes = tuple(replace(one, locks=locked(one)) for one in plan.passes)
    return replace(
        plan,
        passes=passes,
        fluid=fluid(chain.question.material,
                    (job.tool.kind.words for job, cut in chain.passes() if cut.role in IN_THE_HOLE),
                    (job.tool.cutter.material for job in chain.jobs)),
        locks=_throughout(passes),
        hold=chain.held or held_for_a_hole(chain.question),
        touch_off=tuple(over_the_hole(chain)),
        checks=measuring_holes.checks(chain, passes),
        places=(where := places(chain.question)),
        places_from=counted_from(chain.question),
        handwheels=dials.across_alone(shop) if where and not shop.dro else "",
        assumed=(*plan.assumed, *(one for one in (_feelers(shop),) if one)),
    )
