"""Reamers: they size a hole that is there, with their lead and their sides. A hand reamer, an adjustable one and an
expansion one are turned by hand; which of them one is, its note says. An adjustable one goes from its least hole to its
size."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.gauged import IN, Candidate, Gauging, Made, Measured, fine, outside, parts_of_an_inch, whole_mm
from crib.cutters.proposals import MEMORY, TO_ORDER, Need, Wanted, new
from crib.cutters.shapes import cone, cylinder
from crib.cutters.speech import Order, Speech
from crib.findings.message import said
from crib.geometry.silhouette import Silhouette
from crib.light.patterns import pattern

LEAD_MM = 1.5
"""The lead of a chucking reamer, which a blind hole's end keeps [mm]. .05 to .10 in is usual, common practice."""

_BY_HAND, _BY_MACHINE = pattern(r"\b(?:hand|adjustable|adj|expansion)\b"), pattern(r"\b(?:chucking|machine)\b")

_START, _BODY = 0.8, 38.1
_OFF_MM = 0.002 * IN


@cache
def _sizes() -> tuple[Made, ...]:
    """What reamers are made in, once somebody asks. From memory."""
    return *parts_of_an_inch(4, 96, 64), *whole_mm(2, 32)


def by_hand(cutter: Cutter) -> bool:
    """Whether it is turned by hand: its lead is long and thin, and under power it grabs."""
    says = f"{cutter.note or ''} {cutter.marking or ''}".lower()
    return bool(_BY_HAND.search(says)) and not _BY_MACHINE.search(says)


def called(cutter: Cutter) -> str:
    """What it is called, where it isn't a plain one."""
    if not by_hand(cutter):
        return ""
    says = f"{cutter.note or ''} {cutter.marking or ''}".lower()
    which = next((word for word in ("adjustable", "expansion") if word[:3] in says), "hand")
    return f"{which} reamer"


def sizes(cutter: Cutter) -> tuple[float, float]:
    """From and to what it can be set [mm]: one size, but for an adjustable one."""
    size = cutter.diameter_mm or 0.0
    return min(size, cutter.min_hole_mm or size) if by_hand(cutter) else size, size


def lead_mm(cutter: Cutter) -> float:
    """Its lead [mm]; that of a hand reamer is as long as its diameter (common practice)."""
    return cutter.diameter_mm or LEAD_MM if by_hand(cutter) else LEAD_MM


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The lead, thinner by the stock that it finds, and the body; its end doesn't cut."""
    size, lead = cutter.diameter_mm or 0.0, lead_mm(cutter)
    start = max(size - _START, 0.5 * size)
    teeth = (*cone("lead", 0.0, lead, start, size),
             cylinder("body", lead, max(cutter.length_of_cut_mm or _BODY, lead + 1.0), size))
    return Silhouette(teeth, teeth, (cylinder("end", 0.0, 0.5, start * 0.9),))


def _fits(measured: Measured) -> Iterator[Candidate]:
    """Sixty-fourths, the over and under sizes for dowels, whole millimetres."""
    if measured.diameter_mm is None:
        return
    for mm, name in _sizes():
        off = measured.diameter_mm - mm
        over = said(", {off} over" if off > 0 else ", {off} under", off=fine(abs(off)))
        yield Candidate("reamer", f"{name} reamer", off, said(
            "basic {size}{over}; mic it near the lead, over opposite flutes", size=fine(mm),
            over="" if abs(off) < 0.0003 * IN else over), beyond=outside(off, -_OFF_MM, _OFF_MM))


def _proposes(need: Need) -> Iterator[Wanted]:
    """One that cuts to the middle of the limits, over its own size as reamers do, of the sizes that are made where one
    does; and the drills that leave it what it wants to take, on their own size, those of the shop's own
    series first, then those nearest the middle of that."""
    from crib.cutters.drill import MOST, jobber
    from crib.handbook.drill_sizes import made_between
    from crib.handbook.reaming import CUTS_OVER_MM, can_follow, window

    if need.limits is None:
        return
    over_least, over_most = CUTS_OVER_MM[False]
    low, high = need.limits[0] - over_least, need.limits[1] - over_most
    aim = round((low + high) / 2, 6)
    made = sorted((abs(one.mm - aim), one.mm) for one in _sizes() if low - 1e-6 <= one.mm <= high + 1e-6)
    size, source = (made[0][1], f"{MEMORY} sizes") if made else (aim, TO_ORDER)
    yield Wanted(new("reamer", diameter_mm=size, shank_mm=need.shank_for(9.525), flutes=6), source)
    least, most = window(size)
    drills = {mm: name for mm, name in made_between(size - most, size - least)
              if can_follow(size, mm, need.drilled(mm))}
    near = sorted((name.endswith("mm") != need.metric, abs(size - mm - (least + most) / 2), mm)
                  for mm, name in drills.items())
    yield from (jobber(mm) for _, _, mm in near[:MOST])


KIND = Kind(
    name="reamer",
    words="reamer",
    plural="reamers",
    on_axis=_on_axis,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.REAMING}),
    in_chuck=True,
    by_hand=by_hand,
    called=called,
    sizes=sizes,
    gauging=Gauging("diameter_mm", _fits),
    proposes=_proposes,
    speech=Speech(
        common=True,
        heard={"rimmer": "reamer", "rmr": "reamer", "rimer": "reamer"},
        order=Order.FIT,
        small=True,
    ),
    example=Cutter(0, "reamer", diameter_mm=9.525, flutes=6),
)
