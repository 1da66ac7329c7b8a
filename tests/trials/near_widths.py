"""Cutters that are nearly as wide as what they are to make: by a tenth of a thou, by a few thou, by half the width.
`python -m tests.trials.near_widths [HOW MANY]`

Every one that is no larger than the widest that the drawing allows, and whose geometry is clear, makes it. Where what
is left a side is under .003 in the plan says that it rubs (common practice, no source), and a plan is never refused.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from math import radians, tan

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise
from crib.planning.told.advice import Plan
from crib.shop import Shop
from crib.units import Size
from crib.units.angles import Angle

Asked = tuple[Request, tuple[Cutter, ...]]
THOU = 0.0254
LEAST_BITE = 3 * THOU


def main() -> None:
    """Try so many pairs, and tell what came of them."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    seen: Counter[str] = Counter()
    for number in range(count):
        request, cutters = pair(random.Random(number))
        plan = planned(request, cutters)
        if plan is None:
            print(number, request, cutters)
        seen[f"{request.kind}: {'made' if plan else 'NOT MADE'}"] += 1
    for what, times in sorted(seen.items()):
        print(f"{times:6}  {what}")


def planned(request: Request, cutters: tuple[Cutter, ...]) -> Plan | None:
    """The plan, where there is one and it is sound: it is proved, and what rubs is said to."""
    plan = next(iter(advise(request, cutters, Shop(), 1).advice.plans), None)
    if plan is None or plan.proof.left_mm or plan.proof.gouge_mm:
        return None
    hair = any(0 < one.radial_mm < LEAST_BITE - 1e-6 and one.role in ("finish", "undercut") and
               one.direction == "conventional" and one.rpm for one in plan.passes)
    said = any(warning.id in ("SZ2", "MT4") and warning.grade == "caution" for warning in plan.warnings)
    return plan if said or not hair else None


def pair(chance: random.Random) -> Asked:
    """A feature and what is to make it, the last cutter nearly as wide as it is."""
    return chance.choice((_slot, _slot, _slot, _step, _t_slot, _dovetail, _undercut, _slit))(chance)


def _size(chance: random.Random, nominal: float, least: float = 0.5) -> Size:
    """A size with a tolerance of half a thou to twenty."""
    below, above = sorted((0.0, chance.choice((least, 1.0, 2.0, 5.0, 10.0, 20.0)) * THOU))
    share = chance.choice((0.0, 0.5, 1.0))
    lo = nominal - above * share
    return Size(nominal, round(lo, 4), round(lo + above - below, 4), f"{nominal:g}mm")


def _near(chance: random.Random, size: Size, least: float) -> float:
    """A cutter's size up to the widest, mostly within a few thou of it."""
    under = chance.choice((0.0, chance.uniform(0, 1), chance.uniform(0, 3), chance.uniform(0, 12))) * THOU
    wide = chance.choice((size.lo, size.mid, size.hi, size.hi))
    return round(max(least, min(size.hi, wide - under)), 4)


def _mill(number: int, diameter: float, deep: float) -> Cutter:
    return Cutter(number, "end-mill", f"mill {number}", diameter_mm=diameter, length_of_cut_mm=round(deep + 4, 4),
                  flutes=4, shank_mm=diameter, corner_radius_mm=0.0, overall_length_mm=round(deep + 60, 4),
                  material="hss", condition="sharp", measured=("diameter_mm",))


def _slot(chance: random.Random) -> Asked:
    width, depth = _size(chance, round(chance.uniform(3, 25), 3)), _size(chance, round(chance.uniform(2, 6), 3), 5)
    request = Request("slot", {"width": width, "depth": depth}, chance.choice(("mild steel", "grey iron", "6061")))
    return request, (_mill(1, _near(chance, width, 2), depth.hi),)


def _step(chance: random.Random) -> Asked:
    width, depth = _size(chance, round(chance.uniform(1, 25), 3)), _size(chance, round(chance.uniform(2, 6), 3), 5)
    mill = _mill(1, max(4.0, _near(chance, width, 2)), depth.hi)
    return Request("step", {"width": width, "depth": depth}, "mild steel"), (mill,)


def _t_slot(chance: random.Random) -> Asked:
    throat, height = round(chance.uniform(10, 16), 3), round(chance.uniform(4, 6), 3)
    sizes = {"throat": _size(chance, throat, 5), "depth": _size(chance, height + 8, 5),
             "head_width": _size(chance, throat + 10, 5), "head_height": _size(chance, height, 5)}
    disc = Cutter(2, "t-slot-cutter", "disc", diameter_mm=_near(chance, sizes["head_width"], 5),
                  face_mm=sizes["head_height"].mid, neck_mm=throat / 2, reach_mm=60.0, shank_mm=12.7, flutes=8,
                  neck_fillet_mm=0.0, material="hss", condition="sharp", measured=("diameter_mm",))
    return Request("t-slot", sizes, "grey iron"), (_mill(1, _near(chance, sizes["throat"], 5), height + 10), disc)


def _dovetail(chance: random.Random) -> Asked:
    depth = _size(chance, round(chance.uniform(5, 9), 3), 5)
    mouth = round(chance.uniform(14, 20), 3)
    width = _size(chance, round(mouth + 2 * depth.mid / tan(radians(60)), 3), 5)
    cutter = Cutter(2, "dovetail-cutter", "dovetail", diameter_mm=min(_near(chance, width, 8), width.mid),
                    angle_deg=60.0, face_mm=round(depth.hi + 0.2, 4), neck_mm=4.0, reach_mm=40.0, shank_mm=12.0,
                    corner_radius_mm=0.0, tip_mm=0.0, flutes=8, material="hss", condition="sharp",
                    measured=("diameter_mm",))
    request = Request("dovetail", {"width": width, "depth": depth}, "grey iron", angles={"angle": Angle(60.0, "60")})
    return request, (_mill(1, round(mouth - chance.uniform(2, 5), 3), depth.hi), cutter)


def _undercut(chance: random.Random) -> Asked:
    width, depth = _size(chance, round(chance.uniform(3, 6), 3), 5), _size(chance, round(chance.uniform(2, 4), 3), 5)
    disc = Cutter(1, "keyseat-cutter", "keyseat", diameter_mm=25.4, face_mm=_near(chance, width, 2), neck_mm=8.0,
                  reach_mm=40.0, shank_mm=12.7, neck_fillet_mm=0.0, flutes=8, material="hss", condition="sharp",
                  measured=("diameter_mm", "face_mm"))
    return Request("undercut", {"width": width, "depth": depth}, "mild steel"), (disc,)


def _slit(chance: random.Random) -> Asked:
    width, depth = _size(chance, round(chance.uniform(1, 3), 3), 5), _size(chance, round(chance.uniform(4, 9), 3), 5)
    saw = Cutter(1, "slitting-saw", "saw", diameter_mm=76.2, face_mm=_near(chance, width, 0.8), bore_mm=25.4,
                 flutes=32, material="hss", condition="sharp", measured=("diameter_mm", "face_mm"))
    return Request("slit", {"width": width, "depth": depth}, "mild steel"), (saw,)


if __name__ == "__main__":
    main()
