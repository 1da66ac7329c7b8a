"""What a gib's screws want beside their thread: a land for the jam nut, a dimple in the gib."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.features.down import GibScrews
from crib.features.rounds import rod
from crib.geometry.outline import Outline
from crib.geometry.region import FAR, box
from crib.handbook.points import keep_below, point_length
from crib.machining.methods.cuts import Job
from crib.machining.methods.down_the_axis.strokes import held, stroke
from crib.machining.question import Question
from crib.machining.words import MAKES, Role
from crib.units import Size, nm

_LARGEST_DIMPLE_MM = 25.4 / 16
_LAND_OVER, _CORNER_MM = 1.4, 0.5
"""How much wider than it must be a land may be [-], and the corner that it may have [mm]. Common practice."""


def landed(question: Question, cutters: Sequence[Cutter], gib: GibScrews, made: Sequence[Job]) -> tuple[Job, ...]:
    """The strokes with the land's among them: before the hole with an end mill, after it with a counterbore, whose
    pilot wants the hole; the same where no cutter is for it, and it is filed."""
    across = [job.tool.form.radius / 5e5 for job in made if job.cuts[0].role in MAKES]
    land = next(_lands(question, cutters, gib, across[-1] if across else 0.0), None)
    if land is None:
        return tuple(made)
    return (*made, land) if goes_down(land.tool.cutter, Down.COUNTERBORING) else (land, *made)


def _lands(question: Question, cutters: Sequence[Cutter], gib: GibScrews, hole_mm: float) -> Iterator[Job]:
    """Cutters for the land, the smallest that is wide enough first: end mills that plunge, counterbores whose pilot
    goes into the drilled hole."""
    wide = [c for c in cutters if c.diameter_mm is not None and gib.land_mm <= c.diameter_mm <=
            _LAND_OVER * gib.land_mm]
    for cutter in sorted(wide, key=lambda c: (c.diameter_mm or 0.0, c.id)):
        plunges = goes_down(cutter, Down.MILLING) and cutter.centre_cutting and (
            cutter.corner_radius_mm or 0.0) <= _CORNER_MM
        follows = goes_down(cutter, Down.COUNTERBORING) and not gib.is_sloped and (cutter.pilot_mm or 0.0) <= hole_mm
        found = held(question, cutter, Down.COUNTERBORING, cutter.diameter_mm or 0.0) if plunges or follows else None
        if found:
            yield stroke(found, Role.LAND, "land", -gib.land_deep_mm, "clean up a land for the nut, square to the "
                         "hole; lock X and Y")


def dimpled(gib: GibScrews, hole: Sequence[Job]) -> Iterator[Job]:
    """The dimple in the gib, drilled through the hole with its drill, to its full cone or 1/16 at the most; before the
    mouth is opened and the hole is tapped. None where the gib isn't known or is too thin."""
    drill = next((job.tool for job in reversed(hole) if goes_down(job.tool.cutter, Down.DRILLING)), None)
    if gib.gib is None or drill is None or (deep := _dimple(drill.cutter, gib.gib)) <= 0:
        return
    wall = gib.wall_mm
    stock = box(-FAR, -nm(wall + gib.gib.mid), FAR, -nm(wall))
    most = rod(drill.form.radius / 5e5, wall + deep + 0.05)
    yield stroke(drill, Role.TRANSFER, "gib", -(wall + deep), "gib clamped with its shim: dimple it through the hole, "
                 "number it, mark its end", on=Outline(stock=stock, least=rod(0.1, 0.0), aim=most, most=most, rooms=()))


def _dimple(drill: Cutter, gib: Size) -> float:
    size = drill.diameter_mm or 0.0
    return min(point_length(size, drill.angle_deg or 118.0), _LARGEST_DIMPLE_MM, gib.mid - keep_below(size))
