"""Cutters that are alike but for their sizes, held against a room together: what `Gate.in_the_way`, `Gate.does` and
`Sizing.is_fit` tell of one, told of many at a time, without making anything of each."""

from __future__ import annotations

from collections.abc import Container, Sequence
from math import inf

from crib.cutters.base import Cutter
from crib.cutters.edges import edges
from crib.handbook.bites import FULL_BITE_STICKOUT, STIFFNESS_FACTORS
from crib.handbook.feeds import LEAST_MM
from crib.handbook.power import DRIVE, cutting_power
from crib.handbook.speeds import OVER_WANTED
from crib.holders.base import above_shank, stick_out
from crib.machining.batches import Batch, Profile
from crib.machining.gate import SLACK, Gate
from crib.machining.sizes import WELL_HELD, Sizing
from crib.machining.tool import makes_sizes

_SURELY = 0.999
"""So much of what is reckoned is surely there."""

_SMALL_MM = 6.35
"""Wider than this a tooth rubs below `LEAST_MM`."""


DOES, UNSURE, UNHELD = -1.0, -2.0, 0.0
"""In place of a shortfall: it surely does the room; that isn't told; nothing holds its shank."""


def profiles_of(sizing: Sizing, batch: Batch, where: Sequence[int]) -> list[Profile | None]:
    """What stands above the teeth of those of a batch."""
    kind, cutters, heights, profiles = batch.kind, batch.cutters, batch.heights, batch.profiles
    assert kind is not None and kind.stem is not None
    stem, clear = kind.stem, sizing.clear
    for at in where:
        if profiles[at] is None:
            cutter = cutters[at]
            if cutter.length_of_cut_mm is None and cutter.face_mm is None:
                above = above_shank(cutter.but(length_of_cut_mm=heights[at]))
            else:
                above = above_shank(cutter)
            profiles[at] = (*stem(cutter, clear), above)
    return profiles


def told(gate: Gate, sizing: Sizing, batch: Batch, where: Sequence[int], at_any_speed: Container[int] = ()
         ) -> list[float]:
    """Of those of a batch that break no limit: by how much something above the teeth is surely in the way, `UNHELD`,
    `DOES` where one surely clears the room, else `UNSURE`. Those `at_any_speed` may go as fast as they must."""
    able = _clear(gate, sizing, batch, where)
    found = [UNSURE] * len(where)
    others: list[int] | range = range(len(where))
    if gate.does_is_clear:
        others = [place for place, is_able in enumerate(able) if not is_able]
    ways = in_the_way(gate, sizing, batch, [where[place] for place in others])
    for place, short in zip(others, ways, strict=True):
        found[place] = short or UNSURE
    bites, least = _Bites(sizing, batch, at_any_speed), gate.least_bite
    for place, at in enumerate(where):
        if found[place] == UNSURE and (is_held := bites.is_held(at)) is not None:
            if not is_held:
                found[place] = UNHELD
            elif able[place] and bites.takes(at, least):
                found[place] = DOES
    return found


def _clear(gate: Gate, sizing: Sizing, batch: Batch, where: Sequence[int]) -> list[bool]:
    """What `Gate.does` tells."""
    if gate.whole is None or batch.one.corner_radius_mm:
        return [False] * len(where)
    narrow, (least, most), deep, _, tall, inset, half = gate.whole
    diameters, heights, profiles = batch.diameters, batch.heights, profiles_of(sizing, batch, where)
    nose, deep, found = sizing.nose, deep + SLACK, []
    lowest = min(up - end for up, _, _, end, _ in nose)
    for at in where:
        across = diameters[at]
        if heights[at] >= tall or not (across < narrow or least < across < most):
            found.append(False)
            continue
        low, neck, fillet, reach, shank, top, neck_side, shank_side, end, above = profiles[at]  # type: ignore[misc]
        room = min(across / 2 - inset, half) - SLACK
        if neck is not None and reach > low:
            if low <= deep and ((neck / 2 + fillet if fillet else neck / 2) + neck_side) >= room:
                found.append(False)
                continue
            low = reach
        is_below = low - end <= deep and shank / 2 + shank_side >= room and top > low
        found.append(not is_below and (above + lowest > deep or not [
            True for up, _, beside, ends, _ in nose if beside >= room and above + up - ends <= deep]))
    return found


def in_the_way(gate: Gate, sizing: Sizing, batch: Batch, where: Sequence[int]) -> list[float]:
    """What `Gate.in_the_way` tells of those of a batch."""
    if gate.beside is None or batch.one.corner_radius_mm:
        return [0.0] * len(where)
    inset, slop, low_beside, high_beside = gate.beside
    low_beside += SLACK
    profiles, diameters = profiles_of(sizing, batch, where), batch.diameters
    lowest = min(up - end for up, _, _, end, _ in sizing.nose)
    shorts = []
    for at in where:
        low, neck, fillet, reach, shank, top, neck_side, shank_side, end, above = profiles[at]  # type: ignore[misc]
        room, found = diameters[at] / 2 - inset, inf
        asks = room + slop + SLACK
        if neck is not None and reach > low:
            up, beside = high_beside - low, neck / 2 + neck_side
            if up > SLACK and beside > asks and reach > low_beside:
                found = _least(found, beside - room - slop, up, neck)
            if up > SLACK and fillet:
                fat = neck / 2 + fillet
                if fat + neck_side > asks and min(reach, low + fillet) > low_beside:
                    found = _least(found, fat + neck_side - room - slop, up, 2 * fat)
            low = reach
        if top > low:
            up, beside = high_beside + end - low, shank / 2 + shank_side
            if up > SLACK and beside > asks and top + end > low_beside:
                found = _least(found, beside - room - slop, up, shank)
        if above + lowest < high_beside:
            for over, tall, beside, ends, radius in sizing.nose:
                up = high_beside + ends - (above + over)
                if up > SLACK and beside > asks and above + over + tall + ends > low_beside:
                    found = _least(found, beside - room - slop, up, 2 * radius)
        shorts.append(0.0 if found == inf else min(found, gate.least_short))
    return shorts


def _least(found: float, over: float, up: float, across: float) -> float:
    """By how much one more piece is in the way at the least, or another that is by less."""
    return min(found, max(min(over, up, across) - SLACK, SLACK))


class _Bites:
    """Whether those of a batch are held, and surely make sizes and take a bite, not too fast but for those
    `at_any_speed`."""

    def __init__(self, sizing: Sizing, batch: Batch, at_any_speed: Container[int]) -> None:
        assert batch.kind is not None
        shop, material = sizing.shop, sizing.material
        self.sizing, self.batch, self.kind, self.at_any_speed = sizing, batch, batch.kind, at_any_speed
        self.makes, self.rim = makes_sizes(edges(batch.one), material), sizing.at_the_rim(batch.one, batch.kind)
        self.share = _SURELY * material.bite_fraction * STIFFNESS_FACTORS[shop.stiffness]
        self.pulls: float = _SURELY * shop.power_w * DRIVE / cutting_power(material, 1.0, LEAST_MM)
        self.held: dict[float, bool] = {}

    def is_held(self, at: int) -> bool | None:
        """Whether something holds its shank; None where that isn't on record."""
        cutter = self.batch.cutters[at]
        shank = cutter.shank_mm
        if shank is None or cutter.assumed:
            return None if shank is None else self.sizing.is_held(cutter)
        if shank not in self.held:
            self.held[shank] = self.sizing.is_held(cutter)
        return self.held[shank]

    def takes(self, at: int, least: float) -> bool:
        """Whether one that is held surely makes sizes here, is held well, goes no faster than it may, and takes a bite
        that is no less."""
        batch, sizing, across = self.batch, self.sizing, self.batch.diameters[at]
        if not self.makes or not (at in self.at_any_speed or sizing.slowest <= OVER_WANTED * (self.rim / across)):
            return False
        cutter, tall = batch.cutters[at], batch.heights[at]
        out = stick_out(cutter, max(cutter.reach_mm or 0.0, tall, cutter.face_mm or 0.0))
        if not self.kind.buried and out > WELL_HELD * across:
            return False
        return least <= 0 or self._bite(cutter, across, tall, out) >= least or (
            sizing.least_bite_of(cutter, self.kind, across, tall) >= least)

    def _bite(self, cutter: Cutter, across: float, tall: float, out: float) -> float:
        """A bite that `Sizing.least_bite_of` is surely no less than, soon told [mm]; 0 where none is."""
        own = self.share * across * min(1.0, (FULL_BITE_STICKOUT * across / out) ** 2 if out else 1.0)
        bite = min(tall, self.kind.bite_mm or own, own)
        if self.kind.buried:
            return bite
        if not cutter.flutes or across < _SMALL_MM:
            return 0.0
        fastest = max(OVER_WANTED * self.rim, self.sizing.slowest * across)
        return min(bite, self.pulls / (fastest * cutter.flutes))
