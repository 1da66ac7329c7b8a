"""How fast a cutter is turned and fed in this shop: its speed, the step of the spindle, and a feed that its teeth, a
hand and the motor can all bear."""

from __future__ import annotations

from collections.abc import Sequence
from math import log, pi

from crib.findings.finding import Grade
from crib.handbook.bites import STIFFNESS_FACTORS
from crib.handbook.feeds import drill_feed, feed_per_tooth, least_per_tooth, table_feed
from crib.handbook.materials import Material
from crib.handbook.power import DRIVE, cutting_power
from crib.handbook.speeds import OPERATION_FACTORS, WARN_OVER, SpindleStep, cutting_speed, spindle_step, wanted_rpm
from crib.light.records import dataclass
from crib.shop import Shop

HAND, MOTOR = "hand", "motor"

_FEED_SHARE = {"reaming": 2.5, "boring": 0.5, "counterboring": 0.5, "countersinking": 0.5, "milling": 0.5}
"""Share of a drill's feed a revolution [-]: a reamer 2 to 3 times, the others about half. Common practice."""

_FULL_WIDTH = ("drilling", "counterboring", "milling")
"""Operations that cut the whole of their circle."""


@dataclass(frozen=True)
class Feeding:
    """Speed and feed [rev/min, mm/min]. `wants`: the feed that its teeth would take, `held_by` what keeps it below
    that, nothing where nothing does; `bite`: what is left of the bite that was asked for [mm]; `power` at the tool in
    its heaviest cut [W]; `most_rpm`: beyond it no step will do."""

    wanted_rpm: float
    step: SpindleStep | None
    rpm: float
    feed: float
    wants: float
    held_by: str
    bite: float
    power: float
    most_rpm: float


@dataclass(frozen=True)
class Cutting:
    """A cutter as far as its feed goes by it: operation, steel, condition and teeth, across [mm], the bite that it
    would take and how wide the heaviest cut with it is [mm]; `on_arbor`: whether it bears what an end mill does;
    `must_bite`: whether its bite is its own height and can't be made smaller."""

    operation: str
    steel: str
    condition: str
    teeth: int
    across: float
    bite: float
    width: float
    on_arbor: bool = False
    must_bite: bool = False


def fed(cutting: Cutting, shop: Shop, material: Material, own_rpm: int | None = None) -> Feeding:
    """The speed and the feed of a cutter in a shop and a metal; at the owner's own speed where he says one."""
    speed = cutting_speed(material, cutting.operation, cutting.steel, cutting.condition)
    wanted = wanted_rpm(speed, cutting.across)
    most_rpm = WARN_OVER * wanted / (OPERATION_FACTORS[cutting.operation] if cutting.on_arbor else 1.0)
    tooth = feed_per_tooth(cutting.across, material, cutting.operation)
    if cutting.operation == "sawing":
        tooth *= min(1.0, STIFFNESS_FACTORS[shop.stiffness])
    least = least_per_tooth(cutting.across, tooth)
    step = spindle_step(wanted, shop.spindle_rpm, most_rpm) if shop.spindle_rpm else None
    step, rpm = _own_step(own_rpm, wanted, shop) if own_rpm else _slow_enough(
        step, wanted, shop.spindle_rpm or (), shop.most_feed_mm / (cutting.teeth * least))
    wants = table_feed(rpm, cutting.teeth, tooth)
    feed, held_by = min((wants, ""), (shop.most_feed_mm, HAND))
    bite = cutting.bite
    allowed, power = shop.power_w * DRIVE, cutting_power(material, cutting.width * bite, feed)
    if power > allowed:
        held_by = MOTOR
        slower = feed * allowed / power
        rubs = table_feed(rpm, cutting.teeth, least)
        if slower < rubs < feed and not cutting.must_bite:
            bite *= slower / rubs
            slower = rubs
        feed, power = slower, allowed
    return Feeding(wanted, step, rpm, feed, wants, held_by, bite, power, most_rpm)


def fed_down(operation: str, steel: str, condition: str, across: float, shop: Shop, material: Material,
             own_rpm: int | None = None) -> Feeding:
    """The speed and the feed of a cutter that comes down its own axis, its speed counted at so wide [mm]; at the
    owner's own speed where he says one."""
    wanted = wanted_rpm(cutting_speed(material, operation, steel, condition), across)
    step = spindle_step(wanted, shop.spindle_rpm) if shop.spindle_rpm else None
    rpm = float(step.rpm) if step else wanted
    if own_rpm:
        step, rpm = _own_step(own_rpm, wanted, shop)
    wants = sum(drill_feed(across)) / 2 * _FEED_SHARE.get(operation, 1.0) * rpm
    power, allowed = cutting_power(material, pi / 4 * across**2, wants), shop.power_w * DRIVE
    held = operation in _FULL_WIDTH and power > allowed
    feed = wants * allowed / power if held else wants
    return Feeding(wanted, step, rpm, feed, wants, MOTOR if held else "", 0.0, min(power, allowed), WARN_OVER * wanted)


def _own_step(own_rpm: int, wanted: float, shop: Shop) -> tuple[SpindleStep, float]:
    """The speed that the owner runs a cutter at, as near as the spindle has it."""
    rpm = min(shop.spindle_rpm or (own_rpm,), key=lambda step: abs(log(step / own_rpm)))
    near = "" if rpm == own_rpm else f", the nearest to {own_rpm} that the spindle has"
    says = f"run at {rpm}{near}, {wanted:.0f} is usual"
    return SpindleStep(rpm, wanted, rpm / wanted, Grade.NOTE, says), float(rpm)


def _slow_enough(step: SpindleStep | None, wanted: float, steps: Sequence[int],
                 most: float) -> tuple[SpindleStep | None, float]:
    """The step and the speed at which the teeth still bite at the fastest feed there is: where that is slower than the
    cutter would bear, the spindle is set slower."""
    if step is None:
        return None, min(wanted, most)
    if step.rpm <= most or step.rpm == min(steps):
        return step, float(step.rpm)
    rpm = max((each for each in steps if each <= most), default=min(steps))
    says = f"slower than it could go: {rpm} of {wanted:.0f} wanted, so that the teeth bite at the feed there is"
    return SpindleStep(rpm, wanted, rpm / wanted, Grade.NOTE, says), float(rpm)
