"""No cutter is sent through more air than the room asks in which it still has metal: of every draft in which several
mills share a room, made of mixed cribs, drawn cell by cell from raw numbers, seen from above where its ends are closed
and in the section where they are open. Common practice, no source."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import islice, pairwise
from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, example, given, note, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Cut, Job
from crib.planning.search.weighed import weigh
from crib.planning.told.verdict import complete
from crib.shop import Shop
from tests.closed_strategies import STEP, closed_t_slots, discs, mills, size
from tests.oracle import CELL as FINE_CELL
from tests.oracle import Bits, Raw
from tests.oracle_closed import CELL, Block, _radius
from tests.property.test_closed_completeness import Every
from tests.property.test_closer_bounds import jobs_of
from tests.property.test_completeness import Unpruned
from tests.strategies import MATERIALS, any_of, around, brief, mm, sizes_of

KINDS = {"pocket": ("pocket", "closed"), "closed slot": ("slot", "closed"), "open slot": ("slot", "open"),
         "slot with one end": ("slot", "one"), "step": ("step", "open")}
"""Kinds with their ends."""

EXAMPLES = {"pocket": 30, "closed slot": 15, "open slot": 60, "slot with one end": 60, "step": 60}
"""What is seen from above takes long to draw."""

MOST, SEARCHED = 8, 150
"""Of so many drafts of a question so many shared ones are looked at."""

MOST_AIR = 0.55
"""So much of the way of a strip meets nothing at the most: the way back to where it begins, beside a strip that went
there. Through a room that is open but for its walls it was nearly all of it."""


@st.composite
def shared(draw: st.DrawFn, kind: str) -> tuple[Request, tuple[Cutter, ...]]:
    """A room and a few mills of which most lack something: too short, too round for its corners, round at their ends
    (where ends are open the cusps that these leave are finer than cells), or good for roughing alone."""
    corner, (name, ends) = draw(mm(0.8, 2.4, STEP)), KINDS[kind]
    width, depth = draw(mm(5, 11, STEP)), draw(mm(2, 6, STEP))
    length = round(width + draw(mm(0, 5, STEP)), 6)
    sizes = {"width": draw(size(width)), "depth": draw(size(depth))}
    metal = draw(any_of(*MATERIALS))
    if kind in ("pocket", "closed slot"):
        sizes["length"] = draw(size(length))
    if kind == "pocket":
        sizes["corner_radius"] = around(corner, 0.2, 0.1)
    rounds = (0.0, 0.0, 0.0, 0.4) if ends == "closed" else (0.0,)
    long = length if kind == "pocket" else None if ends == "closed" else 3 * length
    request = Request(name, sizes, length=long, material=metal, ends=ends)

    def mill(number: int) -> Cutter:
        goes_in = kind == "pocket" and number == 2
        diameter = 2 * corner - draw(any_of(0.0, 0.2, 0.4)) if goes_in else draw(mm(1.6, width, STEP))
        return Cutter(number, "end-mill", f"mill {number}", diameter_mm=round(diameter, 6), material="hss",
                      corner_radius_mm=draw(any_of(*rounds)), shank_mm=draw(any_of(6.0, 10.0)),
                      length_of_cut_mm=round(depth * draw(any_of(0.4, 0.7, 0.9, 1.0, 1.3)), 6),
                      flutes=draw(any_of(2, 4)), centre_cutting=draw(any_of(True, True, True, False)),
                      condition=draw(any_of("sharp", "sharp", "used", "dull")), measured=("diameter_mm",),
                      note=draw(any_of("", "", "", "roughing")))

    return request, tuple(mill(number) for number in range(1, 1 + draw(st.integers(2, 5))))


class Met(NamedTuple):
    """A pass of a job, how many cells it took, and what share of its way met any."""

    job: Job
    cut: Cut
    cells: int
    share: float


def passes_of(draft: Draft) -> list[tuple[Job, Cut, Raw]]:
    raws = {tool.id: Raw.of(kind_of(tool.owned).fill(tool.owned).as_json()) for tool in draft.tools
            if tool.owned.kind != "drill"}
    return [(job, cut, raws[job.tool.id]) for job, cut in draft.passes() if cut.role != "drill"]


def from_above(request: Request, draft: Draft) -> Iterator[Met]:
    """What each pass meets between closed ends, its way looked at every four tenths of a millimetre."""
    sizes, passes = sizes_of(request), passes_of(draft)
    reach = max(raw.diameter for *_, raw in passes)
    long, wide = (sizes.get(key, (0, 0, 0))[2] for key in ("head_length", "head_width"))
    deep = sizes["depth"][2] + 0.5
    block = Block(max(long, sizes["length"][2]) + reach + 1, max(wide, sizes.get("width", (0, 0, 0))[2]) + reach + 1,
                  deep, np.arange(-round(deep / CELL), 0) * CELL, ())
    metal = ~block.none()
    if hole := sizes.get("entry_hole"):
        metal[block.rows(-sizes["depth"][1], 0.0)] &= block.off(((0.0, 0.0),)) >= hole[0] / 2
    for job, cut, raw in passes:
        assert cut.course is not None
        path, z = tuple((x / 1e6, y / 1e6) for x, y in cut.course.path), cut.z / 1e6
        over = metal[block.rows(z, z + raw.tall)].any(axis=0)
        way, met = 0.0, 0.0
        for a, b in pairwise(path):
            long = abs(b[0] - a[0]) + abs(b[1] - a[1])
            points = [(a[0] + (b[0] - a[0]) * k, a[1] + (b[1] - a[1]) * k)
                      for k in np.linspace(0, 1, int(long / 0.4) + 2)]
            meets = [_meets(block, over, at, raw.diameter / 2) for at in points]
            way, met = way + long, met + long * float(np.mean(meets))
        here = block.near(path, raw.diameter / 2 + CELL)
        off, taken = block.off(path, here), 0
        for level, height in zip(metal, block.z, strict=True):
            if radius := _radius(raw, height - z):
                cells = (off < radius) & level[here]
                taken += np.count_nonzero(cells)
                level[here] &= ~cells
        yield Met(job, cut, taken, met / way if way else 1.0)


def _meets(block: Block, metal: Bits, at: tuple[float, float], radius: float) -> bool:
    """Whether a round about a point meets any metal of a level."""
    here = block.near((at,), radius + CELL)
    return bool((metal[here] & (block.off((at,), here) < radius)).any())


def in_the_section(request: Request, draft: Draft) -> Iterator[Met]:
    """The same where ends are open: a pass meets metal all along or nowhere."""
    passes, deep = passes_of(draft), sizes_of(request)["depth"][2] + 0.5
    wide = max(abs(cut.x) / 1e6 + raw.diameter for _, cut, raw in passes)
    x, z = ((np.arange(-round(low / FINE_CELL), round(high / FINE_CELL)) + 0.5) * FINE_CELL
            for low, high in ((wide, wide), (deep, 0)))
    metal = np.ones((len(z), len(x)), dtype=bool)
    if request.kind == "step":
        metal[:, x > sizes_of(request)["width"][1]] = False
    for job, cut, raw in passes:
        up = z - cut.z / 1e6
        teeth = np.abs(x[None, :] - cut.x / 1e6) < np.where((up > 0) & (up < raw.tall), raw.radii(up), 0.0)[:, None]
        taken = np.count_nonzero(teeth & metal)
        metal &= ~teeth
        yield Met(job, cut, taken, float(taken > 0))


def drafts_of(request: Request, cutters: tuple[Cutter, ...]) -> Iterator[Draft]:
    """A few whole drafts that no rule forbids, in which several mills share a room."""
    try:
        jobs = jobs_of(request, cutters, Shop())
    except CribError:
        return
    every = (Every if request.ends == "closed" else Unpruned)(jobs.question, jobs.tools, False)
    for draft in islice(every.drafts(Draft(jobs.question)), SEARCHED):
        mills = {job.tool.id for job in draft.jobs if job.cuts and job.cuts[0].role != "drill"}
        if len(mills) > 1 and complete(draft) and not weigh(draft, True).stopped:
            yield draft


@st.composite
def with_discs(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...]]:
    """A T-slot between closed ends, mills for its throat and discs of which most lack something."""
    request = draw(closed_t_slots())
    return request, (draw(mills(request, 1)), *(draw(discs(request, number)) for number in (2, 3, 4)))


def test_no_pass_of_a_disc_meets_nothing() -> None:
    """A disc was sent along the middle from one end to the other, where the throat's mill had made the floor and the
    ends, before its own passes."""
    seen: Counter[str] = Counter()

    @settings(max_examples=12, deadline=None, phases=[Phase.explicit, Phase.generate],
              suppress_health_check=[HealthCheck.too_slow])
    @given(with_discs())
    def hold(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
        request, cutters = asked
        for draft in islice(drafts_of(request, cutters), 2):
            note(f"{brief(request, cutters)} {[(job.tool.id, job.manner) for job in draft.jobs]}")
            for one in from_above(request, draft):
                note(f"{one.job.tool.id} {one.cut.role} {one.cut.x} {one.cut.z} {one.cells} {one.share:.2f}")
                assert one.cells, "a pass that takes nothing"
                seen[one.cut.role] += 1

    hold()
    assert seen["undercut"] >= 10, seen


def followed(*mills: tuple[float, float], roughs: int = 1) -> tuple[Request, tuple[Cutter, ...]]:
    """A slot between closed ends, a rougher for it and mills that follow, (across, length of cut) [mm]; `roughs`: the
    number of another that may only rough."""
    request = Request("slot", {"width": around(10.4, 0.3, 0.3), "depth": around(2.4, 0.1, 0.1),
                               "length": around(15.2, 0.0, 0.0)}, "grey iron", ends="closed")
    return request, tuple(
        Cutter(number, "end-mill", f"mill {number}", diameter_mm=across, length_of_cut_mm=long, corner_radius_mm=0.0,
               shank_mm=6.0 if number > 1 else 10.0, material="hss", flutes=4, centre_cutting=True, condition="sharp",
               measured=("diameter_mm",), note="roughing" if number in (1, roughs) else None)
        for number, (across, long) in enumerate(((5.6, 2.4), *mills), 1))


def after_a_round_mill() -> tuple[Request, tuple[Cutter, ...]]:
    """A slot between closed ends whose floor the last mill makes; the first, rounded at its end, leaves a thousandth of
    a millimetre between its strips, and more along the walls, where the second goes too."""
    sizes = (("width", 9.8), ("depth", 5.2), ("length", 11.2))
    request = Request("slot", {name: around(size, 0.0, 0.0) for name, size in sizes}, "grey iron", ends="closed")
    mills = ((3.4, 6.76, 0.4, 10.0, "used"), (2.0, 5.2, 0.4, 6.0, "used"), (7.6, 5.2, 0.0, 10.0, "dull"))
    return request, tuple(
        Cutter(number, "end-mill", f"mill {number}", diameter_mm=across, length_of_cut_mm=long, corner_radius_mm=corner,
               shank_mm=shank, material="hss", flutes=4, centre_cutting=number > 1, condition=condition,
               measured=("diameter_mm",))
        for number, (across, long, corner, shank, condition) in enumerate(mills, 1))


def after_two_round_mills() -> tuple[Request, tuple[Cutter, ...]]:
    """The same where the second leaves as much along the walls, and finds nothing but hairs between the strips."""
    request = Request("slot", {"width": around(8.6, 0.0, 0.0), "depth": around(4.4, 0.1, 0.1),
                               "length": around(10.2, 0.0, 0.0)}, "mild steel", ends="closed")
    mills = ((4.0, 3.08, 0.4, 6.0), (1.6, 3.08, 0.4, 10.0), (3.6, 5.72, 0.0, 10.0))
    return request, tuple(
        Cutter(number, "end-mill", f"mill {number}", diameter_mm=across, length_of_cut_mm=long, corner_radius_mm=corner,
               shank_mm=shank, material="hss", flutes=4, centre_cutting=number < 3, condition="sharp",
               measured=("diameter_mm",)) for number, (across, long, corner, shank) in enumerate(mills, 1))


@pytest.mark.parametrize("kind", KINDS)
def test_no_pass_meets_nothing_and_no_strip_goes_where_it_is_clear(kind: str) -> None:
    """Of a pocket whose middle two bigger mills had cleared the third went through all of it, 63 times, for a land of
    .010 in at its walls; rounds along these take that."""
    seen: Counter[str] = Counter()

    @settings(max_examples=EXAMPLES[kind], deadline=None,
              phases=[Phase.explicit, Phase.generate], suppress_health_check=[HealthCheck.too_slow])
    @given(shared(kind))
    def hold(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
        request, cutters = asked
        for draft in islice(drafts_of(request, cutters), MOST):
            note(f"{brief(request, cutters)} {[(job.tool.id, job.manner) for job in draft.jobs]}")
            seen["drafts"] += 1
            look, first = from_above if request.ends == "closed" else in_the_section, draft.jobs[0].tool.id
            for one in look(request, draft):
                note(f"{one.job.tool.id} {one.cut.role} {one.cut.x} {one.cut.z} {one.cells} {one.share:.2f}")
                assert one.cells, "a pass that takes nothing"
                if one.job.tool.id != first:
                    seen["along a wall" if one.cut.wall else "a strip"] += 1
                    assert one.cut.wall or one.share >= 1 - MOST_AIR, "a strip through what is clear"

    if kind == "closed slot":  # of those that are drawn few are shared
        hold = example(followed((7.4, 2.16), (6.0, 2.0)))(example(followed((7.4, 2.16), (3.2, 0.96)))(hold))
        hold = example(followed((7.4, 2.16), (6.0, 2.0), (9.0, 3.0), roughs=4))(hold)
        hold = example(after_a_round_mill())(example(after_two_round_mills())(hold))
    hold()
    assert seen["drafts"] >= 8 and seen["along a wall"] >= 10 and seen["a strip"] >= 10, seen
