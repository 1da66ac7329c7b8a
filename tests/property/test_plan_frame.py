"""What is seen from above goes by where rooms lie, not by what they are called: the same feature elsewhere, under other
names, on its side, in a round bar."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import hypot, sqrt

from hypothesis import Phase, assume, event, given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.base import Feature
from crib.features.closed import with_layers
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.arcs import quarter
from crib.geometry.layers import Layer, Layers, air_beside, laid_over
from crib.geometry.outline import Box, Face, Opening, Outline, Room, Waiver
from crib.geometry.region import FAR, Region, box, trapezoid, union
from crib.geometry.rotate import mapped
from crib.geometry.rounded_box import RoundedBox
from crib.handbook.materials import find_material
from crib.machining.question import Question
from crib.planning.advise import proved_plans
from crib.planning.dialled.finish import Proved
from crib.planning.search.set_ups import asked_of
from crib.setups import SETUPS
from crib.shop import Shop
from crib.units import nm
from tests.closed_strategies import closed_cribs, closed_slots, closed_t_slots
from tests.strategies import any_of, around

SHOP, IRON = Shop(), find_material("grey iron")


def plans_of(feature: Feature, cutters: tuple[Cutter, ...]) -> tuple[Proved, ...]:
    return proved_plans(asked_of(feature, IRON, SHOP, cutters), 2)


def ways(proved: Proved) -> list[tuple[object, ...]]:
    """What each pass does."""
    return [(one.cutter_id, one.role, one.x_mm, one.z_mm, one.entry, one.path_mm) for one in proved.plan.passes]


def moved(feature: Feature, along: int, across: int) -> Feature:
    """The same feature elsewhere."""
    def region(one: Region) -> Region:
        return mapped(one, lambda point: (point[0] + across, point[1]))

    def room(one: Room) -> Room:
        return replace(one, **{name: Box(b.left + across, b.low, b.right + across, b.high)
                               for name in ("least", "aim", "most") if (b := getattr(one, name))})

    def face(one: Face) -> Face:
        keys = ("aim", "least", "most") if one.upright else ("low", "high")
        return replace(one, **{key: getattr(one, key) + across for key in keys})

    def layer(one: Layer) -> Layer:
        shape = one.shape
        return one._replace(shape=RoundedBox(shape.left + along, shape.low + across, shape.right + along,
                                             shape.high + across, shape.radius))

    was, layers = feature.outline, feature.layers
    assert layers is not None
    outline = Outline(region(was.stock), region(was.least), region(was.aim), region(was.most),
                      tuple(map(room, was.rooms)), tuple(map(face, was.faces)),
                      tuple(Waiver(one.name, region(one.region)) for one in was.waivers))
    return replace(feature, outline=outline, layers=replace(
        layers, least=tuple(map(layer, layers.least)), most=tuple(map(layer, layers.most)),
        before=tuple(map(layer, layers.before)),
        kept=None if layers.kept is None else tuple(map(layer, layers.kept)),
        holes=tuple(layer(Layer(0, 0, one)).shape for one in layers.holes),
        ends={name: ends._replace(left=ends.left + along, right=ends.right + along)
              for name, ends in layers.ends.items()}))


def renamed(feature: Feature, say: Callable[[str], str]) -> Feature:
    """The same feature with other names for its rooms."""
    was, layers = feature.outline, feature.layers
    assert layers is not None
    outline = replace(was, rooms=tuple(replace(one, name=say(one.name)) for one in was.rooms),
                      faces=tuple(replace(one, name=say(one.name)) for one in was.faces))
    dimensions = tuple(replace(one, name=say(one.name), faces=tuple(map(say, one.faces)),
                               rooms=tuple(map(say, one.rooms))) for one in feature.dimensions)
    return replace(feature, outline=outline, dimensions=dimensions,
                   calls_for={say(name): calls for name, calls in feature.calls_for.items()},
                   layers=replace(layers, ends={say(name): ends for name, ends in layers.ends.items()}))


@settings(max_examples=8, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_names_and_places_decide_nothing(data: st.DataObject) -> None:
    """Rooms were known by name and lay in the middle; a plan is the same under other names and elsewhere, moved."""
    request = data.draw(st.one_of(closed_slots(), closed_t_slots()))
    cutters = data.draw(closed_cribs(request))[:3]
    try:
        feature = draw(request)
    except CribError:
        event("sizes that can't be together")
        return
    as_drawn = plans_of(feature, cutters)
    event(f"{request.kind}: {'plans' if as_drawn else 'none'}")
    along, across = (step * data.draw(st.integers(-400, 400)) for step in (1000, 25_400))
    other = renamed(moved(feature, along, 0), lambda name: name.replace("throat", "upper").replace("head", "lower"))
    assert [ways(one) for one in plans_of(other, cutters)] == [ways(one) for one in as_drawn]
    elsewhere = plans_of(moved(feature, along, across), cutters)
    assert [best(one) for one in elsewhere[:1]] == [best(one) for one in as_drawn[:1]], "but for nanometres"


def best(proved: Proved) -> tuple[object, ...]:
    return proved.plan.answer, len(proved.plan.passes), round(proved.plan.cost, 4), round(proved.plan.minutes, 4)


SMALL = st.integers(-60, 60).map(lambda n: n * 100_000)


@st.composite
def shapes(draw: st.DrawFn) -> RoundedBox:
    left, right = sorted((draw(SMALL), draw(SMALL)))
    low, high = sorted((draw(SMALL), draw(SMALL)))
    radius = draw(any_of(0, 100_000, 2_000_000))
    assume(radius or (left < right and low < high))
    return RoundedBox(left, low, right, high, radius)


SLACK = 6_000
"""How far a slice may be off the round: the error of the chords, about [nm]."""


def holds(layers: tuple[Layer, ...], x: int, y: int, z: int, spare: float = 0.0) -> bool:
    return any(one.low <= z <= one.high and one.shape.off(x, y) <= spare for one in layers)


@settings(max_examples=200)
@given(shapes(), SMALL, st.integers(1, 40), SMALL, SMALL, st.lists(st.tuples(SMALL, SMALL, SMALL), min_size=1))
def test_what_is_laid_over_holds_the_same_points(shape: RoundedBox, low: int, tall: int, dx: int, dz: int,
                                                 points: list[tuple[int, int, int]]) -> None:
    """Point by point (geometry): what must go comes out nowhere less, what may go nowhere more."""
    layer = Layer(low, low + tall * 100_000, shape)
    laid = laid_over(Layers((layer,), (layer,)), dx, dz)
    for x, y, z in points:
        was, now = (layer,), (x, z + dx, y + dz)
        assert not holds(was, x, y, z) or holds(laid.least, *now)
        assert holds(was, x, y, z) or not holds(laid.most, *now, -1.0)
        assert holds(was, x, y, z, SLACK) or not holds(laid.least, *now, -SLACK) or _is_flat_there(shape, y)


def _is_flat_there(shape: RoundedBox, y: int) -> bool:
    """Where a round runs nearly level, the slice that holds its end is wider than it by more than it is thick."""
    return shape.radius > 0 and max(shape.low - y, y - shape.high) > 0.5 * shape.radius


def test_what_is_seen_from_above_turns_with_the_set_up() -> None:
    """A closed groove on its side: its depth lies across, its width is between two heights, its ends stay."""
    sizes = {"width": around(6.0, 0.1, 0.1), "depth": around(4.0, 0.1, 0.1), "length": around(30.0, 0.2, 0.2)}
    feature = draw(Request("slot", sizes, ends="closed"))
    assert feature.layers is not None
    on_its_side = Question(feature, SHOP, IRON, SETUPS["on its side"])
    layers, (room,) = on_its_side.layers, on_its_side.outline.rooms
    assert layers is not None and room.open == {Opening.RIGHT}
    assert layers.ends == feature.layers.ends and layers.top == on_its_side.outline.stock.bounds()[3]
    (most,) = layers.most
    assert (most.low, most.high) == (room.most.low, room.most.high) == (nm(-3.05), nm(3.05))
    assert most.shape == RoundedBox(nm(-15.1), room.most.left, nm(15.1), room.most.right, 0)


def bar(radius: int) -> Region:
    """A round bar whose crown is at nought: within 2.5 microns of the true round (geometry)."""
    pieces = [trapezoid(-over, -up, -farther, farther, -out, out)
              for (out, up), (farther, over) in zip(quarter(radius), quarter(radius)[1:], strict=False)]
    return union([*pieces, box(-radius, -2 * radius, radius, -radius)])


@given(st.integers(2, 40), st.lists(st.tuples(st.floats(-1, 1), st.floats(0, 1)), min_size=1))
def test_air_beside_a_round_bar_is_outside_of_it(radius_mm: int, places: list[tuple[float, float]]) -> None:
    """Point by point (geometry)."""
    radius = nm(radius_mm)
    air = air_beside(bar(radius), -radius)
    assert all(one.shape.left == -FAR and one.shape.right == FAR for one in air)
    for share, down in places:
        y, z = round(share * 2 * radius), -round(down * radius)
        off = hypot(y, z + radius) - radius
        assert off >= -2_600 or not holds(air, 0, y, z, -1.0)
        assert abs(y) <= radius or holds(air, 0, y, z)


def key_seat(width: float, depth: float, length: float, radius: float) -> Feature:
    """A slot along a round bar, of which nothing but its rooms is told."""
    sizes = {"width": around(width, 0.05, 0.05), "depth": around(depth, 0.1, 0.1), "length": around(length, 0.2, 0.2)}
    flat = draw(Request("slot", sizes, "grey iron", ends="closed"))
    stock, was = bar(nm(radius)), flat.outline
    shoulder = -nm(radius - sqrt(radius**2 - (width / 2 + 0.025) ** 2)) - 5_000
    outline = replace(was, stock=stock, least=was.least & stock, aim=was.aim & stock, most=was.most & stock,
                      faces=tuple(replace(one, high=shoulder) if one.upright else one for one in was.faces))
    return with_layers(replace(flat, outline=outline, layers=None))


@settings(max_examples=12, phases=[Phase.explicit, Phase.generate])
@given(st.integers(4, 10), st.integers(2, 4), st.integers(2, 6), st.integers(0, 3))
def test_a_slot_along_a_round_bar_is_planned_and_proved(width: int, depth: int, longer: int, stout: int) -> None:
    """Nothing in the planner knows of bars: closed ends are found by what is metal in the section."""
    radius, length = width + depth + stout, width + 4.0 * longer
    assume(radius**2 > (width / 2 + 1) ** 2)
    mill = Cutter(1, "end-mill", "mill", diameter_mm=float(width), corner_radius_mm=0.0, length_of_cut_mm=depth + 8.0,
                  shank_mm=float(width), flutes=2, centre_cutting=True, material="hss", condition="sharp",
                  measured=("diameter_mm",))
    feature = key_seat(float(width), float(depth), length, float(radius))
    assert feature.layers is not None and len(feature.layers.before) > 4
    (proved, *_) = plans_of(feature, (mill,))
    assert proved.trace.holds and proved.trace.plan is not None
    assert proved.plan.proof.left_mm == proved.plan.proof.gouge_mm == 0.0
    stops = [stop for one in proved.plan.passes for stop in (one.from_mm, one.to_mm) if stop is not None]
    assert abs(max(stops) - min(stops) + width - length) < 0.2
