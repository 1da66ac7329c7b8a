"""What to draw of a proved plan from above: the cutter at the end stop of the pass that is tightest."""

from __future__ import annotations

from collections.abc import Iterator

from crib.geometry.faces import FINE
from crib.geometry.plan_view import Cleared, Near, Sweep, nearest
from crib.geometry.rounded_box import RoundedBox, clearance, nearest_edge
from crib.geometry.silhouette import Part
from crib.pages.passes import dialled
from crib.pages.picture import tight_words
from crib.pages.scene import FromAbove, Label
from crib.pages.text import exact
from crib.planning.advice import Pass, TightSpot
from crib.planning.closed.proved import Above, from_above
from crib.planning.finish import Proved
from crib.units import nm


def seen_from_above(proved: Proved, units: str) -> FromAbove | None:
    """The scene from above; None where no end is closed, or where there is only one wall."""
    above, rooms = from_above(proved.draft), proved.draft.question.outline.rooms
    if above is None or any("right" in room.open for room in rooms):
        return None
    number = _deciding(proved, above)
    sweep, one = above.sweeps[number], proved.plan.passes[number]
    before = Cleared.of(above.layers, above.sweeps[: number + 1])
    place, near = _end_stop(before, sweep, above)
    finished = Cleared.of(above.layers, above.sweeps)
    opening, under = _clear(finished, -1, above), _clear(finished, sweep.z, above)
    spot = _spot(before, near, sweep.path[place]) if near else None
    drawn = proved.draft.question.feature.request.sizes.get("entry_hole")
    hole = nm(drawn.lo / 2) if drawn else 0
    labels = _labels(above, opening, under, [room.name for room in rooms], hole, units)
    return FromAbove(
        opening=opening, under=under, teeth=sweep.form.radius, body=_body(sweep, near), x_nm=sweep.path[place][0],
        y_nm=sweep.path[place][1], zero=above.zero, heading=_heading(one, place, units), spot=spot,
        spot_text=_words(near, units) if near and spot else "", labels=tuple(labels), hole=hole, is_open=above.is_open,
    )


def ends(shapes: frozenset[RoundedBox]) -> tuple[int, int]:
    """From where to where some shapes run.

    >>> ends(frozenset({Grown(0, 0, 9, 0, 3)}))
    (-3, 12)
    """
    return min(one.left - one.radius for one in shapes), max(one.right + one.radius for one in shapes)


def _deciding(proved: Proved, above: Above) -> int:
    """The pass to look at: the one that the plan tells as the tightest, else the tightest from above, else the last."""
    tight = proved.plan.proof.tight
    if tight and (tight.view == "plan" or proved.decides):
        return tight.pass_no - 1
    return proved.above.tight.step if proved.above and proved.above.tight else len(above.sweeps) - 1


def _end_stop(cleared: Cleared, sweep: Sweep, above: Above) -> tuple[int, Near | None]:
    """Which of the corners at the stops of a pass is the tightest, the farthest of those alike, and what is near. Of
    two at the one closed end it is the one where the pass cuts on its way out."""
    zero, later = above.zero, -1 if above.is_open else 1
    stops = {max(x for x, _ in sweep.path)} | ({min(x for x, _ in sweep.path)} - {x for x, _ in sweep.path if x < zero})
    found: list[tuple[int, int, Near | None]] = []
    for place, corner in enumerate(sweep.path):
        if corner[0] in stops:
            nears = nearest(cleared, sweep._replace(path=(corner,)))
            near = min(nears, key=lambda one: one.gap, default=None)
            found.append((near.gap // FINE if near else 0, place, near))
    _, place, near = min(found, key=lambda one: (one[0], -sweep.path[one[1]][0], later * one[1]))
    return place, near


def _clear(cleared: Cleared, z: int, above: Above) -> frozenset[RoundedBox]:
    """What is clear in the work just over a height."""
    shapes = cleared.slabs(z, z + 1)[0].clear[0]
    return frozenset(one for one in shapes if one.right + one.radius > above.zero) if above.is_open else shapes


def _spot(cleared: Cleared, near: Near, at: tuple[int, int]) -> tuple[int, int] | None:
    """Where the metal stands that a part is nearest to."""
    axis = RoundedBox(*at, *at, 0)
    shapes = min(cleared.slabs(near.z - 1, near.z)[-1].clear, key=lambda clear: clearance(axis, clear))
    edge = nearest_edge(*at, shapes)
    return (round(edge[0]), round(edge[1])) if edge else None


def _body(sweep: Sweep, near: Near | None) -> Part | None:
    """What stands over the teeth: what is tightest, else the lowest that is down in the work."""
    if near:
        return near.part
    return min((part for part in sweep.form.clear if sweep.z + part.low < 0), key=lambda part: part.low, default=None)


def _words(near: Near, units: str) -> str:
    return tight_words(TightSpot(0, near.part.name, near.y / 1e6, near.z / 1e6, near.gap / 1e6, "plan"), units)


def _heading(one: Pass, place: int, units: str) -> str:
    """Where the cutter stands, as it is dialled."""
    along, across = one.dial_path_mm[place] if one.dial_path_mm else (one.stop_mm or 0.0, one.dial_x_mm)
    return (f"pass {one.no}: stop at table {dialled(along, units).strip()}, "
            f"cross {dialled(across, units, sign=True).strip()}")


def _labels(
    above: Above, opening: frozenset[RoundedBox], under: frozenset[RoundedBox], names: list[str], hole: int, units: str
) -> Iterator[Label]:
    """How long the feature is, how far the room under its lip runs, and how wide its entry hole is."""
    if hole:
        yield Label(f"entry hole {exact(2 * hole / 1e6, units)}", True, -hole, hole)
    for name, shapes in (("length", opening), (names[-1], under)):
        if name == "length" or (len(names) > 1 and shapes != opening):
            left, right = ends(shapes)
            left = max(left, above.zero) if above.is_open else left
            yield Label(f"{name} {exact((right - left) / 1e6, units)}", True, left, right)
