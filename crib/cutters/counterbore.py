"""Counterbores: a flat end on a pilot that runs in the hole. Their lower face is that of the teeth."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.gauged import Made, by_size
from crib.cutters.pointed import pilot_check
from crib.cutters.proposals import MEMORY, THOU, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Name, Order, Speech
from crib.geometry.silhouette import Silhouette

_TEETH, _PILOT_LENGTH = 19.05, 6.35
_INCHES, _MILLIMETRES = (25.4 / 32, 25.4 / 64), (1.0, 0.5)
"""The steps in which they are made [mm], coarser first (from memory)."""

_EVEN = 1e-4
_SOURCE = f"{MEMORY} sizes"


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The teeth, and the pilot below them, which must find its hole."""
    size = cutter.diameter_mm or 0.0
    teeth = (cylinder("teeth", 0.0, cutter.length_of_cut_mm or _TEETH, size),)
    pilot = cutter.pilot_mm
    return Silhouette(teeth, teeth, (cylinder("pilot", -_PILOT_LENGTH, 0.0, pilot),) if pilot else ())


def _made(aim: float, low: float, high: float, metric: bool) -> float | None:
    """The size within limits that counterbores are made in, nearest to what is aimed at [mm]; None where none is.

    A size that is aimed at and made is taken; else the shop's own series goes first, coarser steps before the finer.

    >>> _made(11.25, 10.6, 11.6, True), _made(10.45, 10.4, 10.48, True)
    (11.0, None)
    """
    if any(abs(aim / step - round(aim / step)) < _EVEN for step in (*_INCHES, *_MILLIMETRES)):
        return aim
    for step in (*_MILLIMETRES, *_INCHES) if metric else (*_INCHES, *_MILLIMETRES):
        near = sorted((round(step * count, 6) for count in (floor(aim / step), ceil(aim / step))),
                      key=lambda size: abs(size - aim))
        for size in near:
            if size > 0 and low <= size <= high - THOU:
                return size
    return None


def _proposes(need: Need) -> Iterator[Wanted]:
    if need.limits is None or need.aim is None:
        return
    made = _made(need.aim, *need.limits, need.metric)
    if made is not None:
        pilot = round(need.hole - 2 * THOU, 6) if need.hole is not None else None
        yield Wanted(new("counterbore", diameter_mm=made, pilot_mm=pilot, shank_mm=12.7, flutes=3), _SOURCE)


def _sizes() -> Iterator[Made]:
    """The counterbores of socket heads, by their screw."""
    from crib.handbook.screws import counterbores

    return (Made(mm, f"{screw} screw") for screw, mm in counterbores())


KIND = Kind(
    name="counterbore",
    words="counterbore",
    plural="counterbores",
    shown_keys=("pilot_mm",),
    on_axis=_on_axis,
    check=pilot_check,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.COUNTERBORING}),
    in_chuck=True,
    proposes=_proposes,
    gauging=by_size("counterbore", "counterbore", _sizes, rare=True),
    speech=Speech(
        names=(Name(r"counter ?bores?|cbore"),),
        noun="counter ?bore",
        heard={"cbore": "counterbore", "c'bore": "counterbore", "c/bore": "counterbore"},
        order=Order.SCREW,
        small=True,
        wanted=("pilot_mm",),
    ),
    example=Cutter(0, "counterbore", diameter_mm=10.31875, pilot_mm=6.746875),
)
