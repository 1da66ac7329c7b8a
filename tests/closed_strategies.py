"""Made-up features with closed ends, and cutters for them; whole multiples of the block's cells, exact fits on
purpose."""

from __future__ import annotations

from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from tests.strategies import MATERIALS, any_of, around, mm

STEP = 0.2
FITS = 0.254
"""How much narrower than the throat a disc is that can just be lowered in it [mm]."""


def size(nominal: float) -> st.SearchStrategy[object]:
    return any_of(0.0, 0.0, 0.1, 0.3).map(lambda band: around(nominal, band, band))


@st.composite
def closed_slots(draw: st.DrawFn) -> Request:
    width = draw(mm(3, 7, STEP))
    sizes = {"width": draw(size(width)), "depth": draw(size(draw(mm(1.6, 4, STEP)))),
             "length": draw(size(round(width + draw(st.one_of(st.just(0.0), mm(0.4, 10, STEP))), 6)))}
    if draw(st.booleans()):
        sizes["length"] = around(sizes["length"].nominal, 0.4, 0.4)
    if sizes["length"].lo < width:
        sizes["length"] = around(round(width + 0.4, 6), 0.4, 0.4)
    return Request("slot", sizes, material=draw(any_of(*MATERIALS)), ends="closed")


@st.composite
def closed_t_slots(draw: st.DrawFn) -> Request:
    throat, height = draw(mm(5, 8, STEP)), draw(mm(1.6, 3, STEP))
    head = round(throat + draw(mm(0.8, 3.2, STEP)), 6)
    length = round(head + draw(mm(2, 8, STEP)), 6)
    sizes = {"throat": around(throat, 0.1, 0.1), "depth": around(round(height + draw(mm(1.2, 3, STEP)), 6), 0.1, 0.1),
             "head_width": around(head, 0.3, 0.3), "head_height": around(height, 0.2, 0.2),
             "length": around(length, 0.3, 0.3)}
    if draw(st.integers(0, 2)) == 0:
        sizes["head_length"] = around(round(length + draw(mm(-1, 2, STEP)), 6), 0.4, 0.4)
    if draw(st.integers(0, 3)) == 0:
        wide = draw(st.one_of(mm(0.4, 0.6, STEP), mm(0.4, round(head - throat + 1.2, 6), STEP)))
        sizes["entry_hole"] = around(round(throat + wide, 6), 0.0, 0.1)
    return Request("t-slot", sizes, material=draw(any_of(*MATERIALS)), ends="closed")


@st.composite
def pockets(draw: st.DrawFn) -> Request:
    """Pockets along and across, their corners from sharp ones for the mills to half of the narrower side."""
    width, length = draw(mm(4, 9, STEP)), draw(mm(4, 12, STEP))
    corner = draw(st.one_of(st.just(min(width, length) / 2), mm(0.8, min(width, length) / 2, STEP)))
    sizes = {"width": draw(size(width)), "length": draw(size(length)), "depth": draw(size(draw(mm(1.6, 4, STEP)))),
             "corner_radius": around(corner, draw(any_of(0.0, 0.1, 0.4)), 0.1)}
    return Request("pocket", sizes, length=length, material=draw(any_of(*MATERIALS)), ends="closed")


@st.composite
def mills(draw: st.DrawFn, request: Request, number: int) -> Cutter:
    """An end mill that may go down by itself, on a ramp, over a hole or not at all."""
    width, deep = request.sizes.get("throat", request.sizes.get("width")), request.sizes["depth"].hi
    assert width is not None
    wide = [width.lo, width.mid, width.hi]
    least, most = max(1.6, round(0.5 * width.nominal / STEP) * STEP), width.nominal
    if corner := request.sizes.get("corner_radius"):
        wide = [2 * one for one in (corner.lo, corner.mid, corner.hi) if 1.6 <= 2 * one <= width.hi] or wide
        least, most = 1.6, max(1.8, round((2 * corner.nominal + 0.8) / STEP) * STEP)
    diameter = draw(st.one_of(st.sampled_from(wide), mm(least, most, STEP)))
    return Cutter(
        number, "end-mill", f"end mill {number}", diameter_mm=diameter,
        corner_radius_mm=draw(any_of(0.0, 0.0, 0.0, 0.4)),
        length_of_cut_mm=round(deep + draw(any_of(2.0, 2.0, -0.8)), 6),
        shank_mm=draw(any_of(6.0, round(diameter - 0.2, 6))), flutes=draw(any_of(2, 4)),
        centre_cutting=draw(any_of(True, True, False, None)), material="hss", condition="sharp",
        measured=("diameter_mm",), price=draw(any_of(None, 12.0)),
    )


@st.composite
def discs(draw: st.DrawFn, request: Request, number: int) -> Cutter:
    """A disc about as wide as goes into the throat, its neck about as fat as the ends allow."""
    throat, head = request.sizes["throat"], request.sizes["head_width"]
    height, deep = request.sizes["head_height"], request.sizes["depth"].hi
    hole = request.sizes.get("entry_hole")
    widest = [hole.lo - 2 * FITS] if hole else []
    diameter = round(draw(st.one_of(
        any_of(throat.mid - FITS, throat.lo - FITS, throat.mid, *widest),
        mm(max(2.0, throat.nominal - 2), throat.nominal - 0.4, STEP))), 6)
    clears = throat.mid - (head.mid - diameter) - 2 * FITS
    neck = round(max(0.8, min(diameter - 0.4, clears - draw(any_of(0.0, 0.2, 0.6, 1.2)))), 6)
    return Cutter(
        number, draw(any_of("keyseat-cutter", "t-slot-cutter")), f"disc {number}", diameter_mm=diameter,
        face_mm=draw(any_of(height.mid, round(0.6 * height.mid / STEP) * STEP)), neck_mm=neck,
        neck_fillet_mm=draw(any_of(None, None, 0.2)), reach_mm=round(deep + 2.0, 6), shank_mm=6.0, flutes=8,
        material="hss", condition="sharp", measured=("diameter_mm",), price=draw(any_of(None, 30.0)),
    )


@st.composite
def drills(draw: st.DrawFn, request: Request, number: int) -> Cutter:
    width = request.sizes.get("throat", request.sizes.get("width"))
    assert width is not None
    return Cutter(number, "drill", f"drill {number}", diameter_mm=round(width.mid - draw(mm(0.2, 2, STEP)), 6),
                  angle_deg=draw(any_of(118.0, 180.0)), material="hss", condition="sharp")


@st.composite
def closed_cribs(draw: st.DrawFn, request: Request) -> tuple[Cutter, ...]:
    """A few end mills, of a T-slot as many discs, and a drill or two."""
    from_above = "throat" not in request.sizes
    makers = [mills, mills, drills] if from_above else [mills, discs, mills, discs, drills]
    chosen = makers[: draw(st.integers(1 if from_above else 2, len(makers)))]
    return tuple(draw(maker(request, number)) for number, maker in enumerate(chosen, 1))


@st.composite
def roughed_pockets(draw: st.DrawFn, rounder: bool = False) -> tuple[Request, tuple[Cutter, ...]]:
    """Pockets with corners much less round than they are wide, a mill or two that goes into them, or is `rounder` and
    leaves no more than an owner might let stand, one or two that don't and rough it, and a drill for the corners."""
    width, depth = draw(mm(8, 11, STEP)), draw(mm(2, 6, STEP))
    corner = draw(mm(0.8, 1.2, STEP) if rounder else mm(1.4, 2.2, STEP))
    length = round(width + draw(mm(0, 3, STEP)), 6)
    sizes = {"width": draw(size(width)), "length": draw(size(length)), "depth": draw(size(depth)),
             "corner_radius": around(corner, 0.2, 0.1)}
    request = Request("pocket", sizes, length=length, material=draw(any_of(*MATERIALS)), ends="closed")

    def mill(number: int, diameter: float) -> Cutter:
        return Cutter(number, "end-mill", f"end mill {number}", diameter_mm=round(diameter, 6), corner_radius_mm=0.0,
                      length_of_cut_mm=depth + 2.0, shank_mm=6.0, flutes=draw(any_of(2, 4)),
                      centre_cutting=draw(any_of(True, True, False)), material="hss",
                      condition=draw(any_of("sharp", "sharp", "used")), measured=("diameter_mm",),
                      price=draw(any_of(None, 12.0)))

    least, most = (2 * corner + 0.4, 3 * corner) if rounder else (2 * corner - 1.2, 2 * corner + 0.2)
    small = [mill(k, draw(mm(least, most, STEP))) for k in range(draw(st.integers(1, 2)))]
    big = [mill(2 + k, draw(mm(2 * corner + 0.6, width - 1, STEP))) for k in range(draw(st.integers(1, 2)))]
    drill = Cutter(9, "drill", "drill 9", diameter_mm=round(2 * corner - draw(mm(0.2, 1, STEP)), 6),
                   angle_deg=draw(any_of(118.0, 180.0)), material="hss", condition="sharp")
    return request, (*small, *big, *([drill] if draw(st.booleans()) else []))


@st.composite
def deep_slots(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...]]:
    """Slots several times as deep as they are wide, a mill or two for them, and drills that go down them."""
    width, depth = draw(mm(2.6, 3.6, STEP)), draw(mm(9, 18, STEP))
    length = round(width + draw(mm(2, 8, STEP)), 6)
    sizes = {"width": draw(size(width)), "depth": draw(size(depth)), "length": draw(size(length))}
    request = Request("slot", sizes, material=draw(any_of(*MATERIALS)), ends="closed")

    def mill(number: int) -> Cutter:
        diameter = round(width - draw(any_of(0.0, 0.0, 0.2, 0.4)), 6)
        return Cutter(number, "end-mill", f"end mill {number}", diameter_mm=diameter, corner_radius_mm=0.0,
                      length_of_cut_mm=depth + 2.0, shank_mm=6.0, flutes=draw(any_of(2, 4)),
                      centre_cutting=draw(any_of(True, True, False)), material="hss",
                      condition=draw(any_of("sharp", "sharp", "used")), measured=("diameter_mm",),
                      price=draw(any_of(None, 12.0)))

    def drill(number: int) -> Cutter:
        diameter = round(width - draw(any_of(0.2, 0.26, 0.3, 0.36)), 6)
        return Cutter(number, "drill", f"drill {number}", diameter_mm=diameter,
                      angle_deg=draw(any_of(118.0, 180.0)), material="hss", condition="sharp",
                      length_of_cut_mm=draw(any_of(None, 40.0)))

    mills = [mill(k) for k in range(1, draw(st.integers(2, 3)))]
    return request, (*mills, *(drill(8 + k) for k in range(draw(st.integers(1, 2)))))
