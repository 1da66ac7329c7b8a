"""T-slot cutters: teeth on the periphery and on both faces."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import disc
from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.gauged import IN, Candidate, Gauging, Measured, outside
from crib.cutters.proposals import TO_ORDER, Need, Wanted, thin_necked
from crib.cutters.speech import Name, Order, Speech
from crib.findings.message import InWords, a, said

_OVER_MM, _GROUND_MM, _FACE_MM = 0.005 * IN, 0.030 * IN, 0.010 * IN
"""How far over its size a T-slot cutter measures, and how far under it and thinner it may have been ground [mm].
From memory."""


def _fits(measured: Measured) -> Iterator[Candidate]:
    """The cutters of both standards by their bolt; and any disc may be one: only its faces tell it from a keyseat
    cutter."""
    from crib.handbook import tslots

    if measured.diameter_mm is None or measured.width_mm is None:
        return
    for one in tslots.cutters():
        off, side = measured.diameter_mm - one.diameter_mm, measured.width_mm - one.face_mm
        bolt = one.bolt if one.bolt.startswith("M") else f"{one.bolt} in"
        why = said("{across} x {face}, neck {neck}: {source}", across=InWords(one.diameter_mm),
                   face=InWords(one.face_mm), neck=InWords(one.neck_mm), source=one.source)
        beyond = outside(off, -_GROUND_MM, _OVER_MM) + outside(side, -_FACE_MM, _OVER_MM)
        yield Candidate("t-slot-cutter", f"T-slot cutter for {a(bolt)} bolt", off, why, beyond=beyond,
                        order=(abs(off) + abs(side),))
    label = said("{across} x {face} T-slot or slot cutter", across=InWords(measured.diameter_mm),
                 face=InWords(measured.width_mm))
    yield Candidate("t-slot-cutter", label, None,
                    "if its faces have teeth too it is no keyseat cutter: look at both faces, mic the neck")


def _proposes(need: Need) -> Iterator[Wanted]:
    """The head's own size in one level, and the cutters of the standards that go in."""
    from crib.handbook import tslots

    room = need.room
    if room is None:
        return
    height = sum(room.height) / 2e6 if room.height else room.aim.height / 1e6
    ideal = disc.Disc(room.aim.width / 1e6, height, need.shank_for(12.7))
    for cutter in disc.under_a_lip(need, "t-slot-cutter", ideal, neck=disc.neck_limit(need, ideal.diameter)):
        yield thin_necked(cutter.but(end_teeth=True), TO_ORDER)
    for one in tslots.cutters():
        if 0.6 * ideal.diameter <= one.diameter_mm <= room.most.width / 1e6 and one.face_mm <= need.tallest:
            made = disc.Disc(one.diameter_mm, one.face_mm, one.shank_mm)
            for cutter in disc.under_a_lip(need, "t-slot-cutter", made, one.bolt, one.neck_mm):
                yield thin_necked(cutter.but(end_teeth=True), one.source)


KIND = Kind(
    name="t-slot-cutter",
    words="T-slot cutter",
    plural="T-slot cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("face_mm", "neck_mm", "reach_mm", "shank_mm", "flutes"),
    form=disc.form,
    stem=disc.stem,
    teeth=disc.teeth,
    fill=lambda cutter: disc.fill(cutter).but(end_teeth=True if cutter.end_teeth is None else cutter.end_teeth),
    unknowns=disc.unknowns,
    check=disc.check,
    motions=frozenset({Motion.ALONG}),
    buried=True,
    gauging=Gauging("width_mm", _fits, needs=("diameter_mm", "width_mm")),
    cautions=disc.cautions,
    proposes=_proposes,
    is_ground_from_blanks=True,
    is_ground_out=True,
    speech=Speech(
        names=(Name(r"(?:t|tee) ?slot(?: ?cutters?| mills?)?|t cutters?"),),
        noun="t slot cutter",
        short=("tee", "tslot"),
        heard={"tslot": "t slot", "t-slot": "t slot", "tee-slot": "t slot", "teeslot": "t slot"},
        order=Order.DISC,
        small=True,
        by_bolt=True,
        wanted=("face_mm", "neck_mm", "reach_mm", "shank_mm"),
    ),
    example=Cutter(0, "t-slot-cutter", diameter_mm=24.60625, face_mm=9.921875, neck_mm=13.49375, reach_mm=30.0,
                   shank_mm=19.05, overall_length_mm=87.3125, flutes=8, material="hss"),
)
