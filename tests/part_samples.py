"""Parts for the tests of pages: planned by hand, each feature its best plan and one after the other, out of real
answers; whole plans come of the planner's own tests."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from crib.findings.finding import Finding, Grade
from crib.findings.message import Mm, said
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.planning.dialled.finish import Proved
from crib.planning.parts.planned import Lacking, PartOperation, PartSetup, PlannedPart, Unmade
from crib.shop import Shop, from_json
from tests.sheets import OWNED, SHOP

IN = 25.4


def placed(name: str, kind: str, at: tuple[float, float], face: Face = Face.TOP, runs: Runs = Runs.ALONG,
           **texts: str) -> Placed:
    """A feature at so many inches along and across."""
    return Placed(name, kind, texts, Place(face, at[0] * IN, at[1] * IN, runs))


SLIDE = Part("slide", Stock(6 * IN, 2.5 * IN, 1.25 * IN), "grey iron", (
    placed("lay slot", "t-slot", (0, 1.25), throat="5/8+.002-0", depth=".520", head_width=".975+.010-.010",
           head_height=".240+.005-.005", length="6", use="slide"),
    placed("front edge", "chamfer", (0, 0), size="1/16", angle="45", length="6"),
    replace(placed("bolt holes", "counterbore", (0.5, 0.4), diameter="13/32", depth="1/4", hole="17/64", count="2"),
            more=(Place(Face.TOP, 5.5 * IN, 0.4 * IN),)),
    placed("oil hole", "hole", (3.0, 2.2), diameter="1/8", depth="1/4"),
    placed("key slot", "slot", (1.0, 0), Face.BOTTOM, Runs.ACROSS, width="1/2", depth="3/16", length="2.5"),
    placed("stop screw", "tapped-hole", (3.0, 0.6), Face.FRONT, thread="1/4-20", depth="1/2"),
), hours=2, fits="the bed's side lay", use="slide")
"""A slide for a side lay, with something on three of its faces."""


@cache
def planned(part_name: str = "slide", units: str = "in", dro: bool = True) -> PlannedPart:
    """A part of this page, planned as one would by hand."""
    return one_after_the_other(PARTS[part_name], replace(from_json(SHOP), units=units, dro=dro))


DEEP = replace(SLIDE, name="deep slide", features=(
    *SLIDE.features[:4], placed("oil hole", "hole", (3.0, 2.2), diameter="1/8", depth="1/2"), *SLIDE.features[5:]))
"""The same with an oil hole that is deeper than any drill's flutes are long."""

MEETING = (Finding("thin", Grade.WARN, said("lay slot and stop screw: only {left} stands between them", left=Mm(1.2)),
                   ""),)

PARTS = {one.name: one for one in (SLIDE, DEEP)}


def one_after_the_other(part: Part, shop: Shop) -> PlannedPart:
    """Each feature its best plan; what lies the same way is made in one set-up."""
    found = {one.name: _answered(one, part, shop) for one in part.features}
    best = {name: one.proved[0] for name, one in found.items() if one.proved}
    unmade = tuple(Unmade(name, one.advice) for name, one in found.items() if not one.proved)
    setups: dict[tuple[Face, Runs], PartSetup] = {}
    operations: list[PartOperation] = []
    made = (one for one in part.features if one.name in best)
    for one in sorted(made, key=lambda each: list(Face).index(each.place.face)):
        proved = best[one.name]
        plan = proved.plan
        runs = Runs.ALONG if proved.draft.is_round else one.place.runs
        setup = setups.setdefault((one.place.face, runs), PartSetup(
            len(setups) + 1, one.place.face, f"{one.place.face} up", plan.hold, "left front corner", 20.0, plan, runs))
        operations += list(_operations(one, proved, setup.no, tuple(operations)))
    minutes = sum(one.minutes for one in operations) + sum(one.minutes for one in setups.values())
    changes = sum(one.puts_up for one in operations)
    return PlannedPart(part, tuple(setups.values()), tuple(operations), len(setups) - 1,
                       sum(one.changes_holder for one in operations), changes, minutes, minutes / 4, "USD",
                       minutes - 6, False, (len(part.features), changes + 2, changes + 3, minutes + 80),
                       tuple(Lacking("drill", one.feature, one.advice.says) for one in unmade), unmade, MEETING)


def _answered(one: Placed, part: Part, shop: Shop) -> Answered:
    texts = {"material": part.material, **one.texts}
    return advise(read_request(one.kind, texts, shop, one.typed_in), OWNED, shop, most=1)


def _operations(one: Placed, proved: Proved, setup_no: int, before: tuple[PartOperation, ...]
                ) -> Iterator[PartOperation]:
    plan, last = proved.plan, before[-1] if before else None
    for at, cutter in enumerate(plan.cutters):
        passes = tuple(each for each in plan.passes if each.cutter_id == cutter.id)
        holder = plan.holders[at] if len(plan.holders) == len(plan.cutters) else ""
        same = last is not None and last.setup_no == setup_no
        last = PartOperation(len(before) + at + 1, f"{one.name}/{cutter.id}/{at}", one.name, setup_no, cutter, holder,
                             passes, sum(each.minutes for each in passes), proved,
                             not (same and last and last.cutter.id == cutter.id),
                             not (same and last and last.holder == holder))
        yield last
