"""The stock to saw for a part: what is left on for sawing, squaring and holding, what it weighs, and the order in which
it is squared."""

from __future__ import annotations

from typing import Any

from crib.findings.errors import CribError
from crib.findings.message import ByUnits, Mm, Text, said
from crib.handbook.densities import KG_OF_LB, density
from crib.handbook.materials import find_material
from crib.light.records import dataclass
from crib.parts.part import Part
from crib.shop import Shop

_UPRIGHT = 2.0
"""Work up to so many times as long as it is wide stands on end in the vise. Common practice, no source."""


@dataclass(frozen=True)
class Blank:
    """What to saw [mm], a bar where it has a diameter; what is left on over the length, over width and height, and to
    hold by; what it weighs [kg], None where its material isn't known; the steps that square it."""

    length: float
    width: float
    height: float
    diameter: float | None
    for_sawing: float
    for_squaring: float
    for_holding: float
    weight_kg: float | None
    squaring: tuple[Text, ...]

    @property
    def says(self) -> Text:
        """What to saw, in a sentence."""
        size = said("{length} of {diameter} round", length=Mm(self.length), diameter=Mm(self.diameter)) if (
            self.diameter is not None) else said("{length} x {width} x {height}", length=Mm(self.length),
                                                 width=Mm(self.width), height=Mm(self.height))
        return said("{size}{held}{weight}", size=size, held=_held(self.for_holding), weight=_weight(self.weight_kg))

    def as_json(self) -> dict[str, Any]:
        """The contract's `blank`."""
        sizes = {"length_mm": self.length, "width_mm": self.width, "height_mm": self.height,
                 "diameter_mm": self.diameter, "for_sawing_mm": self.for_sawing, "for_squaring_mm": self.for_squaring,
                 "for_holding_mm": self.for_holding}
        return {**{key: mm for key, mm in sizes.items() if mm is not None}, "weight_kg": self.weight_kg,
                "squaring": list(self.squaring)}


def blank_of(part: Part, shop: Shop, hold: bool = False) -> Blank:
    """What to saw for a part. `hold`: whether it must be held by metal that is no part of it, as where a cut takes off
    what it is held by. Allowances are the shop's."""
    stock = part.stock
    for_holding = shop.hold_allowance_mm if hold else 0.0
    length = stock.length + shop.saw_allowance_mm + for_holding
    bar = stock.diameter is not None
    side = 0.0 if bar else shop.square_allowance_mm
    width, height = stock.width + side, stock.height + side
    return Blank(round(length, 6), round(width, 6), round(height, 6), stock.diameter, shop.saw_allowance_mm, side,
                 for_holding, _weighs(part, length, width, height), _ends_of_bar() if bar else _squaring(part))


def _weighs(part: Part, length: float, width: float, height: float) -> float | None:
    try:
        grams = density(find_material(part.material)) if part.material else None
    except CribError:
        return None
    if grams is None:
        return None
    area = 3.141592653589793 / 4 * width * height if part.stock.diameter is not None else width * height
    return round(length * area / 1e6 * grams, 3)


def _held(mm: float) -> Text:
    return said(", {mm} of it to hold by", mm=Mm(mm)) if mm else ""


def _weight(kg: float | None) -> Text:
    return said(", {weight}", weight=ByUnits(f"{kg / KG_OF_LB:.3g} lb", f"{kg:.3g} kg")) if kg is not None else ""


def _ends_of_bar() -> tuple[Text, ...]:
    return ("face one end, the bar in a vee block or a collet block", "turn it end for end, mark the length and face "
            "the other end to it")


def _squaring(part: Part) -> tuple[Text, ...]:
    """Six sides, the usual way: each new face goes by one that is flat already. Common practice."""
    stock = part.stock
    longest = max(stock.length, stock.width, stock.height)
    across = sorted((stock.length, stock.width, stock.height))[1]
    upright = longest <= _UPRIGHT * across
    thick, wide = sorted((stock.width, stock.height))
    ends: tuple[Text, ...] = (
        ("an end up, a square from the vise's bed against the second face, clean it up",
         said("that end down, the other to the length {length}", length=Mm(stock.length))) if upright else
        ("the ends with the side of an end mill, the work lying with one out of the jaws: clean up the first",
         said("the other end to the length {length}, without letting go of the face that is in the fixed jaw",
              length=Mm(stock.length))))
    return (
        "the largest face up, on parallels: clean it up",
        "that face to the fixed jaw, a round rod at the moving jaw: the next face, square to it",
        said("the first face to the fixed jaw, the second down on parallels, knocked down, the rod again: the third to "
             "{wide}", wide=Mm(wide)),
        said("the first face down on parallels, the second to the fixed jaw, no rod now: the fourth to {thick}",
             thick=Mm(thick)),
        *ends,
    )
