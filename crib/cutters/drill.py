"""Drills: a point and a body, down their own axis."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.gauged import IN, Candidate, Gauging, Measured, fine, outside
from crib.cutters.proposals import Need, Wanted, new
from crib.cutters.shapes import cone, cylinder
from crib.cutters.speech import Name, Order, Speech
from crib.findings.finding import Finding
from crib.findings.message import said
from crib.geometry.silhouette import Silhouette
from crib.handbook.points import point_length
from crib.light.hints import TYPE_CHECKING

if TYPE_CHECKING:
    from crib.handbook.drill_lengths import Flutes

_SIGNS = r"jobbers?|split|taper length|screw[ -]machine|letter [a-z]|reduced|turned[ -]down"
POINT_DEG = 118.0
MOST = 4
"""So many sizes are proposed."""

_OWN = 2
"""So many of them at the least are of the shop's own series, where there are any."""

_WELL_IN = 0.8
"""A hole is well inside its limits this much of the way from their middle [-]. Common practice, no source."""

_WORN_MM, _OVER_MM, _UNDECIDED_MM = 0.0030 * IN, 0.0010 * IN, 0.0010 * IN
"""How far under its size a worn drill measures over its margins, how far over it calipers read, and what they can't
tell apart [mm]. Common practice, no source."""

_STICK_OUT, _HALF_INCH = 25.4, 12.7


_EXTRA_MM = 50.0
"""A drill that is longer than the longest series of its size by more than this is an extra length one [mm]: how far its
flutes go has to be seen. From memory."""


def _fill(cutter: Cutter) -> Cutter:
    """A common point and a jobber's flutes for what wasn't stated."""
    size = cutter.diameter_mm or cutter.nominal_mm or 0.0
    cut = flutes_of(cutter).usual if size else 0.0
    given = {"angle_deg": POINT_DEG, "length_of_cut_mm": cut, "shank_mm": size, "flutes": 2}
    typical = {key: value for key, value in given.items() if getattr(cutter, key) is None and value}
    return cutter.but(**typical, assumed=tuple(dict.fromkeys((*cutter.assumed, *typical))))


def flutes_of(cutter: Cutter) -> Flutes:
    """The shortest, usual and longest flutes that a drill whose flutes aren't on record may have [mm]: by what its note
    says of it, of one with a reduced shank what those have; never so long as the whole drill, and of one that is
    longer than any series what that may have."""
    from crib.handbook.drill_lengths import REDUCED_MM, Flutes, said_of

    size = cutter.diameter_mm or cutter.nominal_mm or 0.0
    found = said_of(size, f"{cutter.note or ''} {cutter.marking or ''}")
    if cutter.shank_mm is not None and cutter.shank_mm < size - 0.5 and size > _HALF_INCH:
        found = Flutes(*(REDUCED_MM,) * 3)
    most = (cutter.overall_length_mm or float("inf")) - min(_STICK_OUT, 0.35 * (cutter.overall_length_mm or 0.0))
    if _EXTRA_MM + found.longest < most < float("inf"):
        found = found._replace(longest=most)
    return Flutes(*(min(length, most) for length in found))


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The point as a cone, the body, and the shank over the flutes; a reduced shank is thinner than the body."""
    size, cut = cutter.diameter_mm or 0.0, cutter.length_of_cut_mm or 0.0
    point = point_length(size, cutter.angle_deg or POINT_DEG)
    body = max(cut, point + 1.0)
    teeth = (*cone("point", 0.0, point, 0.0, size), cylinder("body", point, body, size))
    top = max(cutter.overall_length_mm or 0.0, body + _STICK_OUT)
    return Silhouette(teeth, teeth, (cylinder("shank", body, top, cutter.shank_mm or size),))


def _check(cutter: Cutter) -> tuple[Finding, ...]:
    from crib.cutters.checks import no_longer

    return no_longer(cutter, "length_of_cut_mm", "overall_length_mm", "the flutes", "the overall length")


def _fits(measured: Measured) -> Iterator[Candidate]:
    """Every drill that is made, by all its names: a drill wears under its size and is never over it; two within .001 in
    can't be told apart with calipers."""
    if measured.diameter_mm is None:
        return
    from crib.handbook.drill_sizes import drill_names

    named = drill_names()
    near = [(mm, name) for mm, name in named if not outside(measured.diameter_mm - mm, -_WORN_MM, _OVER_MM)]
    for mm, name in near or named:
        off = measured.diameter_mm - mm
        same = [other for size, other in near if other != name and abs(size - mm) < 1e-6]
        rivals = [other for size, other in near if 1e-6 <= abs(size - mm) <= _UNDECIDED_MM + 1e-9]
        twin = f"; the same size as {' and '.join(same)}" if same else ""
        worn = "; worn at the margins: mic it at the corners" if off < -_UNDECIDED_MM - 1e-9 else ""
        doubt = f"; not to be told from {' or '.join(rivals)} with calipers: mic it over the margins" if rivals else ""
        why = said("made {size}{twin}{worn}{doubt}", size=fine(mm), twin=twin, worn=worn, doubt=doubt)
        yield Candidate("drill", f"{name} drill", off, why, beyond=outside(off, -_WORN_MM, _OVER_MM))


def _proposes(need: Need) -> Iterator[Wanted]:
    """The drills whose holes are expected inside the limits, those nearest the middle and the nearest of the shop's own
    series; its own first unless they come out near a limit. An inch shop buys the 9/32, not a 7 mm."""
    if need.limits is None:
        return
    from crib.handbook.drill_sizes import made_between

    low, high = need.limits
    middle, well_in = (low + high) / 2, _WELL_IN * (high - low) / 2
    made: dict[float, bool] = {}
    for mm, name in made_between(low - 0.5, high):
        made[mm] = made.get(mm, False) or name.endswith("mm") == need.metric
    holes = ((mm, need.drilled(mm), is_own) for mm, is_own in made.items())
    near = sorted((not (is_own and abs(hole - middle) <= well_in), abs(hole - middle), mm)
                  for mm, hole, is_own in holes if low - 1e-6 <= hole <= high + 1e-6)
    nearest = {mm for _, _, mm in (*sorted(near, key=lambda one: one[1:])[:MOST], *near[:_OWN])}
    yield from (jobber(mm) for _, _, mm in near if mm in nearest)


def jobber(mm: float) -> Wanted:
    """A drill as it is sold, its flutes by the table of its size."""
    from crib.handbook.drill_lengths import flutes

    cut = float(flutes(mm).usual)
    return Wanted(new("drill", diameter_mm=mm, shank_mm=mm, length_of_cut_mm=cut, angle_deg=118.0, flutes=2),
                  "drill sizes")


KIND = Kind(
    name="drill",
    words="drill",
    plural="drills",
    on_axis=_on_axis,
    fill=_fill,
    check=_check,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.DRILLING}),
    in_chuck=True,
    keeps_size=True,
    gauging=Gauging("diameter_mm", _fits),
    proposes=_proposes,
    speech=Speech(
        names=(
            Name(r"(?:silver (?:and |& ?)?deming|s ?& ?d|s and d)(?: (?:drills?|bits?))?", "silver and deming",
                 {"shank_mm": 12.7}),
            Name(r"drills?|drill bits?"),
        ),
        short=("bit",),
        heard={"dril": "drill", "drl": "drill", "drils": "drills"},
        common=True,
        order=Order.NUMBER,
        small=True,
        tells={"ground flat": {"angle_deg": 180.0}},
        signs=lambda line: line.has(_SIGNS) or (line.has(r"(?:#\s?\d+)") and line.has("stub|cobalt|hss")
        and "flutes" not in line.values),
    ),
    example=Cutter(0, "drill", diameter_mm=5.1054, angle_deg=118.0),
)
