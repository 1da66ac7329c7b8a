"""A cutter made ready to be reckoned with in this shop and metal: its silhouette, its bites, its speed and feed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter, Kind, Motion, Unknown
from crib.cutters.in_doubt import with_sizes
from crib.geometry.silhouette import Form
from crib.handbook.bites import (
    STIFFNESS_FACTORS,
    centre_bite_limit,
    finish_allowance,
    level_overlap,
    side_step,
    slot_bite,
)
from crib.handbook.dovetails import flank_step
from crib.handbook.materials import Material
from crib.handbook.speeds import WARN_OVER, SpindleStep
from crib.holders import hold
from crib.holders.base import GRIP_MM, Arbor, Held, Holding
from crib.machining.feeding import Cutting, Feeding, fed
from crib.shop import Shop
from crib.units import nm


@dataclass(frozen=True)
class Tool:
    """`owned` is the cutter as recorded, `cutter` the same with typical values filled in. Bites in whole nanometres,
    feeds in mm/min. `centre_limit`: the side bite above which a middle pass goes at half the feed. `pass_minutes` is
    the handling of each pass. `can_finish`: whether its edges may make a size, not only rough. `feeding`: what its
    speed and feed go by; None for a drill."""

    owned: Cutter
    cutter: Cutter
    kind: Kind
    form: Form
    held: Held
    bite: int
    side: int
    overlap: int
    centre_limit: int
    finish: int
    can_finish: bool
    stickout: float
    wanted_rpm: float
    step: SpindleStep | None
    rpm: float
    rough_feed: float
    finish_feed: float
    pass_minutes: float
    touch_minutes: float
    feeding: Feeding | None = None

    @cached_property
    def id(self) -> int:
        return self.owned.id

    @property
    def most_rpm(self) -> float:
        """The fastest that a spindle may turn it [rev/min]."""
        return WARN_OVER * self.wanted_rpm if self.feeding is None else self.feeding.most_rpm


NO_POSITION = ("neck_mm", "reach_mm", "length_of_cut_mm")
"""Sizes on which no setting hangs, only whether the cutter clears."""

TYPICAL = ("length_of_cut_mm",)
"""Of these, what is taken as usual for the kind and named as an assumption."""


def unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """What isn't known of a cutter and may decide."""
    return kind_of(cutter).unknowns(cutter)


def sets_position(ask: Unknown) -> bool:
    """Whether a setting hangs on what isn't known, so that no plan is made with a guess at it."""
    return ask.position or ask.key not in NO_POSITION


def at_worst(cutter: Cutter) -> Cutter | None:
    """The cutter with what isn't known at its worst, where a plan needs no more than that; None where a position would
    hang on a size that isn't known."""
    asked = unknowns(cutter)
    if any(sets_position(ask) for ask in asked):
        return None
    return cutter.but(**{ask.key: ask.worst for ask in asked if ask.key not in TYPICAL})


def at_kindest(cutter: Cutter, wanted: Mapping[str, Mapping[str, float]] = MappingProxyType({})) -> Cutter:
    """The cutter with what isn't known at its kindest: what is wanted of its kind, where the feature says."""
    best = wanted.get(cutter.kind, {})
    return with_sizes(cutter, **{ask.key: ask.nearest(best.get(ask.key)) for ask in unknowns(cutter)})


def ready(cutter: Cutter, shop: Shop, material: Material, owned: Cutter | None = None) -> Tool | None:
    """The tool that a cutter is in this shop and metal; None for a kind that isn't reckoned with, or without a size."""
    kind = kind_of(cutter)
    if kind.form is None or cutter.diameter_mm is None or cutter.diameter_mm <= 0:
        return None
    filled = as_run(kind.fill(cutter), shop)
    diameter = cutter.diameter_mm
    form = kind.form(filled, Clearances(shop.neck_clearance_mm, shop.end_clearance_mm))
    held = hold(filled, holding_of(shop))
    reach = max(filled.reach_mm or 0.0, filled.length_of_cut_mm or 0.0, filled.face_mm or 0.0)
    stickout = max(reach, (filled.overall_length_mm or 0.0) - 2 * GRIP_MM)
    height, stiff = form.height, STIFFNESS_FACTORS[shop.stiffness]
    bite = min(height / 1e6, slot_bite(diameter, material, shop.stiffness, reach / diameter))
    feeding = fed(_cutting(filled, kind, height / 1e6 if kind.buried else bite), shop, material)
    side = flank_step(material) if Motion.FLANK in kind.motions else side_step(diameter, material)
    return Tool(
        owned=owned or cutter,
        cutter=filled,
        kind=kind,
        form=Form(form.sure, form.may, (*form.clear, *held.parts)),
        held=held,
        bite=nm(bite if kind.buried else feeding.bite),
        side=nm(side * stiff),
        overlap=min(height // 2, nm(level_overlap(height / 1e6))),
        centre_limit=nm(centre_bite_limit(diameter, material) * min(1.0, stiff)),
        finish=nm(finish_allowance(diameter)),
        can_finish=makes_sizes(filled.condition, material),
        stickout=stickout,
        wanted_rpm=feeding.wanted_rpm,
        step=feeding.step,
        rpm=feeding.rpm,
        rough_feed=feeding.feed,
        finish_feed=feeding.feed,
        pass_minutes=shop.buried_pass_minutes if kind.buried else shop.pass_minutes,
        touch_minutes=shop.touch_disc_minutes if kind.buried else shop.touch_minutes,
        feeding=feeding,
    )


def _cutting(cutter: Cutter, kind: Kind, bite: float) -> Cutting:
    """A cutter as its feed goes by it: an end mill buried full width; a disc at its whole height on half its width, for
    beyond that it is fed half as fast."""
    diameter = cutter.diameter_mm or 0.0
    return Cutting(
        operation=kind.operation or ("buried" if kind.buried else "milling"),
        steel=cutter.material,
        condition=cutter.condition,
        teeth=cutter.flutes or 4,
        across=diameter,
        bite=bite,
        width=diameter / 2 if kind.buried else diameter,
        on_arbor=cutter.bore_mm is not None,
        must_bite=kind.buried,
    )


def as_run(cutter: Cutter, shop: Shop) -> Cutter:
    """The cutter with the steel that it is run as: one of unknown steel as the shop's habit says."""
    return cutter if cutter.material != "unknown" else cutter.but(material=shop.unknown_steel)


def run_as(steel: str) -> str:
    """What a cutter of unknown steel is taken for, in words.

    >>> run_as("unknown")
    'steel not on record, run as carbon steel at half the speed of HSS'
    """
    habit = {"hss": "run as HSS as the shop's habit is", "carbon-steel": "run as carbon steel as the shop's habit is"}
    return "steel not on record, " + habit.get(steel, "run as carbon steel at half the speed of HSS")


def makes_sizes(condition: str, material: Material) -> bool:
    """Whether edges in this condition may make a size: chipped, burnt or bent ones never, dull ones not in metal that
    hardens where it is rubbed. Common practice."""
    return condition not in ("chipped", "burnt", "bent") and not (condition == "dull" and material.work_hardens)



def holding_of(shop: Shop) -> Holding:
    """What a shop has to hold with."""
    arbors = shop.arbors
    return Holding(
        collets=shop.collets_mm,
        chuck=shop.chuck_mm,
        arbors=None if arbors is None else tuple(Arbor(a.bore_mm, a.flange_mm, a.nose_mm, a.reach_mm) for a in arbors),
        units=shop.units,
        nose=shop.nose_mm,
        collet_nose=shop.collet_nose_mm,
        collet_length=shop.collet_nose_length_mm,
        clear=Clearances(shop.neck_clearance_mm, shop.end_clearance_mm),
    )
