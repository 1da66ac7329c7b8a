"""A plan for work that lies half round: the same cuts, what was away from you toward you and what was right left."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from crib.light.records import replace
from crib.machining.words import Fed, Slide
from crib.pages.tasks import Step
from crib.planning.process.dials import dial
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Dial, Pass
from crib.shop import Shop

_OTHER = {Fed.LEFT: Fed.RIGHT, Fed.RIGHT: Fed.LEFT}
_SIGNED = ("x_mm", "dial_x_mm", "y_mm")
_WAYS = ("path_mm", "dial_path_mm")
_ALONG = ("from_mm", "to_mm", "dial_from_mm", "dial_to_mm", "stop_mm", "enters_mm", "leaves_mm")


def half_round(plan: Plan, length: float, shop: Shop) -> Plan:
    """The plan as it is cut on work that is turned half round about the spindle: a rotation, so that what is cut
    conventionally still is. `length`: of what is cut along [mm]."""
    return replace(plan, passes=tuple(_turned(one, length, shop) for one in plan.passes))


def _turned(one: Pass, length: float, shop: Shop) -> Pass:
    changed: dict[str, Any] = {name: -value + 0.0 for name in _SIGNED if (value := getattr(one, name)) is not None}
    changed |= {name: length - value for name in _ALONG if (value := getattr(one, name)) is not None}
    changed |= {name: tuple((length - x, -y + 0.0) for x, y in getattr(one, name)) for name in _WAYS}
    return replace(one, **changed, feed=_OTHER.get(one.feed, one.feed),
                   dials=tuple(_dial(each, length, shop) for each in one.dials))


def _dial(one: Dial, length: float, shop: Shop) -> Dial:
    reading = {Slide.CROSS: -one.reading_mm + 0.0, Slide.TABLE: length - one.reading_mm}.get(one.slide, one.reading_mm)
    return dial(one.slide, reading, shop)


def can_be_told(plan: Plan) -> bool:
    """Whether all of it can be told so: what is fed toward you, or goes between stops, can't."""
    return not any(one.feed == Fed.TOWARD_YOU or one.way_says for one in plan.passes)


def seen_so(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Their pictures seen from the other end."""
    return tuple(replace(one, scene=replace(one.scene, from_left=True) if one.scene else None, above=None)
                 for one in steps)
