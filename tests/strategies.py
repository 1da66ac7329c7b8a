"""Made-up features, cutters and shops for the laws. All lengths are whole multiples of what the grid can show, so
that a half width falls on an edge between cells; exact fits are common on purpose."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st

import tests.light_draws  # noqa: F401 - it changes Hypothesis
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.shop import Shop
from crib.units import Size

settings.register_profile(
    "crib", derandomize=True, database=None, deadline=None, print_blob=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large],
)
settings.register_profile("search", settings.get_profile("crib"), derandomize=False)
settings.register_profile("no-shrinking", settings.get_profile("crib"), phases=[Phase.explicit, Phase.generate])
settings.load_profile(os.environ.get("CRIB_HYPOTHESIS", "crib"))

STEP = 0.04
"""Widths and diameters are whole multiples of this [mm]: twice the grid's cell."""

INCH = 25.4


def any_of(*values: Any) -> st.SearchStrategy[Any]:
    """One of some values. Looking through a new strategy costs as much as drawing from it, so that one is made but
    once of the same values."""
    try:
        return _any_of(*values)
    except TypeError:  # a dictionary among them
        return st.sampled_from(values)


@lru_cache(maxsize=8192, typed=True)
def _any_of(*values: Any) -> st.SearchStrategy[Any]:
    return st.sampled_from(values)


@lru_cache(maxsize=8192)
def mm(least: float, most: float, step: float = STEP) -> st.SearchStrategy[float]:
    """Lengths in whole steps [mm]."""
    return st.integers(round(least / step), round(most / step)).map(lambda n: round(n * step, 6))


def around(nominal: float, below: float, above: float) -> Size:
    """A size with its tolerance [mm]."""
    return Size(nominal, round(nominal - below, 6), round(nominal + above, 6), f"{nominal:g}mm")


@lru_cache(maxsize=8192)
def size(nominal: float, step: float = STEP) -> st.SearchStrategy[Size]:
    """A size with a tolerance of nothing to a few steps on each side."""
    some = any_of(0, 0, 1, 2, 5).map(lambda n: n * step)
    return st.builds(lambda b, a: around(nominal, b, a), some, some)


MATERIALS = ("grey iron", "mild steel", "6061")


@st.composite
def slots(draw: st.DrawFn) -> Request:
    sizes = {"width": draw(size(draw(mm(3, 8)))), "depth": draw(size(draw(mm(1.6, 6))))}
    return Request("slot", sizes, material=draw(any_of(*MATERIALS)), hours=draw(any_of(0.0, 6.0)))


@st.composite
def steps(draw: st.DrawFn) -> Request:
    sizes = {"width": draw(size(draw(mm(2, 10)))), "depth": draw(size(draw(mm(1.6, 6))))}
    return Request("step", sizes, material=draw(any_of(*MATERIALS)))


@st.composite
def t_slots(draw: st.DrawFn) -> Request:
    throat, height = draw(mm(4, 7)), draw(mm(1.6, 4))
    sizes = {
        "throat": draw(size(throat)),
        "depth": draw(size(round(height + draw(mm(1.2, 4)), 6))),
        "head_width": draw(size(round(throat + draw(mm(1.2, 6)), 6))),
        "head_height": draw(size(height)),
    }
    return Request("t-slot", sizes, material=draw(any_of(*MATERIALS)), hours=draw(any_of(0.0, 6.0)))


REQUESTS = st.one_of(t_slots(), t_slots(), slots(), steps())


def width_of(request: Request) -> Size:
    """The width that the first room has."""
    return request.sizes["throat" if request.kind == "t-slot" else "width"]


@st.composite
def shops(draw: st.DrawFn) -> Shop:
    neck, end = draw(any_of((0.254, 0.762), (0.254, 0.762), (0.12, 0.4), (0.0, 0.0)))
    return Shop(units=draw(any_of("in", "mm")), neck_clearance_mm=neck, end_clearance_mm=end,
                collets_mm=draw(any_of(None, None, (6.0, 6.35, 12.7))))


@st.composite
def end_mills(draw: st.DrawFn, request: Request, number: int, whole: bool = False) -> Cutter:
    """An end mill that may or may not fit; `whole`: nothing about it unknown."""
    width = width_of(request)
    diameter = draw(st.one_of(
        any_of(width.lo, width.mid, width.hi, round(width.hi + STEP, 6)),
        mm(max(1.2, 0.5 * width.nominal), width.nominal),
    )) if request.kind != "step" else draw(mm(2, 12))
    deep = request.sizes["depth"].hi
    tall = draw(st.one_of(mm(max(deep, 2.0), deep + 8), mm(max(1.2, 0.4 * deep), deep + 1)))
    corner = draw(any_of(0.0, 0.0, 0.0, 0.0, 0.4, round(diameter / 2, 6)))
    relieved = draw(st.booleans()) and draw(st.booleans())
    cutter = Cutter(
        number, "end-mill", f"end mill {number}",
        diameter_mm=diameter,
        corner_radius_mm=min(corner, diameter / 2),
        length_of_cut_mm=tall,
        neck_mm=round(diameter - 0.2, 6) if relieved else None,
        reach_mm=round(tall + draw(mm(1, 6)), 6) if relieved else None,
        shank_mm=draw(any_of(6.0, 6.35, 12.7, diameter, round(diameter - 0.12, 6))),
        overall_length_mm=draw(any_of(None, 60.0, round(tall + 30.0, 6))),
        flutes=draw(any_of(2, 4)),
        centre_cutting=True,
        material="hss",
        condition=draw(any_of("sharp", "sharp", "sharp", "used", "dull", "unknown")),
        price=draw(any_of(None, 20.0)),
        measured=("diameter_mm",),
    )
    if not whole and draw(st.integers(0, 6)) == 0:
        return cutter.but(diameter_mm=None, nominal_mm=diameter, reground=True, measured=())
    return cutter


@st.composite
def discs(draw: st.DrawFn, request: Request, number: int, whole: bool = False) -> Cutter:
    """A keyseat or T-slot cutter that may or may not fit."""
    width = width_of(request)
    head = request.sizes.get("head_width", width)
    height = request.sizes.get("head_height", request.sizes["depth"])
    deep = request.sizes["depth"]
    diameter = draw(st.one_of(
        any_of(head.lo, head.mid, head.hi, round(head.hi + STEP, 6), width.lo),
        mm(max(2.0, 0.5 * head.nominal), head.nominal),
    ))
    face = draw(st.one_of(
        any_of(height.lo, height.mid, height.hi, round(height.hi + STEP, 6)),
        mm(max(0.8, 0.4 * height.nominal), height.nominal),
    ))
    clears = round(width.mid - max(0.0, head.mid - diameter), 6)
    neck = min(round(diameter - 0.4, 6), max(0.8, draw(st.one_of(
        any_of(clears, round(clears - 0.508, 6), round(clears - 0.508 + STEP, 6)),
        mm(1.2, max(1.6, width.nominal)),
    ))))
    reach = draw(st.one_of(mm(deep.hi + 1, deep.hi + 12), mm(face, max(face + STEP, deep.hi)),
                           st.just(round(deep.mid + 0.762, 6))))
    cutter = Cutter(
        number, draw(any_of("keyseat-cutter", "t-slot-cutter")), f"disc {number}",
        diameter_mm=diameter,
        face_mm=face,
        neck_mm=neck,
        neck_fillet_mm=draw(any_of(None, None, None, 0.2)),
        reach_mm=max(reach, face),
        shank_mm=draw(any_of(6.0, 6.35, 12.7)),
        overall_length_mm=draw(any_of(None, 70.0)),
        flutes=8,
        material="hss",
        condition=draw(any_of("sharp", "sharp", "sharp", "used", "chipped")),
        price=draw(any_of(None, 30.0)),
        measured=("diameter_mm",),
    )
    if whole:
        return cutter
    missing = draw(any_of(None, None, None, None, "neck_mm", "face_mm", "reach_mm", "diameter_mm"))
    if missing == "diameter_mm":
        return cutter.but(diameter_mm=None, nominal_mm=diameter, reground=True, measured=())
    return cutter.but(**{missing: None}) if missing else cutter


@st.composite
def cribs(draw: st.DrawFn, request: Request, most: int = 8, whole: bool = False) -> tuple[Cutter, ...]:
    """Up to so many cutters; of a T-slot as many discs as end mills."""
    count = draw(st.integers(1, most))
    cutters: list[Cutter] = []
    for number in range(1, count + 1):
        disc = draw(st.integers(0, 3)) == 0 if request.kind != "t-slot" else number % 2 == 1
        cutters.append(draw(discs(request, number, whole) if disc else end_mills(request, number, whole)))
    return tuple(cutters)


@st.composite
def right_for(draw: st.DrawFn, request: Request, first: int) -> tuple[Cutter, ...]:
    """Cutters with which the feature can be made by anyone."""
    width, deep = width_of(request), request.sizes["depth"].hi
    across = draw(any_of(width.mid, round(round(0.8 * width.mid / STEP) * STEP, 6)))
    mill = Cutter(
        first, "end-mill", f"end mill {first}", diameter_mm=6.0 if request.kind == "step" else across,
        length_of_cut_mm=round(deep + 2.0, 6), shank_mm=6.0, flutes=2, centre_cutting=True, corner_radius_mm=0.0,
        material="hss", condition="sharp", measured=("diameter_mm",),
    )
    if request.kind != "t-slot":
        return (mill,)
    head, height = request.sizes["head_width"], request.sizes["head_height"]
    diameter = draw(any_of(head.lo, head.mid, head.hi))
    disc = Cutter(
        first + 1, draw(any_of("keyseat-cutter", "t-slot-cutter")), f"disc {first + 1}",
        diameter_mm=diameter, face_mm=draw(any_of(height.lo, height.mid, height.hi)),
        neck_mm=round(width.lo - max(0.0, head.mid - diameter) - 0.56, 6), reach_mm=round(deep + 2.0, 6), shank_mm=6.0,
        flutes=8, material="hss", condition="sharp", measured=("diameter_mm",),
    )
    return (mill, disc)


def sizes_of(request: Request) -> dict[str, tuple[float, float, float]]:
    """The limits of each size as raw numbers: least, middle, most [mm]."""
    return {key: (one.lo, one.mid, one.hi) for key, one in request.sizes.items()}


def renumbered(cutters: Sequence[Cutter]) -> tuple[Cutter, ...]:
    """The same cutters numbered from 1."""
    return tuple(cutter.but(id=number) for number, cutter in enumerate(cutters, 1))


@dataclass(frozen=True)
class Brief:
    """A question in a few lines, for whoever reads why a law failed: not written before somebody does."""

    request: Request
    cutters: Sequence[Cutter]
    shop: Shop | None

    def __repr__(self) -> str:
        request, plain, dull = self.request, Shop(), ("label", "count", "hand", "flutes")
        lines = [f"{request.kind} {sizes_of(request)} {request.material} hours {request.hours}"]
        for cutter in self.cutters:
            shape = {key: value for key, value in cutter.as_json().items()
                     if value not in (None, [], "", "unknown", "hss")}
            lines.append(str({key: value for key, value in shape.items() if key not in dull}))
        if self.shop:
            lines.append(str({key: value for key, value in self.shop.as_json().items()
                              if value != plain.as_json()[key]}))
        return "\n".join(lines)

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        printer.text(repr(self))


def brief(request: Request, cutters: Sequence[Cutter] = (), shop: Shop | None = None) -> Brief:
    """What a law was tried on."""
    return Brief(request, cutters, shop)
