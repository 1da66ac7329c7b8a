"""Slitting saws: thin discs without teeth on their sides."""

from __future__ import annotations

from crib.cutters import on_arbor
from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.gauged import IN, by_disc
from crib.cutters.speech import Name, Speech
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import InWords, said
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later

if TYPE_CHECKING:
    from crib.handbook import stock
else:
    stock = later("crib.handbook.stock")

USUAL_TEETH = 36
"""Teeth of a saw about 3 in across (from memory)."""

_LEAST_TEETH = 12
"""A disc of three sizes with so many teeth is a saw (common practice)."""


def _check(cutter: Cutter) -> tuple[Finding, ...]:
    """A saw thicker than a third of its diameter is another kind of cutter, or a slip of the pen."""
    if cutter.face_mm is None or cutter.diameter_mm is None or cutter.face_mm <= cutter.diameter_mm / 3:
        return ()
    thick = InWords(cutter.face_mm)
    says = said("a saw of {across} isn't {thick} thick", across=InWords(cutter.diameter_mm), thick=thick)
    return (wrong(says, said("{thick}", thick=thick),
                       "--face is the thickness of the saw; a thick one is a side-cutter"),)


KIND = Kind(
    name="slitting-saw",
    words="slitting saw",
    plural="slitting saws",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("face_mm", "bore_mm"),
    form=on_arbor.form,
    fill=lambda cutter: on_arbor.fill(cutter, USUAL_TEETH),
    unknowns=on_arbor.unknowns,
    check=_check,
    motions=frozenset({Motion.ALONG}),
    buried=True,
    on_arbor=True,
    operation="sawing",
    cautions=lambda group: ("guard the saw, hands well clear; one tooth may do the cutting: feed slowly",),
    proposes=lambda need: on_arbor.proposed(need, "slitting-saw", stock.saws()),
    is_ground_out=True,
    gauging=by_disc("slitting-saw", lambda: on_arbor.made(stock.saws(), "slitting saw"), 0.25 * IN, 0.010 * IN,
                    0.0025 * IN),
    speech=Speech(
        largest=304.8,
        names=(Name(r"(?:slitting|slit|slotting) saws?|saws?"),),
        noun="saw",
        short=("saw",),
        heard={"sore": "saw"},
        phrases=((r"\bslit saw", "slitting saw"),),
        order=("diameter_mm", "face_mm", "bore_mm"),
        wanted=("face_mm", "bore_mm"),
        signs=lambda line: len(line.sizes) == 3 and (line.values.get("flutes") or 0) >= _LEAST_TEETH,
    ),
    example=Cutter(0, "slitting-saw", diameter_mm=76.2, face_mm=1.5875, bore_mm=25.4),
)
