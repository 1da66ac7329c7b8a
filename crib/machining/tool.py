"""A cutter made ready to be reckoned with in this shop and metal: its silhouette, its bites, its speed and feed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property
from math import inf
from types import MappingProxyType

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion, Unknown
from crib.cutters.edges import BROKEN, SERRATED, edges
from crib.cutters.in_doubt import with_sizes
from crib.geometry.silhouette import Part, Silhouette
from crib.handbook.bites import (
    STIFFNESS_FACTORS,
    centre_bite_limit,
    finish_allowance,
    level_overlap,
    side_step,
    slot_bite,
)
from crib.handbook.materials import Material
from crib.handbook.speeds import SpindleStep
from crib.holders import hold
from crib.holders.base import Arbor, Held, Holding, stick_out
from crib.light.hints import TYPE_CHECKING, Any
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple
from crib.machining.feeding import Cutting, Feeding, fed, fed_down
from crib.machining.overruled import own_rpm
from crib.shop import Shop
from crib.units import nm


@dataclass(frozen=True)
class Tool:
    """`owned` is the cutter as recorded, `known` with what isn't at its worst or its kindest, and `cutter` with typical
    values filled in besides. Bites in whole nanometres,
    feeds in mm/min. `can_finish`: whether its edges may make a size, not only rough. `feeding`: its speed and its feed,
    and what they go by. `pass_minutes` is the handling of each pass. `centre_limit`: the side bite above which a middle
    pass goes at half the feed. `down`: what it comes down its own axis for; None where it moves along. No field has a
    default: a class attribute would be read in place of what isn't made yet."""

    owned: Cutter
    known: Cutter
    cutter: Cutter
    kind: Kind
    form: Silhouette
    held: Held
    can_finish: bool
    feeding: Feeding
    pass_minutes: float
    touch_minutes: float
    bite: int
    side: int
    overlap: int
    centre_limit: int
    finish: int
    stickout: float
    down: Down | None

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            """What of a tool that isn't made yet somebody looks at: of a large crib most are never looked at."""
            make = self.__dict__.get(_UNMADE)
            if make is None:
                raise AttributeError(name)
            made = make(self.known, self.owned).__dict__
            made["id"] = self.owned.id
            object.__setattr__(self, "__dict__", made)
            return getattr(self, name)

    @cached_property
    def id(self) -> int:
        return self.owned.id

    @property
    def wanted_rpm(self) -> float:
        """The speed that its edges want [rev/min]."""
        return self.feeding.wanted_rpm

    @property
    def step(self) -> SpindleStep | None:
        """The step of the spindle that it runs at; None where none are on record."""
        return self.feeding.step

    @property
    def rpm(self) -> float:
        """The speed that it runs at [rev/min]."""
        return self.feeding.rpm

    @property
    def feed(self) -> float:
        """Its feed [mm/min]."""
        return self.feeding.feed

    @property
    def most_rpm(self) -> float:
        """The fastest that a spindle may turn it [rev/min]."""
        return self.feeding.most_rpm

    @property
    def by_hand(self) -> bool:
        """Whether a hand turns it, and no spindle."""
        return self.down is not None and self.kind.by_hand(self.owned)


_UNMADE = "_unmade"
"""In the dictionary of a tool that isn't made yet: what makes it."""


def _later(owned: Cutter, known: Cutter, kind: Kind, make: Callable[[Cutter, Cutter], Tool]) -> Tool:
    """A tool that is made when somebody looks at more than whose it is."""
    tool = object.__new__(Tool)
    tool.__dict__.update({"id": owned.id, "owned": owned, "known": known, "kind": kind, _UNMADE: make})
    return tool


class _Maker:
    """What makes tools of cutters in one shop and metal: all of them have the same one."""

    __slots__ = ("material", "shop")
    last: _Maker | None = None

    def __init__(self, shop: Shop, material: Material) -> None:
        self.shop, self.material = shop, material

    def __call__(self, known: Cutter, owned: Cutter) -> Tool:
        return _along(known, self.shop, self.material, owned)

    @classmethod
    def of(cls, shop: Shop, material: Material) -> _Maker:
        """That of a shop and a metal, the last one again where it is of these."""
        if cls.last is None or cls.last.shop is not shop or cls.last.material is not material:
            cls.last = cls(shop, material)
        return cls.last


class Descent(NamedTuple):
    """What a cutter comes down its axis for, where its speed counts, and the hole that it is expected to make; of its
    own size where that isn't said [mm]."""

    operation: Down
    across_mm: float
    makes_mm: float | None = None


NO_POSITION = ("neck_mm", "reach_mm", "length_of_cut_mm")
"""Sizes on which no setting hangs, only whether the cutter clears."""

TYPICAL = ("length_of_cut_mm",)
"""Of these, what is taken as usual for the kind and named as an assumption."""


def unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """What isn't known of a cutter and may decide."""
    return kind_of(cutter).unknowns(cutter)


def sets_position(ask: Unknown) -> bool:
    """Whether a setting hangs on what isn't known, so that no plan is made with a guess at it."""
    return ask.position or ask.key not in NO_POSITION


def at_worst(cutter: Cutter) -> Cutter | None:
    """The cutter with what isn't known at its worst, where a plan needs no more than that; None where a position would
    hang on a size that isn't known."""
    asked = unknowns(cutter)
    if not asked:
        return cutter
    if any(sets_position(ask) for ask in asked):
        return None
    return cutter.but(**{ask.key: ask.worst for ask in asked if ask.key not in TYPICAL})


def at_kindest(cutter: Cutter, wanted: Mapping[str, Mapping[str, float]] = MappingProxyType({})) -> Cutter:
    """The cutter with what isn't known at its kindest: what is wanted of its kind, where the feature says."""
    best = wanted.get(cutter.kind, {})
    return with_sizes(cutter, **{ask.key: ask.nearest(best.get(ask.key)) for ask in unknowns(cutter)})


def ready(cutter: Cutter, shop: Shop, material: Material, owned: Cutter | None = None, down: Descent | None = None
          ) -> Tool | None:
    """The tool that a cutter is in this shop and metal, moving along or coming `down` its axis; None for a kind that
    doesn't, or without a size. Raises `CribError` for a tap whose thread can't be read."""
    kind, owned = kind_of(cutter), owned or cutter
    if down:
        return _down(as_run(kind.fill(cutter), shop), down, shop, material, owned)
    diameter = cutter.diameter_mm if cutter.diameter_mm is not None else kind.fill(cutter).diameter_mm
    if kind.form is None or diameter is None or diameter <= 0:
        return None
    return _later(owned, cutter, kind, _Maker.of(shop, material))


def ready_later(shop: Shop, material: Material) -> Callable[[Cutter, Cutter], Tool]:
    """What `ready` makes of a cutter as owned and as known, in this shop and metal, where it surely makes any."""
    make = _Maker.of(shop, material)
    return lambda owned, known: _later(owned, known, kind_of(known), make)


def _down(cutter: Cutter, down: Descent, shop: Shop, material: Material, owned: Cutter) -> Tool | None:
    kind = kind_of(cutter)
    draw = kind.on_axis or (kind.form if kind.down else None)
    if draw is None:
        return None
    from crib.holders.chucks import hold_down, over

    form = draw(cutter, Clearances(shop.neck_clearance_mm, shop.end_clearance_mm))
    if down.makes_mm is not None:
        form = _making(form, down.makes_mm)
    held = hold_down(cutter, holding_of(shop))
    above = over(cutter, form.height / 1e6, held, holding_of(shop))
    return Tool(
        owned=owned,
        known=cutter,
        cutter=cutter,
        kind=kind,
        form=Silhouette(form.sure, form.may, (*form.clear, *above)),
        held=held,
        can_finish=makes_sizes(edges(cutter), material),
        feeding=fed_down(down.operation, cutter.material, cutter.condition, down.across_mm, shop, material,
                         own_rpm(shop, owned)),
        pass_minutes=shop.pass_minutes,
        touch_minutes=shop.touch_minutes,
        bite=1,
        side=1,
        overlap=0,
        centre_limit=0,
        finish=0,
        stickout=0.0,
        down=down.operation,
    )


def _making(form: Silhouette, makes_mm: float) -> Silhouette:
    """The silhouette set out to the hole that it makes; a point stays a point."""
    extra = nm(makes_mm / 2) - form.radius

    def wider(part: Part) -> Part:
        low = part.radius_low + extra if part.radius_low else 0
        return part._replace(radius_low=low, radius_high=part.radius_high + extra)

    return Silhouette(tuple(map(wider, form.sure)), tuple(map(wider, form.may)), form.clear)


def _along(known: Cutter, shop: Shop, material: Material, owned: Cutter) -> Tool:
    kind = kind_of(known)
    assert kind.form is not None
    filled = as_run(kind.fill(known), shop)
    diameter = filled.diameter_mm or 0.0
    form = kind.form(filled, Clearances(shop.neck_clearance_mm, shop.end_clearance_mm))
    held = hold(filled, holding_of(shop))
    reach = max(filled.reach_mm or 0.0, filled.length_of_cut_mm or 0.0, filled.face_mm or 0.0)
    stickout = stick_out(filled, reach)
    height, stiff = form.height, STIFFNESS_FACTORS[shop.stiffness]
    own = slot_bite(diameter, material, shop.stiffness, stickout / diameter)
    bite = min(height / 1e6, kind.bite_mm or inf, own)
    feeding = fed(cutting(filled, kind, diameter, filled.flutes, height / 1e6 if kind.buried else bite), shop, material,
                  own_rpm(shop, owned))
    return Tool(
        owned=owned,
        known=known,
        cutter=filled,
        kind=kind,
        form=Silhouette(form.sure, form.may, (*form.clear, *held.parts)),
        held=held,
        bite=nm(bite if kind.buried else feeding.bite),
        side=nm(_side(kind, diameter, material) * stiff),
        overlap=min(height // 2, nm(level_overlap(height / 1e6))),
        centre_limit=nm(centre_bite_limit(diameter, material) * min(1.0, stiff)),
        finish=nm(finish_allowance(diameter)),
        can_finish=makes_sizes(edges(filled), material),
        stickout=stickout,
        pass_minutes=shop.buried_pass_minutes if kind.buried else shop.pass_minutes,
        touch_minutes=shop.touch_disc_minutes if kind.buried else shop.touch_minutes,
        feeding=feeding,
        down=None,
    )


def _side(kind: Kind, diameter: float, material: Material) -> float:
    """How wide a step to the side it takes [mm]."""
    if Motion.FLANK not in kind.motions:
        return side_step(diameter, material)
    from crib.handbook.dovetails import flank_step

    return flank_step(material)


def cutting(cutter: Cutter, kind: Kind, diameter: float, teeth: int | None, bite: float) -> Cutting:
    """A cutter as its feed goes by it: an end mill buried full width; a disc at its whole height on half its width, for
    beyond that it is fed half as fast."""
    return Cutting(
        operation=kind.operation or ("buried" if kind.buried else "milling"),
        steel=cutter.material,
        condition=cutter.condition,
        teeth=teeth or 4,
        across=diameter,
        bite=bite,
        width=diameter / 2 if kind.buried else diameter,
        on_arbor=cutter.bore_mm is not None,
        must_bite=kind.buried,
    )


def as_run(cutter: Cutter, shop: Shop) -> Cutter:
    """The cutter with the steel that it is run as: one of unknown steel as the shop's habit says."""
    return cutter if cutter.material != "unknown" else cutter.but(material=shop.unknown_steel)


def run_as(steel: str) -> str:
    """What a cutter of unknown steel is taken for, in words.

    >>> run_as("unknown")
    'steel not on record, run as carbon steel at half the speed of HSS'
    """
    habit = {"hss": "run as HSS as the shop's habit is", "carbon-steel": "run as carbon steel as the shop's habit is"}
    return "steel not on record, " + habit.get(steel, "run as carbon steel at half the speed of HSS")


def makes_sizes(state: str, material: Material) -> bool:
    """Whether edges in this state may make a size: chipped, burnt or bent ones never, nor serrated ones; dull ones not
    in metal that hardens where it is rubbed. Common practice."""
    return state not in (*BROKEN, SERRATED) and not (state == "dull" and material.work_hardens)



def holding_of(shop: Shop) -> Holding:
    """What a shop has to hold with."""
    arbors = shop.arbors
    return Holding(
        collets=shop.collets_mm,
        chuck=shop.chuck_mm,
        arbors=None if arbors is None else tuple(Arbor(a.bore_mm, a.flange_mm, a.nose_mm, a.reach_mm) for a in arbors),
        nose=shop.nose_mm,
        collet_nose=shop.collet_nose_mm,
        collet_length=shop.collet_nose_length_mm,
        clear=Clearances(shop.neck_clearance_mm, shop.end_clearance_mm),
    )
