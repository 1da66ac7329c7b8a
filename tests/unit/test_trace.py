"""What the proof keeps of every operation: what it takes, how much metal it meets, what stands, how near it comes."""

from __future__ import annotations

from itertools import pairwise

from crib.geometry import elevation
from crib.geometry.layers import Layer, Layers
from crib.geometry.operation import Frame, Operation, Work
from crib.geometry.outline import Outline
from crib.geometry.prove import prove
from crib.geometry.region import FAR, Region, box
from crib.geometry.rounded_box import RoundedBox
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.view import Engagement


def body(radius: int, tall: int, stem: int, side: int = 0) -> Silhouette:
    """Something that removes, and a stem over it that must stay clear."""
    teeth = (Part("edge", 0, tall, radius, radius),)
    return Silhouette(teeth, teeth, (Part("stem", tall, FAR, stem, stem, side),))


def slot(half: int, deep: int) -> Outline:
    room = box(-half, -deep, half, 0)
    return Outline(box(-FAR, -FAR, FAR, 0), room, room, room, ())


def test_plans_that_begin_alike_part_where_they_do() -> None:
    """What comes of operations is kept for the next plan that begins with the same; it comes to what it would by
    itself, whichever went before."""
    four = body(4_000, 9_000, 3_000)
    ways = [[(-1_000, -4_000), (-1_000, -6_000), (1_000, -6_000)], [(-1_000, -4_000), (1_000, -4_000)],
            [(-1_000, -4_000), (-1_000, -6_000), (2_000, -6_000)]]
    work = Work(slot(5_000, 6_000))

    def told(way: list[tuple[int, int]]) -> tuple[bool, int, list[Region]]:
        trace = prove(work, [Operation.along(four, x, z) for x, z in way])
        return trace.holds, trace.gouge, [stage.standing for stage in trace.elevation.stages]

    together = [told(way) for way in (*ways, *ways)]
    for at, way in enumerate((*ways, *ways)):
        elevation._after.cache_clear()
        elevation._stock.cache_clear()
        assert told(way) == together[at]
    assert [holds for holds, _, _ in together[:3]] == [True, False, False] and together[2][1] == 1_000


def test_what_each_operation_meets_is_told() -> None:
    """A slot 10 wide and 6 deep: down in two bites of 4 and 2, one side, then nothing more (worked by hand)."""
    four = body(4_000, 9_000, 3_000)
    steps = [Operation.along(four, x, z) for x, z in ((-1_000, -4_000), (-1_000, -6_000), (1_000, -6_000), (0, -6_000))]
    trace = prove(Work(slot(5_000, 6_000)), steps)
    assert trace.holds
    met = [stage.met for stage in trace.elevation.stages]
    assert met == [Engagement(8_000, 4_000, 32_000_000), Engagement(8_000, 2_000, 16_000_000),
                   Engagement(2_000, 6_000, 12_000_000), Engagement(0, 0, 0)]
    assert sum(one.area for one in met) == 60_000_000
    standing = [stage.standing.spans_at(-5_000) for stage in trace.elevation.stages]
    assert standing[0] == ((-FAR, FAR),) and standing[1] == ((-FAR, -5_000), (3_000, FAR))
    assert standing[2] == standing[3] == ((-FAR, -5_000), (5_000, FAR))
    assert trace.elevation.stages[2].taken == box(3_000, -6_000, 5_000, 0)


def test_the_stages_come_to_the_whole() -> None:
    """What all of them took is what is gone, and each begins with what the one before it left."""
    trace = prove(Work(slot(5_000, 6_000)), [Operation.along(body(3_000, 2_000, 1_000), x, z)
                                             for z in (-2_000, -4_000, -6_000) for x in (-2_000, 2_000)])
    stages = trace.elevation.stages
    gone = Region()
    for before, stage in pairwise(stages):
        assert stage.before == before.standing
    for stage in stages:
        assert not gone & stage.taken
        gone = gone | stage.taken
    assert not gone - trace.elevation.removed and not trace.elevation.removed - gone


def test_down_an_axis_both_sides_are_met() -> None:
    """A hole 10 across after one of 6, 8 deep: 2 a side (worked by hand)."""
    hole = box(-5_000, -8_000, 5_000, 0)
    outline = Outline(box(-FAR, -FAR, FAR, 0), hole, hole, hole, ())
    trace = prove(Work(axes=(outline,)), [Operation.down(body(r, 20_000, r), -8_000) for r in (3_000, 5_000)])
    assert trace.holds
    assert [stage.met for stage in trace.elevation.stages] == [
        Engagement(6_000, 8_000, 48_000_000), Engagement(4_000, 8_000, 32_000_000)]


def closed(length: int, half: int, deep: int) -> Layers:
    core = RoundedBox(half - length // 2, 0, length // 2 - half, 0, half)
    square = RoundedBox(-length // 2, -half, length // 2, half, 0)
    return Layers((Layer(-deep, 0, core),), (Layer(-deep, 0, square),))


def test_one_operation_is_seen_in_every_frame_that_it_concerns() -> None:
    """A pass between closed ends is proved in the section and from above, a hole drilled for it from above alone; each
    frame tells its own, the trace the worst of all."""
    mill = body(5_000, 9_000, 4_000, 500)
    work = Work(slot(5_000, 6_000), layers=closed(40_000, 5_000, 6_000))
    drilled = Operation.above(body(4_000, 20_000, 4_000), ((-15_000, 0),), -6_000, 0)
    runs = Operation.along(mill, 0, -6_000, path=((-15_000, 0), (15_000, 0)), free=4_000)
    trace = prove(work, [drilled, runs])
    assert trace.plan is not None and trace.holds
    assert [stage.operation for stage in trace.elevation.stages] == [1]
    assert [stage.operation for stage in trace.plan.stages] == [0, 1]
    short = prove(work, [drilled, runs._replace(path=((-15_000, 0), (12_000, 0)))])
    assert short.elevation.holds and not short.holds and short.left > 1_000
    far = prove(work, [drilled, runs._replace(path=((-15_000, 0), (15_500, 0)))])
    assert far.elevation.holds and (far.gouge, far.elevation.gouge) == (500, 0)
    forced = prove(work, [runs])
    assert forced.stuck == (0,) and not forced.holds


def test_the_tightest_spot_is_that_of_all_frames() -> None:
    """A disc whose stem clears by 2 in the section stands .5 from the round end of what opens it (geometry)."""
    opening, disc = body(5_000, 20_000, 5_000), body(6_000, 2_000, 3_000)
    under = box(-6_000, -6_000, 6_000, -4_000) | box(-5_000, -6_000, 5_000, 0)
    outline = Outline(box(-FAR, -FAR, FAR, 0), under, under, under, ())
    throat = RoundedBox(-10_000, 0, 10_000, 0, 5_000)
    low = RoundedBox(-20_000, -6_000, 20_000, 6_000, 0)
    layers = Layers((), (Layer(-6_000, 0, throat), Layer(-6_000, -4_000, low)))
    trace = prove(Work(outline, layers=layers), [
        Operation.along(opening, 0, -6_000, path=((-10_000, 0), (10_000, 0)), free=0),
        Operation.along(disc, 0, -6_000, path=((0, 0), (11_500, 0)), free=0),
    ])
    assert trace.plan is not None and trace.elevation.tight is not None and trace.plan.tight is not None
    assert trace.plan.tight.frame is Frame.PLAN and trace.tight == trace.plan.tight
    assert (trace.elevation.stages[1].spots[0].gap, trace.plan.tight.gap) == (2_000, 500)
    assert (trace.plan.tight.operation, trace.plan.tight.y, trace.plan.tight.x) == (1, 11_500, 0)
    assert trace.metal_at(trace.plan.tight, (11_500, 0)) == (15_000, 0)
