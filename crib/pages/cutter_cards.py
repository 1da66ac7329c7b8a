"""The cutters of a plan as they are got out: where each lies, what holds it, and which of its sizes to check before it
goes in, with a picture that shows them."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import goes_down
from crib.cutters.base import Clearances, Cutter, Down
from crib.cutters.known import how_known
from crib.findings.message import Deg, Measure, Text, said
from crib.geometry.silhouette import Silhouette
from crib.machining.tool import Tool
from crib.pages.remarks import label_of, place
from crib.pages.scene import Body, CutterScene, DimensionLine, body_of
from crib.pages.tasks import CutterCard, Reads
from crib.planning.dialled.finish import Proved
from crib.units import nm

_SIZES = {"diameter_mm": "diameter", "face_mm": "face", "neck_mm": "neck", "reach_mm": "reach",
          "corner_radius_mm": "corner radius", "pilot_mm": "pilot", "tip_mm": "flat at the tip"}
"""What of a cutter is checked, in the order in which it is taken in hand."""

_TOOLS = {"reach_mm": "caliper's rod", "corner_radius_mm": "radius gauge"}
_MICROMETER = "micrometer"


def cards(proved: Proved) -> Iterator[CutterCard]:
    """A card for each cutter of a plan, in the order in which they are put in."""
    tools = {tool.id: tool for tool in proved.draft.tools}
    for tool in tools.values():
        cutter = tool.owned
        yield CutterCard(cutter.id, label_of(cutter), place(cutter), tool.held.label, tuple(_checks(cutter)),
                         tuple(_notes(cutter)), _scene(tool))


def _checks(cutter: Cutter) -> Iterator[Reads]:
    """The sizes that are known, and how."""
    for key, what in _SIZES.items():
        value = getattr(cutter, key)
        if value:
            how = how_known(cutter, key) or "stated"
            yield Reads(what, _TOOLS.get(key, _MICROMETER), Measure(value), "" if how == "measured" else
                        f"{how}, not measured")
    if cutter.length_of_cut_mm and any(goes_down(cutter, what) for what in (Down.GROOVING, Down.TREPANNING)):
        yield Reads("how far the tooth stands out", "caliper", Measure(cutter.length_of_cut_mm))
    if cutter.angle_deg:
        yield Reads("angle", "protractor", said("{angle}°", angle=Deg(cutter.angle_deg)))
    if cutter.thread:
        yield Reads("thread", "thread gauge", cutter.thread)


def _notes(cutter: Cutter) -> Iterator[Text]:
    """What is on record of it besides."""
    if cutter.condition not in ("unknown", "sharp"):
        yield f"on record as {cutter.condition}"
    if cutter.marking:
        yield f"marked {cutter.marking}"
    if cutter.note:
        yield cutter.note


def _scene(tool: Tool) -> CutterScene:
    """The cutter from the side, of its own sizes, with those that show there."""
    draw = tool.kind.on_axis or tool.kind.form
    form = draw(tool.cutter, Clearances()) if draw else tool.form
    own = tuple(part for part in form.clear if body_of(part) != Body.HOLDER)
    return CutterScene(Silhouette(form.sure, form.may, own), tuple(_dimensions(tool.cutter, form)))


def _dimensions(cutter: Cutter, form: Silhouette) -> Iterator[DimensionLine]:
    """Diameter and neck across, face and reach from the lower end up; what the form doesn't show is left out."""
    if cutter.diameter_mm and abs(2 * form.radius - nm(cutter.diameter_mm)) <= 2:
        yield DimensionLine("", True, -form.radius, form.radius)
    if cutter.neck_mm:
        yield DimensionLine("neck", True, -nm(cutter.neck_mm / 2), nm(cutter.neck_mm / 2))
    for key in ("face_mm", "reach_mm"):
        if (size := getattr(cutter, key)) and cutter.neck_mm:
            yield DimensionLine(_SIZES[key], False, 0, nm(size))
