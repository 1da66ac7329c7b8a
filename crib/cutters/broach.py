"""Key broaches, for keyseats in a bore: pushed through a bushing in a press, no cutter for the spindle. Their diameter
is the width that they cut."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.gauged import by_size, parts_of_an_inch
from crib.cutters.proposals import MEMORY, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Name, Speech
from crib.geometry.silhouette import Silhouette

_LONG_MM = 127.0
"""How long the teeth of a usual one are [mm]. From memory."""

_MADE = (1 / 16, 3 / 32, 1 / 8, 5 / 32, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4, 1.0)
"""Widths in which they are made [in]. From memory."""


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """What goes through the bore: its teeth."""
    teeth = (cylinder("teeth", 0.0, cutter.overall_length_mm or _LONG_MM, cutter.diameter_mm or 0.0),)
    return Silhouette(teeth, teeth)


def _proposes(need: Need) -> Iterator[Wanted]:
    if need.face is not None:
        for inch in _MADE:
            if need.face[0] - 1e-6 <= inch * 25.4 <= need.face[1] + 1e-6:
                yield Wanted(new("broach", diameter_mm=inch * 25.4), f"{MEMORY} sizes",
                             "its shims, and a bushing for the bore")


KIND = Kind(
    name="broach",
    words="broach",
    plural="broaches",
    is_plain=True,
    on_axis=_on_axis,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.BROACHING}),
    by_hand=lambda cutter: True,
    gauging=by_size("broach", "key broach", lambda: parts_of_an_inch(1, 16, 16), rare=True),
    proposes=_proposes,
    cautions=lambda group: ("push a broach straight, hands off the ram's way: one that leans snaps and flies",),
    speech=Speech(names=(Name(r"(?:key ?(?:way|seat)? )?broach(?:es)?"),)),
    example=Cutter(0, "broach", diameter_mm=4.7625),
)
