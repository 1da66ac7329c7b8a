"""A cutter by its bare sizes, before a tool is made of it: what a large crib is sieved by."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property, partial
from math import inf

from crib.cutters import KINDS
from crib.cutters.base import Clearances, Cutter, Kind
from crib.cutters.edges import edges
from crib.handbook.bites import STIFFNESS_FACTORS, centre_bite_limit, side_step, slot_bite
from crib.handbook.feeds import feed_per_tooth, least_per_tooth, table_feed
from crib.handbook.materials import Material
from crib.handbook.power import DRIVE, cutting_power
from crib.handbook.speeds import OVER_WANTED, WARN_OVER, cutting_speed, wanted_rpm
from crib.holders import hold
from crib.holders.base import above_shank, stick_out
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.machining.batches import Band, Batch, among, batched
from crib.machining.feeding import Feeding, fed
from crib.machining.tool import Tool, cutting, holding_of, makes_sizes
from crib.machining.tools import Tools, known_of
from crib.shop import Shop

_NOSE_TALL_MM = 100.0


Piece = tuple[float, float, float, float, float]
"""A piece of a cutter that doesn't cut, or of what holds it: from where to where above the lower face, how far it
reaches from the axis with the room that it asks for at its side, how much it asks for at its end, and its own radius
[mm]."""


class Sizes:
    """Diameter and height of the teeth [mm], whether their lower corner is sharp; of few what stands above them, and
    the most that they take."""

    __slots__ = ("_above", "_pieces", "cutter", "diameter", "height", "is_square", "most")

    def __init__(self, cutter: Cutter, height: float, above: Callable[[Cutter, float], tuple[Piece, ...]]) -> None:
        self.cutter, self.height, self._above = cutter, height, above
        self.diameter = cutter.diameter_mm or 0.0
        self.is_square = not cutter.corner_radius_mm
        self._pieces: tuple[Piece, ...] | None = None
        self.most: Most | None = None

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """What stands above the teeth."""
        if self._pieces is None:
            self._pieces = self._above(self.cutter, self.height)
        return self._pieces


class Most(NamedTuple):
    """The most that a cutter bites down and sideways at once, and in its middle at the whole feed, and the feed that it
    goes at at the most [mm, mm/min]."""

    down: float
    side: float
    feed: float
    centre: float = 0.0


@dataclass
class Sizing:
    """Cutters by their sizes in one shop and metal. What hangs on few of a cutter's values is kept."""

    shop: Shop
    material: Material
    kinds: dict[str, Kind] = field(default_factory=dict)
    known: dict[int, Sizes] = field(default_factory=dict)
    held: dict[tuple[float | None, bool], bool] = field(default_factory=dict)
    speeds: dict[tuple[str, str, str], float] = field(default_factory=dict)
    feeds: dict[tuple[str, float, int | None, str, str], tuple[float, float]] = field(default_factory=dict)
    fed: dict[tuple[str, float, int | None, str, str, float], Feeding] = field(default_factory=dict)
    in_bands: dict[tuple[int, int], tuple[Batch, Sizes, Most]] = field(default_factory=dict)
    put_together: dict[int, tuple[Sequence[Tool], list[Batch]]] = field(default_factory=dict)

    @cached_property
    def clear(self) -> Clearances:
        """How much room what doesn't cut must have."""
        return Clearances(self.shop.neck_clearance_mm, self.shop.end_clearance_mm)

    @cached_property
    def nose(self) -> tuple[Piece, ...]:
        """What holds a shank, from the lowest up: how high over the shank's end it begins, how tall it is, and the rest
        of a piece."""
        shop, low, clear = self.shop, 0.0, self.clear
        noses = []
        if shop.collet_nose_mm is not None and shop.collet_nose_length_mm > 0:
            noses.append((0.0, shop.collet_nose_length_mm, shop.collet_nose_mm / 2))
            low = shop.collet_nose_length_mm
        noses.append((low, _NOSE_TALL_MM, shop.nose_mm / 2))
        return tuple((up, tall, radius + clear.neck, clear.end, radius) for up, tall, radius in noses)

    def batches(self, tools: Sequence[Tool]) -> list[Batch]:
        """Tools as they are reckoned with, put together by what they have in common: the same of all set-ups."""
        if id(tools) not in self.put_together:
            if isinstance(tools, Tools) and tools.among:
                found = list(among(self.batches(tools.among[0]), tools.among[1]))
            else:
                found = list(batched(known_of(tools)))
            self.put_together[id(tools)] = tools, found  # it keeps the tools, and their place
        return self.put_together[id(tools)][1]

    def of(self, cutter: Cutter) -> Sizes | None:
        """The sizes of a cutter of which nothing lacks; None for a kind whose teeth aren't one straight piece."""
        place = id(cutter)
        if place not in self.known:
            found = self.at_a_glance(cutter)
            if found is None:
                return None
            self.known[place] = found  # it keeps the cutter, and its place
        return self.known[place]

    def at_a_glance(self, cutter: Cutter) -> Sizes | None:
        """The same where they are looked at once: of thousands of cutters they aren't kept."""
        if found := self.known.get(id(cutter)):
            return found
        kind = self._kind(cutter.kind)
        if kind.stem is None or not cutter.diameter_mm or cutter.bore_mm is not None:
            return None
        return Sizes(cutter, kind.teeth(cutter), self._told_above)

    def _kind(self, name: str) -> Kind:
        if name not in self.kinds:
            self.kinds[name] = KINDS[name]
        return self.kinds[name]

    @cached_property
    def _told_above(self) -> Callable[[Cutter, float], tuple[Piece, ...]]:
        """What tells what stands above the teeth: one for all of them, and it doesn't hold what holds them."""
        return partial(_pieces, self.clear, self.nose)

    def is_held(self, cutter: Cutter) -> bool:
        """Whether something there is holds its shank, which is on record."""
        place = (cutter.shank_mm, "shank_mm" in cutter.assumed)
        if place not in self.held:
            self.held[place] = hold(cutter, holding_of(self.shop)).ok
        return self.held[place]

    def is_fit(self, cutter: Cutter, kind: Kind, sizes: Sizes) -> bool:
        """Whether a cutter surely makes sizes here, in something that holds it, not too fast, and not too far out."""
        return self.is_held_well(cutter, kind, sizes) and self.slowest <= OVER_WANTED * self._wanted(cutter, kind)

    def is_held_well(self, cutter: Cutter, kind: Kind, sizes: Sizes) -> bool:
        """The same however fast it must go."""
        if cutter.shank_mm is None or not makes_sizes(edges(cutter), self.material) or not self.is_held(cutter):
            return False
        if kind.buried:
            return True
        reach = max(cutter.reach_mm or 0.0, sizes.height, cutter.face_mm or 0.0)
        return stick_out(cutter, reach) <= WELL_HELD * sizes.diameter

    def is_too_fast(self, cutter: Cutter, kind: Kind) -> bool:
        """Whether the slowest step of the spindle is surely too fast for it (see the rule SP1)."""
        return (cutter.diameter_mm or 1.0) > self.widest(cutter, kind)

    def widest(self, cutter: Cutter, kind: Kind) -> float:
        """How wide one of its steel, in its state, may be that the slowest step isn't surely too fast for it [mm]."""
        slowest = self.slowest
        return _SURELY * WARN_OVER * self.at_the_rim(cutter, kind) / slowest if slowest else inf

    @cached_property
    def slowest(self) -> float:
        """The slowest step of the spindle [rev/min]; 0 where none is on record."""
        return min(self.shop.spindle_rpm or (0,))

    def _wanted(self, cutter: Cutter, kind: Kind) -> float:
        return self.at_the_rim(cutter, kind) / (cutter.diameter_mm or 1.0)

    def at_the_rim(self, cutter: Cutter, kind: Kind) -> float:
        """The speed that its edges want, were it 1 mm wide [rev/min]."""
        steel = self.shop.unknown_steel if cutter.material == "unknown" else cutter.material
        place = (kind.operation or ("buried" if kind.buried else "milling"), steel, cutter.condition)
        if place not in self.speeds:
            operation, steel, condition = place
            self.speeds[place] = wanted_rpm(cutting_speed(self.material, operation, steel, condition), 1.0)
        return self.speeds[place]

    def most(self, cutter: Cutter, kind: Kind, sizes: Sizes) -> Most:
        """What a cutter bites, and how fast it goes, at the most."""
        if sizes.most is None:
            sizes.most = self._most(cutter, kind, sizes)
        return sizes.most

    def _most(self, cutter: Cutter, kind: Kind, sizes: Sizes) -> Most:
        stiff, material, diameter = STIFFNESS_FACTORS[self.shop.stiffness], self.material, sizes.diameter
        down = self._own_bite(cutter, kind, diameter, sizes.height)
        fastest, rubs = self._feeds(cutter, kind, diameter)
        area = diameter / 2 * sizes.height if kind.buried else diameter * down
        pulled = self.shop.power_w * DRIVE / cutting_power(material, area, 1.0)
        feed = min(fastest, pulled if kind.buried else max(pulled, rubs))
        return Most(down, side_step(diameter, material) * stiff, feed)

    def bands(self, batch: Batch) -> list[Band]:
        """Those of a batch that something holds, or may, by bands of one another's size."""
        if batch.same:
            return self.bands(batch.same)
        if not batch.held:
            known: dict[float | None, bool] = {None: True}
            batch.held = [self.is_held(one) if one.assumed and one.shank_mm is not None else
                          known[one.shank_mm] if one.shank_mm in known else
                          known.setdefault(one.shank_mm, self.is_held(one)) for one in batch.cutters]
        return batch.bands

    def most_in(self, batch: Batch, band: Band) -> tuple[Sizes, Most]:
        """What `_most_in` tells, once for every room and set-up."""
        place = id(batch.cutters), band.where[0]
        if place not in self.in_bands:
            self.in_bands[place] = batch, *self._most_in(batch, band)  # it keeps the batch, and its place
        return self.in_bands[place][1:]

    def _most_in(self, batch: Batch, band: Band) -> tuple[Sizes, Most]:
        """Sizes that make no fewer passes needful than those of a band do, and what none of them bites or is fed over.

        A bite, a side step and a feed per tooth grow with the width, the speed falls with it; the feed that the motor
        pulls falls with the metal that is cut at once, so that it is told of the least of that.
        """
        kind, one = batch.kind, batch.one
        assert kind is not None
        widest = batch.cutters[max(band.where, key=batch.diameters.__getitem__)]
        sizes = Sizes(widest, band.tallest, self._told_above)
        stiff, material = STIFFNESS_FACTORS[self.shop.stiffness], self.material
        own = slot_bite(band.widest, material, self.shop.stiffness)
        teeth = band.teeth or max(kind.fill(batch.cutters[at]).flutes or 4 for at in band.where)
        tooth = feed_per_tooth(band.widest, material, kind.operation or ("buried" if kind.buried else "milling"))
        fast = OVER_WANTED * self.at_the_rim(one, kind) / band.narrowest * _SURELY
        steps = self.shop.spindle_rpm
        rpm = max((step for step in steps if step <= fast), default=self.slowest) if steps else fast
        feed = min(self.shop.most_feed_mm, table_feed(rpm, teeth, tooth))
        if kind.buried:
            area = band.narrowest / 2 * band.lowest
            feed = min(feed, self.shop.power_w * DRIVE / cutting_power(material, area, 1.0)) if area else feed
        return sizes, Most(min(band.tallest, kind.bite_mm or own, own), side_step(band.widest, material) * stiff, feed)

    def as_run(self, cutter: Cutter, kind: Kind, sizes: Sizes) -> Most:
        """What a cutter bites, and how fast it goes, as a tool that is made of it does."""
        stiff, material, diameter = STIFFNESS_FACTORS[self.shop.stiffness], self.material, sizes.diameter
        bite = sizes.height if kind.buried else self._own_bite(cutter, kind, diameter, sizes.height)
        place = (kind.name, diameter, cutter.flutes, cutter.material, cutter.condition, bite)
        if place not in self.fed:
            run = cutter if cutter.material != "unknown" else cutter.but(material=self.shop.unknown_steel)
            teeth = cutter.flutes or kind.fill(cutter).flutes
            self.fed[place] = fed(cutting(run, kind, diameter, teeth, bite), self.shop, material)
        fed_so = self.fed[place]
        down = self._own_bite(cutter, kind, diameter, sizes.height) if kind.buried else fed_so.bite
        return Most(down, side_step(diameter, material) * stiff, fed_so.feed,
                    centre_bite_limit(diameter, material) * min(1.0, stiff))

    def _feeds(self, cutter: Cutter, kind: Kind, diameter: float) -> tuple[float, float]:
        """The feed that its teeth or a hand at the wheel let it go at at the most, and the least at which they surely
        cut [mm/min]."""
        teeth = cutter.flutes
        place = (kind.name, diameter, teeth, cutter.material, cutter.condition)
        if place not in self.feeds:
            teeth = kind.fill(cutter).flutes or 4
            tooth = feed_per_tooth(diameter, self.material, kind.operation or ("buried" if kind.buried else "milling"))
            rpm = max(OVER_WANTED * self._wanted(cutter, kind), self.slowest)
            self.feeds[place] = (min(self.shop.most_feed_mm, table_feed(rpm, teeth, tooth)),
                                 table_feed(rpm, teeth, least_per_tooth(diameter, tooth)))
        return self.feeds[place]

    def _own_bite(self, cutter: Cutter, kind: Kind, across: float, tall: float) -> float:
        """The bite that its size bears [mm]."""
        reach = max(cutter.reach_mm or 0.0, tall, cutter.face_mm or 0.0)
        own = slot_bite(across, self.material, self.shop.stiffness, stick_out(cutter, reach) / across)
        return min(tall, kind.bite_mm or own, own)

    def least_bite(self, cutter: Cutter, kind: Kind, sizes: Sizes) -> float:
        """A bite that a cutter surely takes [mm]."""
        return self.least_bite_of(cutter, kind, sizes.diameter, sizes.height)

    def least_bite_of(self, cutter: Cutter, kind: Kind, across: float, tall: float) -> float:
        """A bite that a cutter so wide, with teeth so tall, surely takes [mm]: what its size bears, and what the motor
        does."""
        bite = self._own_bite(cutter, kind, across, tall)
        return bite if kind.buried else min(bite, self.pulled_bite(cutter, kind, across))

    def pulled_bite(self, cutter: Cutter, kind: Kind, across: float) -> float:
        """The bite of a cutter so wide that the motor surely does, at the slowest feed at which it cuts [mm]."""
        rubs = self._feeds(cutter, kind, across)[1]
        return self.shop.power_w * DRIVE / cutting_power(self.material, across, rubs)


_SURELY = 1.0001
WELL_HELD = 5.99
"""A cutter that stands out no more diameters than this is never refused for it (see the rule RE4)."""


def _pieces(clear: Clearances, nose: tuple[Piece, ...], cutter: Cutter, height: float) -> tuple[Piece, ...]:
    """What stands above the teeth, up to what holds the shank and with it."""
    stem = KINDS[cutter.kind].stem
    assert stem is not None
    low, neck, fillet, reach, shank, top, neck_side, shank_side, end = stem(cutter, clear)
    pieces: list[Piece] = []
    begins = low
    if neck is not None and reach > low:
        pieces.append((low, reach, neck / 2 + neck_side, 0.0, neck / 2))
        if fillet:
            fat = neck / 2 + fillet
            pieces.append((low, min(reach, low + fillet), fat + neck_side, 0.0, fat))
        begins = reach
    if top > begins:
        pieces.append((begins, top, shank / 2 + shank_side, end, shank / 2))
    above = _above(cutter, height)
    for up, tall, beside, end, radius in nose:
        pieces.append((above + up, above + up + tall, beside, end, radius))
    return tuple(pieces)


def _above(cutter: Cutter, height: float) -> float:
    """Where what holds the shank begins, whose length of cut may be the usual one of its kind."""
    if cutter.length_of_cut_mm is None and cutter.face_mm is None:
        cutter = cutter.but(length_of_cut_mm=height)
    return above_shank(cutter)
