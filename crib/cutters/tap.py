"""Taps: in the section a thread stands as wide as its major diameter, and the chamfer as a cone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.gauged import Candidate, Gauging, Measured
from crib.cutters.proposals import Need, Wanted, new
from crib.cutters.shapes import cone, cylinder
from crib.cutters.speech import Order, Speech
from crib.geometry.silhouette import Silhouette

_SIGNS = (r"plug|bottoming|tap|spiral point|spiral flute|spiral|forming|sti|g?[hd]\d|lh|whitworth|bsw|bsf|"
          r"\d+ ?ba")
_THREADED, _THIN = 1.5, 1.4
"""Threaded length in diameters [-]; a tap's end is thinner than the thread's major diameter by so many pitches [-]."""

CHAMFER = "chamfer"
"""The teeth that start the thread, as a part."""


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The chamfer and the full thread. Raises `CribError` where its thread can't be read."""
    from crib.handbook.tapping import chamfer_threads
    from crib.handbook.threads import read_thread

    thread = read_thread(cutter.thread or "").thread
    chamfer = chamfer_threads(cutter.tap_chamfer, cutter.tap_form) * thread.pitch_mm
    full = max(cutter.length_of_cut_mm or 0.0, chamfer + _THREADED * thread.major_mm)
    end = thread.major_mm - _THIN * thread.pitch_mm
    teeth = (*cone(CHAMFER, 0.0, chamfer, end, thread.major_mm), cylinder("thread", chamfer, full, thread.major_mm))
    return Silhouette(teeth, teeth)


def _fits(measured: Measured) -> Iterable[Candidate]:
    """Threads that its size and pitch fit, and the twins of those."""
    from crib.cutters.thread_gauging import tap

    return tap(measured)


def _proposes(need: Need) -> Iterator[Wanted]:
    if need.thread:
        yield Wanted(new("tap", thread=need.thread, tap_chamfer="plug", tap_form="cutting", tap_point="straight"),
                     "the thread's own")


KIND = Kind(
    name="tap",
    words="tap",
    plural="taps",
    size_keys=("thread",),
    shown_keys=("tap_chamfer", "tap_point", "tap_form"),
    on_axis=_on_axis,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.TAPPING}),
    in_chuck=True,
    by_hand=lambda cutter: True,
    keeps_size=True,
    gauging=Gauging("pitch_mm", _fits, ("diameter_mm",), ("diameter_mm",)),
    proposes=_proposes,
    speech=Speech(
        common=True,
        heard={"starting": "taper", "starter": "taper"},
        order=Order.THREAD,
        wanted=("tap_chamfer",),
        signs=lambda line: line.has(_SIGNS),
    ),
    example=Cutter(0, "tap", thread="1/4-20", tap_chamfer="plug", flutes=4),
)
