"""A plan down an axis while it is being made: strokes in order, before it is proved and put into words."""

from __future__ import annotations

from dataclasses import dataclass

from crib.features.base import Feature
from crib.findings.finding import Deviation, Figure, Finding
from crib.findings.message import Text
from crib.geometry.outline import Outline
from crib.handbook.materials import Material
from crib.holders.heads import Head
from crib.machining.tool import Tool
from crib.shop import Shop
from crib.units import nm


@dataclass(frozen=True)
class Question:
    """What is asked, in which shop and metal, with which boring heads."""

    feature: Feature
    shop: Shop
    material: Material
    assumed: tuple[Text, ...] = ()
    heads: tuple[Head, ...] = ()


@dataclass(frozen=True)
class Stroke:
    """One cutter coming down to z [mm, negative downwards]. `on`: another section that it is proved in, the gib's say;
    `turns`: for a tap, how often it turns; `diameter_mm` and `radial_mm`: of a cut that a boring head is set out for,
    to what diameter and by how much a side; `is_measured`: whether what it makes is measured after it."""

    tool: Tool
    role: str
    room: str
    z_mm: float
    says: Text
    on: Outline | None = None
    turns: float = 0.0
    diameter_mm: float | None = None
    radial_mm: float = 0.0
    is_measured: bool = True

    def dialled(self, readout_mm: float) -> float:
        """Its depth as it is set: on a whole step of the readout, the deeper one [mm]."""
        return nm(self.z_mm) // nm(readout_mm) * readout_mm


@dataclass(frozen=True)
class Draft:
    """Strokes in order, made `number` times over, with the verdict that they earn if the proof holds. `score`: what
    decides where the money is the same, the lowest first. `filed_mm2`: what is left to the file, of each."""

    question: Question
    answer: str
    way: str
    strokes: tuple[Stroke, ...]
    warnings: tuple[Finding, ...] = ()
    deviations: tuple[Deviation, ...] = ()
    figures: tuple[Figure, ...] = ()
    assumed: tuple[Text, ...] = ()
    number: int = 1
    setup: str = "upright"
    tilted: bool = False
    filed_mm2: float = 0.0
    score: float = 0.0

    @property
    def tools(self) -> tuple[Tool, ...]:
        """The tools in the order in which they are put up; one twice where it comes back."""
        tools: list[Tool] = []
        for stroke in self.strokes:
            if not tools or tools[-1].id != stroke.tool.id:
                tools.append(stroke.tool)
        return tuple(tools)
