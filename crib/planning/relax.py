"""The smallest changes of a drawing with which what is owned would make it, each proved by planning it anew."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import ceil, floor, inf

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.light.records import dataclass, replace
from crib.planning.changed import Better, DrawingChanges
from crib.planning.search.watch import CHANGES, OutOfPatience, Watch
from crib.planning.told.advice import Advice, Change
from crib.shop import Shop
from crib.units import Size

MOST_CHANGE = 0.25
"""A change of more than this share of a size is another part (from memory)."""

FINEST = {"in": 0.0254, "mm": 0.01}
"""Changes are told in whole steps of this [mm]: a thou, or a hundredth."""

ANGLE_STEP = 0.25
"""Steps in which an angle is changed [deg]."""

_FLOOR = "floor_radius"
_GUESSES = 6
"""So many sizes are tried where the most that may be tried helps nothing."""


@dataclass(frozen=True)
class _Way:
    """One size that may be changed in one direction, in steps."""

    key: str
    before: float
    towards: int
    step: float
    angle: bool
    under: float = inf

    @property
    def most(self) -> int:
        """So many steps may be tried; it stays under what may be asked."""
        if self.key == _FLOOR:
            return ceil(6.35 / self.step)
        share = floor(MOST_CHANGE * self.before / self.step)
        return share if self.towards < 0 or self.under == inf else min(
            share, ceil((self.under - self.before) / self.step - 1e-6) - 1)

    def after(self, steps: int) -> float:
        """The size after so many steps."""
        return round(self.before + self.towards * steps * self.step, 6)


def relax(request: Request, advice: Advice, cutters: Sequence[Cutter], shop: Shop, watch: Watch | None = None
          ) -> tuple[Change, ...]:
    """For each size the smallest change with which the answer would be better than it is, lengths before angles, the
    smallest first; a size that no change of a quarter helps isn't among them.

    It is found as if a larger change helped wherever a smaller one does; what is told was planned and proved.
    With a `watch`, an interruption ends it with the changes that were found. It ends so too where it takes longer than
    it may, and then not all were tried.
    """
    changes = DrawingChanges(request, cutters, shop, advice.answer, Watch(patience=CHANGES))
    found: list[tuple[bool, float, Change]] = []

    try:
        for way in _ways(request, shop.units):
            change = _smallest(way, list(_guesses(way, advice, cutters)), _asks(changes, way))
            if change is not None:
                found.append((way.angle, abs(change.by), change))
    except OutOfPatience:
        if watch is not None:
            watch.ran_out = True
    except KeyboardInterrupt:
        if watch is None:
            raise
        watch.stopped = True
    best = {change.key: change for _, _, change in sorted(found, key=lambda one: one[:2], reverse=True)}
    return tuple(change for _, _, change in sorted(found, key=lambda one: one[:2]) if best[change.key] is change)


def _ways(request: Request, units: str) -> Iterator[_Way]:
    for towards in (1, -1):
        for spec in KINDS[request.kind].sizes:
            if spec.key in request.sizes:
                yield _Way(spec.key, request.sizes[spec.key].nominal, towards, FINEST[units], False)
        for turn in KINDS[request.kind].angles:
            if turn.key in request.angles:
                yield _Way(turn.key, request.angles[turn.key].deg, towards, ANGLE_STEP, True, turn.most)
    yield _Way(_FLOOR, request.floor_radius, 1, FINEST[units], False)


def _guesses(way: _Way, advice: Advice, cutters: Sequence[Cutter]) -> Iterator[int]:
    """Steps at which an answer may turn: by what cutters fall short of, and to the sizes that they have."""
    if not way.angle:
        for refusal in advice.refused:
            if 0 < refusal.short_mm < 1e6:
                yield ceil(refusal.short_mm / way.step - 1e-6)
    for cutter in cutters:
        owned = (cutter.angle_deg,) if way.angle else (
            cutter.diameter_mm, cutter.face_mm, cutter.corner_radius_mm, cutter.radius_mm)
        for value in owned:
            if value is not None and (value - way.before) * way.towards > 0:
                yield ceil((value - way.before) * way.towards / way.step - 1e-6)


def _asks(changes: DrawingChanges, way: _Way) -> Callable[[int], Better | None]:
    """What comes of so many steps where that is better; kept. None too where it can't be drawn so."""
    known: dict[int, Better | None] = {}

    def ask(steps: int) -> Better | None:
        if steps not in known:
            try:
                known[steps] = changes.asked(changed_to(changes.request, way.key, way.after(steps)))
            except CribError:
                known[steps] = None
        return known[steps]

    return ask


def changed_to(request: Request, key: str, value: float) -> Request:
    """A request with one size changed, its limits moved along with it [mm or degrees]."""
    if key == _FLOOR:
        return replace(request, floor_radius=value)
    if key in request.angles:
        return replace(request, angles={**request.angles, key: replace(request.angles[key], deg=value)})
    size = request.sizes[key]
    by = value - size.nominal
    moved = Size(value, round(size.lo + by, 9), round(size.hi + by, 9), f"{size.text} changed", size.given)
    return replace(request, sizes={**request.sizes, key: moved})


def _smallest(way: _Way, guesses: Iterable[int], ask: Callable[[int], Better | None]) -> Change | None:
    """The fewest steps that help: from the most that may be tried halved back, or where that helps nothing from one of
    the nearest guesses, for a size may be met and passed."""
    likely = sorted({one for one in guesses if 0 < one < way.most})[:_GUESSES]
    steps = next((one for one in (way.most, *likely) if one > 0 and ask(one)), None)
    if steps is None:
        return None
    without = 0
    while steps - without > 1:
        middle = (steps + without) // 2
        steps, without = (middle, without) if ask(middle) else (steps, middle)
    better = ask(steps)
    plan = better and better.plan
    return Change(way.key, way.before, way.after(steps), plan) if plan else None
