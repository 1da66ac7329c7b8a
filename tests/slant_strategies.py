"""Made-up features that lean, and cutters for them. Exact fits are common on purpose. Lengths in mm."""

from __future__ import annotations

from dataclasses import replace
from math import radians, tan

from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.shop import Shop
from crib.units.angles import Angle
from tests.strategies import MATERIALS, STEP, any_of, mm, renumbered, size

FLANKS = (45.0, 50.0, 55.0, 60.0)


def _grid(value: float) -> float:
    return round(round(value / STEP) * STEP, 6)


@st.composite
def dovetails(draw: st.DrawFn) -> Request:
    angle, depth = draw(st.sampled_from(FLANKS)), draw(mm(1.6, 4))
    width = _grid(draw(mm(4, 9)) + 2 * depth / tan(radians(angle)))
    return _asked("dovetail", angle, {"width": draw(size(width)), "depth": draw(size(depth))}, draw)


@st.composite
def slides(draw: st.DrawFn) -> Request:
    angle, height = draw(st.sampled_from(FLANKS)), draw(mm(1.6, 4))
    sizes = {"width": draw(size(draw(mm(3, 8)))), "height": draw(size(height)),
             "shoulder": draw(size(draw(mm(3, 9))))}
    return _asked("dovetail-slide", angle, sizes, draw)


@st.composite
def chamfers(draw: st.DrawFn) -> Request:
    angle = draw(any_of(30.0, 45.0, 45.0, 60.0))
    return _asked("chamfer", angle, {"size": draw(size(draw(mm(0.6, 3))))}, draw)


@st.composite
def grooves(draw: st.DrawFn) -> Request:
    angle = draw(any_of(60.0, 90.0, 90.0, 120.0))
    return _asked("v-groove", angle, {"width": draw(size(draw(mm(1.2, 6))))}, draw)


def _asked(kind: str, angle: float, sizes: dict[str, object], draw: st.DrawFn) -> Request:
    return Request(kind, sizes, material=draw(any_of(*MATERIALS)),  # type: ignore[arg-type]
                   angles={"angle": Angle(angle, f"{angle:g}")}, units="mm")


SLANTED = st.one_of(dovetails(), dovetails(), slides(), chamfers(), grooves())


def height_of(request: Request) -> float:
    """How high a flank is."""
    return (request.sizes.get("depth") or request.sizes["height"]).mid


@st.composite
def mills(draw: st.DrawFn, request: Request, number: int) -> Cutter:
    """An end mill that opens the slot or the shoulders, or doesn't."""
    deep = height_of(request) if "dovetail" in request.kind else 2.0
    across = draw(mm(1.6, 8))
    return Cutter(
        number, "end-mill", f"end mill {number}", diameter_mm=across, corner_radius_mm=0.0,
        length_of_cut_mm=round(draw(any_of(deep + 3, deep + 3, 0.6 * deep)), 6),
        shank_mm=draw(any_of(6.0, across)), flutes=4, centre_cutting=True, material="hss",
        condition=draw(any_of("sharp", "sharp", "dull")), measured=("diameter_mm",),
    )


@st.composite
def flank_cutters(draw: st.DrawFn, request: Request, number: int, whole: bool = False) -> Cutter:
    """A dovetail cutter that may or may not do."""
    angle, high, width = request.angle().deg, height_of(request), request.size("width")
    own = draw(any_of(angle, angle, angle, angle, angle + 0.2, angle - 0.2, 45.0, 60.0))
    fits = (width.lo, width.mid, width.hi, _grid(width.hi + STEP)) if request.kind == "dovetail" else (8.0, 12.0)
    face = draw(any_of(high, _grid(high + 0.4), _grid(high - STEP), _grid(0.7 * high), _grid(0.56 * high),
                                 _grid(0.4 * high)))
    least = _grid(2 * face / tan(radians(own)) + 0.8)
    across = max(least, draw(st.one_of(st.sampled_from(fits), mm(3, max(3.2, width.hi)))))
    two = round(across - 2 * high / tan(radians(own)) - 0.508, 6)
    neck = draw(any_of(two, two + STEP, 0.6, _grid(across - 2 * face / tan(radians(own)))))
    cutter = Cutter(
        number, "dovetail-cutter", f"dovetail {number}", diameter_mm=across, angle_deg=own, face_mm=face,
        neck_mm=max(0.4, min(neck, across - 0.2)), reach_mm=_grid(face + draw(any_of(0.8, 3.0, 6.0))),
        shank_mm=draw(any_of(4.0, 6.0, 9.0)), flutes=6, material="hss",
        corner_radius_mm=draw(any_of(0.0, 0.0, 0.0, 0.0, 0.12, 0.4)),
        condition=draw(any_of("sharp", "sharp", "used", "dull")), measured=("diameter_mm",),
    )
    if whole or draw(st.integers(0, 6)):
        return cutter
    return cutter.but(**{draw(any_of("angle_deg", "face_mm", "neck_mm", "reach_mm")): None})


@st.composite
def pointed_cutters(draw: st.DrawFn, request: Request, number: int, whole: bool = False) -> Cutter:
    """A chamfer cutter, countersink or spot drill that may or may not do."""
    between = request.angle().deg * (1 if request.kind == "v-groove" else 2)
    own = draw(any_of(between, between, between, between + 1, between - 1.6, between + 4, 82.0, 90.0))
    cutter = Cutter(
        number, draw(any_of("chamfer-cutter", "chamfer-cutter", "countersink", "spot-drill")),
        f"point {number}", diameter_mm=draw(mm(3, 16)), angle_deg=min(own, 150.0),
        tip_mm=draw(any_of(0.0, 0.0, 0.2, 0.8)), flutes=draw(any_of(1, 3, 4)), shank_mm=6.0,
        material="hss", condition="sharp", measured=("diameter_mm",),
    )
    return cutter if whole or draw(st.integers(0, 6)) else cutter.but(**{draw(any_of("angle_deg", "tip_mm")):
                                                                         None})


@st.composite
def right_for_slants(draw: st.DrawFn, request: Request) -> tuple[Cutter, ...]:
    """Cutters with which the feature can be made, in one height or in two."""
    if "dovetail" not in request.kind:
        return ()
    angle, high = request.angle().deg, height_of(request)
    run, mill = 1 / tan(radians(angle)), Cutter(
        1, "end-mill", "mill", diameter_mm=2.4, corner_radius_mm=0.0, length_of_cut_mm=round(high + 3, 6),
        shank_mm=6.0, flutes=4, centre_cutting=True, material="hss", condition="sharp", measured=("diameter_mm",))
    face = _grid(draw(any_of(0.7 * high + STEP, high + STEP, high - STEP)))
    across = _grid(2 * high * run + draw(any_of(1.6, 2.4)))
    return mill, Cutter(
        2, "dovetail-cutter", "right", diameter_mm=across, angle_deg=angle, face_mm=face, corner_radius_mm=0.0,
        neck_mm=round(across - 2 * high * run - 0.56, 6), reach_mm=_grid(high + 3.0), shank_mm=6.0, flutes=6,
        material="hss", condition="sharp", measured=("diameter_mm",))


@st.composite
def slanted_cribs(draw: st.DrawFn, request: Request, most: int = 6, whole: bool = False) -> tuple[Cutter, ...]:
    """Up to so many cutters of the sorts that a feature that leans may want."""
    cutters = list(draw(right_for_slants(request))) if draw(st.booleans()) else []
    for number in range(1, draw(st.integers(2, most)) + 1 - len(cutters)):
        if "dovetail" not in request.kind:
            cutters.append(draw(mills(request, number)) if draw(st.integers(0, 4)) == 0
                           else draw(pointed_cutters(request, number, whole)))
        elif number % 2:
            cutters.append(draw(flank_cutters(request, number, whole)))
        else:
            cutters.append(draw(mills(request, number)))
    return renumbered(cutters)


@st.composite
def discs_for(draw: st.DrawFn, request: Request, number: int, is_fit: bool = False) -> Cutter:
    """A disc that may or may not go under a flank; `is_fit`: sharp, slender and long enough to, and
    wide and cheap enough that it pays."""
    high = height_of(request)
    across = draw(mm(6 if is_fit else 3, 9))
    face = draw(any_of(_grid(0.4 * high), _grid(0.6 * high)) if is_fit else
                any_of(_grid(0.3 * high), _grid(0.4 * high), _grid(0.6 * high), _grid(high - STEP), high))
    return Cutter(
        number, draw(any_of("keyseat-cutter", "keyseat-cutter", "t-slot-cutter")), f"disc {number}",
        diameter_mm=across, face_mm=face, flutes=8,
        neck_mm=_grid(across * (0.3 if is_fit else draw(any_of(0.3, 0.5, 0.8)))),
        reach_mm=_grid((high + 3 if is_fit else draw(any_of(high + 3, high + 3, 0.7 * high + 1))) + face), shank_mm=6.0,
        material="hss", price=None if is_fit else draw(any_of(None, 40.0)),
        condition="sharp" if is_fit else draw(any_of("sharp", "sharp", "used", "dull", "chipped")),
        measured=("diameter_mm",))


@st.composite
def stepped(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A long dovetail with what makes it and some discs, where putting up one more cutter takes hardly any time. In two
    of three steps are likely to pay: it is long enough, and one of the discs is fit to make them."""
    angle, high = draw(st.sampled_from(FLANKS)), draw(mm(3, 6))
    other = {"depth": draw(size(high))} if draw(st.booleans()) else {
        "height": draw(size(high)), "shoulder": draw(size(draw(mm(7, 9))))}
    width = _grid(draw(mm(6, 9)) + 2 * high / tan(radians(angle)))
    kind = "dovetail" if "depth" in other else "dovetail-slide"
    request = _asked(kind, angle, {"width": draw(size(width)), **other}, draw)
    pays = draw(st.integers(0, 2)) > 0
    request = replace(request, length=600.0 if pays else draw(any_of(30.0, 600.0, 600.0)), material=draw(
        any_of("mild steel", "mild steel", "grey iron")), hours=0.0 if pays else draw(any_of(0.0, 0.0, 6.0)))
    right = [one.but(price=draw(any_of(None, 60.0))) for one in draw(right_for_slants(request))]
    more = [draw(discs_for(request, number, pays and number == 3))
            for number in range(3, draw(st.integers(4, 6)))]
    if draw(st.integers(0, 3)) == 0:
        more.append(draw(flank_cutters(request, 9, True)))
    shop = Shop(units="mm", cutter_minutes=0.2, touch_minutes=0.3, touch_disc_minutes=0.3, warn_chance=0.001,
                collet_minutes=draw(any_of(0.0, 1.5)))
    return request, renumbered(draw(st.permutations([*right, *more]))), shop
