"""What goes off its axis to one side alone, drawn so: the section is worked out about the axis, as if all round."""

from __future__ import annotations

from crib.geometry.region import FAR, box
from crib.geometry.silhouette import Part, Silhouette
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.tool import Tool
from crib.pages.scene import DimensionLine, Scene

_ONE_SIDE = box(0, -FAR, FAR, FAR)


def one_sided(scene: Scene, draft: Draft, tool: Tool) -> Scene:
    """The scene with what goes, and the tool, on the right-hand side; as it is where it goes all round."""
    if not draft.question.feature.one_side:
        return scene
    form, x = _as_it_stands(scene.form, tool)
    return replace(scene, finished=scene.finished & _ONE_SIDE, taken=scene.taken & _ONE_SIDE, form=form, x_nm=x,
                   tight=None, dimensions=tuple(_sizes(scene, draft)))


def _as_it_stands(form: Silhouette, tool: Tool) -> tuple[Silhouette, int]:
    """The tool about its own axis, and where that stands: its point out to where the form is widest. One without a bar
    fills the bore from its middle."""
    to = form.radius
    behind = next((part.radius_low for part in form.clear), 0)
    bar = round((tool.cutter.diameter_mm or 0.0) * 5e5) if form.clear else 0
    point = bar + to - behind if form.clear else to // 2

    def as_wide(part: Part, radius: int) -> Part:
        return part._replace(radius_low=radius, radius_high=radius)

    sure = tuple(as_wide(part, point) for part in form.sure)
    return Silhouette(sure, sure, tuple(as_wide(part, bar) for part in form.clear)), to - point


def _sizes(scene: Scene, draft: Draft) -> list[DimensionLine]:
    """From the far wall of the bore to the floor, as it is measured, and how long the bore is."""
    if not scene.dimensions:
        return []
    aim = draft.question.outline.rooms[0].aim
    wall = min(right for left, right in draft.question.outline.stock.spans_at(aim.low + 1))
    return [DimensionLine("far wall to floor", True, wall, aim.right), DimensionLine("hub", False, aim.low, aim.high)]
