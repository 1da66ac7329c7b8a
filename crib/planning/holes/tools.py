"""A cutter made ready to come down its own axis in this shop and metal."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter, Kind, Motion
from crib.cutters.shapes import cylinder
from crib.geometry.silhouette import Form, Part
from crib.handbook.feeds import drill_feed
from crib.handbook.materials import Material
from crib.handbook.speeds import SpindleStep, cutting_speed, spindle_step, wanted_rpm
from crib.holders import hold
from crib.holders.base import Held
from crib.machining.feeding import pulled
from crib.machining.tool import as_run, holding_of
from crib.shop import Shop
from crib.units import in_words, nm

GRIP_MM, GRIP_SHARE, CHUCK_ACROSS_MM = 25.4, 0.35, 44.45
"""Shank inside the holder [mm] and the most of a cutter's length that it is [-], and the body of a half-inch drill
chuck [mm]. From memory."""

IN_A_CHUCK = frozenset({"drill", "tap", "reamer", "spot-drill", "centre-drill", "countersink", "counterbore"})
"""Kinds that a drill chuck may hold: none of them cuts sideways."""

_FEED_SHARE = {"reaming": 2.5, "boring": 0.5, "counterboring": 0.5, "countersinking": 0.5, "milling": 0.5}
"""Share of a drill's feed a revolution [-]: a reamer 2 to 3 times, the others about half. Common practice."""


_FULL_WIDTH = ("drilling", "counterboring", "milling")
"""Operations that cut the whole of their circle."""


@dataclass(frozen=True)
class HoleTool:
    """`form` is the silhouette of the hole that it is expected to make. Feed in mm/min, `wants` what its lips would
    take if the motor pulled it; `by_hand` where no step of the spindle is slow enough to tap with, or none is to be
    used."""

    owned: Cutter
    cutter: Cutter
    kind: Kind
    form: Form
    held: Held
    wanted_rpm: float
    step: SpindleStep | None
    feed: float
    by_hand: bool = False
    wants: float = 0.0

    @property
    def id(self) -> int:
        return self.owned.id

    @property
    def rpm(self) -> float:
        return float(self.step.rpm) if self.step else self.wanted_rpm


def ready(cutter: Cutter, operation: str, shop: Shop, material: Material, across_mm: float,
          makes_mm: float | None = None) -> HoleTool | None:
    """The tool; None for a kind that doesn't come down its axis. `across_mm`: where its speed counts; `makes_mm`: the
    hole that it is expected to make. Raises `CribError` for a tap whose thread can't be read."""
    kind = kind_of(cutter)
    draw = kind.on_axis or (kind.form if Motion.DOWN in kind.motions else None)
    if draw is None:
        return None
    filled = as_run(kind.fill(cutter), shop)
    form = draw(filled, Clearances(shop.neck_clearance_mm, shop.end_clearance_mm))
    if makes_mm is not None:
        form = _making(form, makes_mm)
    wanted = wanted_rpm(cutting_speed(material, operation, filled.material, filled.condition), across_mm)
    step = spindle_step(wanted, shop.spindle_rpm) if shop.spindle_rpm else None
    by_hand = operation == "tapping"
    least, most = drill_feed(across_mm)
    wants = (least + most) / 2 * _FEED_SHARE.get(operation, 1.0) * (step.rpm if step else wanted)
    feed = pulled(wants, pi / 4 * across_mm**2, shop, material) if operation in _FULL_WIDTH else wants
    held = holder(filled, shop)
    return HoleTool(cutter, filled, kind, _with_nose(form, filled, held, shop), held, wanted, step, feed, by_hand,
                    wants)


def _making(form: Form, makes_mm: float) -> Form:
    """The silhouette set out to the hole that it makes; a point stays a point."""
    extra = nm(makes_mm / 2) - form.radius

    def wider(part: Part) -> Part:
        low = part.radius_low + extra if part.radius_low else 0
        return part._replace(radius_low=low, radius_high=part.radius_high + extra)

    return Form(tuple(map(wider, form.sure)), tuple(map(wider, form.may)), form.clear)


def holder(cutter: Cutter, shop: Shop) -> Held:
    """The drill chuck for what may go in it, else a collet; a counterbore's shank in a collet that takes it."""
    shank = cutter.shank_mm or cutter.diameter_mm
    if cutter.kind not in IN_A_CHUCK or shank is None:
        if cutter.kind in IN_A_CHUCK:
            return Held(True, "drill chuck", assumed=f"{cutter.label}: its shank goes in the drill chuck")
        return hold(cutter, holding_of(shop))
    if cutter.kind == "counterbore" and cutter.shank_mm is not None and shop.collets_mm:
        collet = hold(cutter, holding_of(shop))
        if collet.ok:
            return collet
    if shop.chuck_mm is None:
        return Held(True, "drill chuck", assumed="a drill chuck that takes it: none on record")
    if shank <= shop.chuck_mm + 1e-6:
        return Held(True, "drill chuck")
    collet = hold(cutter.but(shank_mm=shank), holding_of(shop))
    if collet.ok:
        return collet
    said = in_words(shank, shop.units)
    says = f"the drill chuck takes {in_words(shop.chuck_mm, shop.units)}, the shank is {said}, and {collet.says}"
    return Held(False, "no holder", says, "HD1", shop.chuck_mm, shank, f"a {said} collet, or a reduced shank")


def _with_nose(form: Form, cutter: Cutter, held: Held, shop: Shop) -> Form:
    """The chuck or the spindle's nose above the cutter, where its length tells how far it stands out."""
    if cutter.overall_length_mm is None:
        return form
    across = CHUCK_ACROSS_MM if held.label == "drill chuck" else shop.nose_mm
    grip = min(GRIP_MM, GRIP_SHARE * cutter.overall_length_mm)
    low = max(cutter.overall_length_mm - grip, form.height / 1e6 if cutter.kind != "drill" else 0.0, 1.0)
    nose = cylinder("chuck" if held.label == "drill chuck" else "spindle nose", low, low + 100.0, across,
                    shop.neck_clearance_mm, shop.end_clearance_mm)
    return Form(form.sure, form.may, (*form.clear, nose))
