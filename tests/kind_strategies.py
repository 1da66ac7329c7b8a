"""Questions and cutters made up from what is registered: every kind of feature by its example and what is near it,
every kind of cutter by its own, in sizes that may suit the feature. A new kind is in them without another line."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume
from hypothesis import strategies as st

from crib.buying.candidates import candidates
from crib.cutters import KINDS
from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.cutters.checks import impossible
from crib.features import KINDS as FEATURES
from crib.features import draw as draw_feature
from crib.features.base import Feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.planning.ask import read_request
from crib.shop import BoringHead, Shop
from crib.units import Size
from tests.strategies import MATERIALS, STEP, any_of, around, size

CUTTERS = tuple(name for name, kind in KINDS.items() if kind.motions)
"""The kinds that cut."""


SEEN = [(name, ends) for name, kind in FEATURES.items() for ends in kind.ends
        if ends != "open" or draw_feature(read_request(name, kind.example, Shop(), "in")).layers is not None]
"""The kinds that are seen from above, with the ends with which they are."""


SHOP = Shop(rotary_turns=72, boring_heads=(BoringHead(12.7, 5.0, 200.0),))
"""A shop that has a rotary table and a boring head: what is made with them is tried too."""


@st.composite
def requests(draw: st.DrawFn, kind: str) -> Request:
    """A kind of feature as its example asks for it, larger or smaller, each size a little off and with a tolerance."""
    request = read_request(kind, dict(FEATURES[kind].example), Shop(), "in")
    sizes: dict[str, Size] = {}
    scale = 1.0 if request.said else draw(any_of(0.5, 1.0, 1.0, 1.5))
    for key, one in request.sizes.items():
        off = draw(st.integers(-2, 2)) * 2 * STEP
        sizes[key] = draw(size(max(STEP, round(round(one.nominal * scale / STEP) * STEP + off, 6))))
    return replace(request, sizes=sizes, material=draw(any_of(*MATERIALS)))


@st.composite
def cutters(draw: st.DrawFn, feature: Feature, number: int) -> Cutter:
    """A cutter of any kind that cuts, its example made as wide as a room is or nearly so, or as high; of a called-for
    kind in half of the cases."""
    called = sorted({kind for calls in feature.calls_for.values() for kind in calls.kinds})
    name = draw(st.one_of(st.sampled_from(called), st.sampled_from(CUTTERS)))
    example = KINDS[name].example
    assert example is not None
    room = draw(any_of(*feature.outline.rooms, None)) if feature.outline.rooms else None
    ratio = draw(any_of(0.5, 1.0, 1.0, 1.5))
    if room is not None and example.diameter_mm:
        wide = draw(any_of(room.least.width, room.aim.width, room.most.width + round(STEP * 1e6))) / 1e6
        ratio = draw(any_of(1.0, 1.0, 0.8)) * wide / example.diameter_mm
    grown = example.but(**{key: max(STEP, round(round(value * ratio / 0.02) * 0.02, 6)) for key in LENGTH_KEYS
                           if (value := getattr(example, key)) is not None and key != "shank_mm"})
    if room is not None and grown.face_mm is not None and draw(st.booleans()):
        grown = grown.but(face_mm=round(draw(any_of(room.least.height, room.aim.height)) / 1e6, 6))
    angles = [angle.deg for angle in feature.request.angles.values()]
    if angles and grown.angle_deg is not None:
        grown = grown.but(angle_deg=draw(any_of(*angles, grown.angle_deg)))
    grown = grown.but(id=number, label=f"{name} {number}", material="hss",
                      condition=draw(any_of("sharp", "sharp", "used", "chipped")))
    assume(not impossible(grown) and not KINDS[name].check(grown))
    return grown


@st.composite
def questions(draw: st.DrawFn, kind: str, most: int = 5) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A kind of feature that can be drawn, and up to so many cutters; in half of them some of those that could be
    bought for it."""
    request, shop = draw(requests(kind)), SHOP
    try:
        feature = draw_feature(request)
    except CribError:
        assume(False)
    right = [wanted.cutter for wanted in candidates(feature, shop)] if draw(st.booleans()) else []
    some = draw(st.lists(st.sampled_from(right), min_size=1, max_size=most, unique=True)) if right else []
    others = [draw(cutters(feature, number)) for number in range(draw(st.integers(0 if some else 1, most - len(some))))]
    crib = draw(st.permutations([*some, *others]))
    return request, tuple(one.but(id=number) for number, one in enumerate(crib, 1)), shop


def with_ends(request: Request, ends: str) -> Request:
    """The same with ends closed, its length two and a half times its width."""
    if ends == "open" or (ends == "closed" and "length" in request.sizes):
        return replace(request, ends=ends)
    width = max((one.nominal for key, one in request.sizes.items() if key != "shaft"), default=5.0)
    length = round(2.5 * width, 2)
    sizes = dict(request.sizes) | ({"length": around(length, 0.4, 0.4)} if ends == "closed" else {})
    return replace(request, sizes=sizes, length=length, ends=ends)
