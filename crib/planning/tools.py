"""A cutter made ready to be reckoned with in this shop and metal: its silhouette, its bites, its speed and feed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter, Kind, Unknown
from crib.cutters.shapes import cylinder
from crib.handbook.bites import centre_bite_limit, finish_allowance, level_overlap, side_step, slot_bite
from crib.handbook.dovetails import flank_step
from crib.handbook.feeds import feed_per_tooth, table_feed
from crib.handbook.materials import Material
from crib.handbook.speeds import SpindleStep, cutting_speed, spindle_step, wanted_rpm
from crib.holders import hold
from crib.holders.base import Held, Holding
from crib.lengths import nm
from crib.planning.shop import Shop
from crib.section.form import Form

STANDS_OUT_MM = 38.1
"""Shank above the teeth and neck [mm], where the overall length isn't known (from memory)."""

GRIP_MM = 25.4
"""Shank inside the holder [mm], where the overall length is known."""


@dataclass(frozen=True)
class Tool:
    """`owned` is the cutter as recorded, `cutter` the same with typical values filled in. Bites in whole nanometres,
    feeds in mm/min. `centre_limit`: the side bite above which a middle pass goes at half the feed. `pass_minutes` is
    the handling of each pass."""

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

    @property
    def id(self) -> int:
        return self.owned.id


NO_POSITION = ("neck_mm", "reach_mm", "length_of_cut_mm")
"""Sizes on which no setting hangs, only whether the cutter clears."""

TYPICAL = ("length_of_cut_mm",)
"""Of these, what is taken as usual for the kind and named as an assumption."""


def unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """What isn't known of a cutter and may decide."""
    return kind_of(cutter).unknowns(cutter)


def at_worst(cutter: Cutter) -> Cutter | None:
    """The cutter with what isn't known at its worst, where a plan needs no more than that; None where a position would
    hang on a size that isn't known."""
    asked = unknowns(cutter)
    if any(ask.key not in NO_POSITION for ask in asked):
        return None
    return cutter.but(**{ask.key: ask.worst for ask in asked if ask.key not in TYPICAL})


def at_kindest(cutter: Cutter, wanted: Mapping[str, Mapping[str, float]] = MappingProxyType({})) -> Cutter:
    """The cutter with what isn't known at its kindest: what is wanted of its kind, where the feature says."""
    best = wanted.get(cutter.kind, {})
    return cutter.but(**{ask.key: best.get(ask.key, ask.kindest) for ask in unknowns(cutter)})


def ready(cutter: Cutter, shop: Shop, material: Material, owned: Cutter | None = None) -> Tool | None:
    """The tool that a cutter is in this shop and metal; None for a kind that isn't reckoned with, or without a size."""
    kind = kind_of(cutter)
    if kind.form is None or cutter.diameter_mm is None:
        return None
    filled = kind.fill(cutter)
    diameter = cutter.diameter_mm
    form = kind.form(filled, Clearances(shop.neck_clearance_mm, shop.end_clearance_mm))
    operation = kind.operation or ("buried" if kind.buried else "milling")
    wanted = wanted_rpm(cutting_speed(material, operation, filled.material, filled.condition), diameter)
    step = spindle_step(wanted, shop.spindle_rpm) if shop.spindle_rpm else None
    rpm = float(step.rpm) if step else wanted
    feed = table_feed(rpm, filled.flutes or 4, feed_per_tooth(diameter, material, operation))
    reach = max(filled.reach_mm or 0.0, filled.length_of_cut_mm or 0.0, filled.face_mm or 0.0)
    stickout = max(reach, (filled.overall_length_mm or 0.0) - 2 * GRIP_MM)
    height = form.height
    return Tool(
        owned=owned or cutter,
        cutter=filled,
        kind=kind,
        form=_with_nose(form, filled, shop),
        held=hold(filled, Holding(shop.collets_mm, shop.chuck_mm, _arbors(shop), shop.units)),
        bite=min(height, nm(slot_bite(diameter, material, shop.stiffness, reach / diameter))),
        side=nm(flank_step(material) if "flank" in kind.ways else side_step(diameter, material)),
        overlap=min(height // 2, nm(level_overlap(height / 1e6))),
        centre_limit=nm(centre_bite_limit(diameter, material)),
        finish=nm(finish_allowance(diameter)),
        can_finish=filled.condition not in ("dull", "chipped", "burnt", "bent"),
        stickout=stickout,
        wanted_rpm=wanted,
        step=step,
        rpm=rpm,
        rough_feed=feed,
        finish_feed=feed,
        pass_minutes=shop.buried_pass_minutes if kind.buried else shop.pass_minutes,
        touch_minutes=shop.touch_disc_minutes if kind.buried else shop.touch_minutes,
    )


def _arbors(shop: Shop) -> tuple[tuple[float, float], ...] | None:
    return None if shop.arbors is None else tuple((arbor.bore_mm, arbor.flange_mm) for arbor in shop.arbors)


def _with_nose(form: Form, cutter: Cutter, shop: Shop) -> Form:
    """The spindle's nose above the shank: as far up as the overall length lets the cutter stand out, else above a usual
    length of shank."""
    reach = max(cutter.reach_mm or 0.0, cutter.length_of_cut_mm or 0.0, 1.0)
    low = reach + STANDS_OUT_MM if cutter.overall_length_mm is None else max(cutter.overall_length_mm - GRIP_MM, reach)
    nose = cylinder("spindle nose", low, low + 100.0, shop.nose_mm, shop.neck_clearance_mm, shop.end_clearance_mm)
    return Form(form.sure, form.may, (*form.clear, nose))
