"""Side cutters: discs with teeth on the rim and on both sides."""

from __future__ import annotations

from crib.cutters import on_arbor
from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.gauged import IN, by_disc
from crib.cutters.speech import Name, Speech
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later

if TYPE_CHECKING:
    from crib.handbook import stock
else:
    stock = later("crib.handbook.stock")

USUAL_TEETH = 18
"""Teeth of a side cutter about 3 in across (from memory)."""

KIND = Kind(
    name="side-cutter",
    words="side cutter",
    plural="side cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("face_mm", "bore_mm"),
    form=on_arbor.form,
    fill=lambda cutter: on_arbor.fill(cutter, USUAL_TEETH),
    unknowns=on_arbor.unknowns,
    motions=frozenset({Motion.ALONG}),
    buried=True,
    on_arbor=True,
    cautions=lambda group: ("hands well clear of an arbor cutter; guard it where you can",),
    proposes=lambda need: on_arbor.proposed(need, "side-cutter", stock.side_cutters()),
    is_ground_out=True,
    gauging=by_disc("side-cutter", lambda: on_arbor.made(stock.side_cutters(), "side cutter"), 0.25 * IN, 0.010 * IN,
                    0.015 * IN),
    speech=Speech(
        largest=304.8,
        names=(Name(r"side(?: and face)?(?: milling)? cutters?|side and face(?: mill(?:ing|s)?)?|side mills?"),),
        phrases=((r"\bhalf[ -]side(?: mill(?:ing)?s?)?(?: cutters?)?\b", "side cutter"),
                 (r"\bstagger(?:ed)?[ -](?:tooth|teeth)(?: side)?(?: mill(?:ing)?)? cutters?\b",
                  "staggered tooth side cutter")),
        order=("diameter_mm", "face_mm", "bore_mm"),
        wanted=("face_mm", "bore_mm"),
    ),
    example=Cutter(0, "side-cutter", diameter_mm=76.2, face_mm=6.35, bore_mm=25.4),
)
