"""What leans, from raw numbers only, for the brute-force grid: dovetails, slides, chamfers, V-grooves, and the cutters
that make them. Nothing here looks at the program's outlines, silhouettes or regions.

A cell in an acute corner is in or out by its centre, so that a corner loses up to a cell and a half: between grid and
proof `CLOSE`, three cells, is allowed where edges lean.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tests.oracle import AWAY, CELL, STICK_OUT, Clear, Leaning, Limits, Raw, Sketch

CLOSE = 3 * CELL
"""How far grid and proof may differ where edges lean [mm]."""

_POINTED = ("chamfer-cutter", "countersink", "spot-drill")


@dataclass(frozen=True)
class Slanted(Raw):
    """A cutter whose edge leans. `angle` [deg]: of a dovetail cutter from its lower face, of a pointed one between its
    edges; `tip`: across a pointed one's end [mm]."""

    angle: float = 60.0
    tip: float = 0.0
    pointed: bool = False

    def radii(self, up: NDArray[np.float64]) -> NDArray[np.float64]:
        """A cone from the tip up; or from the widest up, its corner rounded with a true arc."""
        if self.pointed:
            return self.tip / 2 + up * tan(radians(self.angle) / 2)
        half, r = self.diameter / 2, self.corner
        if not r:
            return half - up / tan(radians(self.angle))
        sharp = half - r + r / tan(radians(self.angle) / 2)
        arc = half - r + np.sqrt(np.clip(r**2 - (r - up) ** 2, 0.0, None))
        touches = r * (1 + np.cos(radians(self.angle)))
        return np.where(up < touches, arc, sharp - up / tan(radians(self.angle)))

    def stem(self, clear: Clear) -> list[tuple[str, float, float, float, float, float]]:
        """A pointed one's shank begins where its cone ends; the rest is as with any disc."""
        if not self.pointed:
            return super().stem(clear)
        end = clear.end if self.shank > self.diameter else 0.0
        return [("shank", self.tall, self.tall + STICK_OUT, self.shank / 2, 0.0, end)]


def raw_of(cutter: dict[str, Any]) -> Raw:
    """From a cutter as other programs read it."""
    kind, size, tip = cutter["kind"], cutter["diameter_mm"], cutter["tip_mm"] or 0.0
    if kind == "dovetail-cutter":
        plain = Raw.of(cutter)
        return Slanted(plain.diameter, plain.tall, plain.neck, plain.reach, plain.shank, plain.overall, plain.fillet,
                       plain.corner, True, angle=cutter["angle_deg"])
    if kind in _POINTED:
        tall = (size - tip) / 2 / tan(radians(cutter["angle_deg"]) / 2)
        return Slanted(size, tall, None, None, cutter["shank_mm"] or size, angle=cutter["angle_deg"], tip=tip,
                       pointed=True)
    return Raw.of(cutter)


def slanted_sketch(kind: str, sizes: dict[str, Limits], angle: float) -> Sketch:
    """Draw what leans from its sizes: a dovetail's width counts at the floor that is aimed at, a slide's at the
    shoulders that are aimed at, a chamfer's leg down its wall, a groove's width at the surface."""
    flat = ((-AWAY, -AWAY, AWAY, 0.0),)
    if kind == "dovetail":
        run = 1 / tan(radians(angle))
        return Sketch((_slot(sizes, run, 0),), (_slot(sizes, run, 2),), flat)
    if kind == "dovetail-slide":
        run = 1 / tan(radians(angle))
        edge = sizes["width"][1] / 2 + sizes["height"][1] * run + sizes["shoulder"][1]
        return Sketch(_sides(sizes, run, edge, 0, 2), _sides(sizes, run, edge, 2, 0), ((-edge, -AWAY, edge, 0.0),))
    if kind == "chamfer":
        least, most = ((-leg, 0.0, 0.0, 0.0, -leg * tan(radians(angle)), 0.0)
                       for leg in (sizes["size"][0], sizes["size"][2]))
        return Sketch((least,), (most,), ((-AWAY, -AWAY, 0.0, 0.0),))
    spread = tan(radians(angle) / 2)
    least, most = ((-width / 2 / spread, 0.0, 0.0, 0.0, -width / 2, width / 2)
                   for width in (sizes["width"][0], sizes["width"][2]))
    return Sketch((least,), (most,), flat)


def _slot(sizes: dict[str, Limits], run: float, i: int) -> Leaning:
    half, deep, aimed = sizes["width"][i] / 2, sizes["depth"][i], sizes["depth"][1]
    floor, mouth = half + (deep - aimed) * run, half - aimed * run
    return (-deep, 0.0, -floor, floor, -mouth, mouth)


def _sides(sizes: dict[str, Limits], run: float, edge: float, i: int, root: int) -> tuple[Leaning, Leaning]:
    half, deep, aimed = sizes["width"][root] / 2, sizes["height"][i], sizes["height"][1]
    foot, top = half - (deep - aimed) * run, half + aimed * run
    return (-deep, 0.0, foot, edge, top, edge), (-deep, 0.0, -edge, -foot, -edge, -top)
