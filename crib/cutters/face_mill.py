"""Face mills and shell mills: a wide body on a shank, or on the end of a stub arbor whose screw lies in its lower
face.

A shell mill has teeth down its sides, a face high. A face mill has inserts: a face high too, behind them the body. An
insert that leans leaves no upright wall; where its lead isn't known the mill faces and does nothing else."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crib.cutters.base import Clearances, Cutter, Kind, Motion, Unknown
from crib.cutters.gauged import Made, by_size, parts_of_an_inch
from crib.cutters.proposals import MEMORY, Need, Wanted, new
from crib.cutters.shapes import cone, cylinder, rounded_end
from crib.cutters.speech import Angle, Name, Speech
from crib.geometry.outline import Opening
from crib.geometry.silhouette import Part, Silhouette
from crib.light.hints import Any

SHELL = "shell mill"
_INSERT_MM, _NOSE_MM, _BEHIND_MM, _BODY_MM = 5.0, 0.8, 1.5, 38.1
"""The height of an insert and the radius of its nose, how far the body stays behind it on each side, and how high the
body is [mm]. From memory."""

_SQUARE_DEG, _LEANING_DEG = 90.0, 45.0
_FACE_SHARE = 0.5
"""The face of a usual shell mill, of its diameter [-]. From memory: 1-1/2 x 1-1/8, 2 x 1-3/8, 3 x 1-5/8, 4 x 1-3/4."""

_BITE_MM, _STANDS_OUT_MM = 0.100 * 25.4, 38.1
"""What such a mill takes down at once, for spindle and motor bear no more; how far its shank stands out [mm]. Common
practice, no source."""

_MADE = ((38.1, 12.7), (50.8, 19.05), (63.5, 25.4), (76.2, 25.4), (101.6, 38.1))
"""Shell mills as they are made: diameter and bore [mm]. From memory of ANSI B94.19."""

_PAST_MM = 0.25 * 25.4
"""How much wider than a face one is proposed [mm]. Common practice."""


def is_shell(cutter: Cutter) -> bool:
    """Whether it has teeth down its sides, and no inserts."""
    return "shell" in (cutter.note or "").lower()


def _fill(cutter: Cutter) -> Cutter:
    """As many teeth as usual; inserts of a usual height; a shank where there is no bore."""
    inch = (cutter.diameter_mm or 50.8) / 25.4
    given: dict[str, float] = {"flutes": max(3, round(4 * inch)) if is_shell(cutter) else max(3, round(2 * inch))}
    if not is_shell(cutter):
        given |= {"face_mm": _INSERT_MM, "corner_radius_mm": _NOSE_MM}
    typical = {key: value for key, value in given.items() if getattr(cutter, key) is None}
    return cutter.but(**typical, end_teeth=True, centre_cutting=False,
                      assumed=tuple(dict.fromkeys((*cutter.assumed, *typical))))


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The diameter of a reground one; of a shell mill how high its teeth are."""
    size = cutter.diameter_mm or cutter.nominal_mm
    asked = []
    if cutter.diameter_mm is None and size is not None:
        asked.append(Unknown("diameter_mm", size, size - 0.06 * 25.4, "mic the diameter: it was reground",
                             between=True))
    if is_shell(cutter) and cutter.face_mm is None and size is not None:
        asked.append(Unknown("face_mm", 0.8 * size, _FACE_SHARE / 2 * size, "measure the face, the height of the teeth",
                             False))
    return tuple(asked)


def _looks(values: Mapping[str, Any]) -> Iterator[str]:
    """How the inserts of a face mill stand decides what it leaves beside a face."""
    if "angle_deg" not in values and not values.get("is_square"):
        yield "do its inserts stand square to the wall, or lean? say 90 or 45 degrees"


def _teeth(cutter: Cutter) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """What it surely cuts, and what it may: an insert that leans is widest above, and one whose lead isn't known is
    taken for the narrower below and for the wider above."""
    across, face = cutter.diameter_mm or 0.0, cutter.face_mm or 0.0
    if is_shell(cutter) or cutter.angle_deg == _SQUARE_DEG:
        teeth = rounded_end("teeth", across, min(cutter.corner_radius_mm or 0.0, face / 2), face)
        return teeth, teeth
    wide = cone("teeth", 0.0, face, across, across + 2 * face)
    if cutter.angle_deg is not None:
        return wide, wide
    return cone("teeth", 0.0, face, max(across - 2 * face, across / 2), across), wide


def _form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The teeth; above them the body, where it has one of its own; above that a shank."""
    sure, may = _teeth(cutter)
    across, low = cutter.diameter_mm or 0.0, cutter.face_mm or 0.0
    above: tuple[Part, ...] = ()
    if not is_shell(cutter):
        behind = max(across - 2 * _BEHIND_MM, across / 2)
        above = (cylinder("body", low, low + _BODY_MM, behind, clear.neck, clear.end),)
        low += _BODY_MM
    if cutter.bore_mm is None and cutter.shank_mm is not None:
        above = (*above, cylinder("shank", low, low + _STANDS_OUT_MM, cutter.shank_mm, clear.neck, clear.end))
    return Silhouette(sure, may, above)


def _proposes(need: Need) -> Iterator[Wanted]:
    """For a face that is open on both sides, the smallest shell mill that reaches over it and that an arbor takes."""
    if need.room is None or not need.room.opens(Opening.LEFT, Opening.RIGHT):
        return
    width = need.room.aim.width / 1e6 + _PAST_MM
    made = [(size, bore) for size, bore in _MADE if size >= width
            and (need.arbors is None or any(abs(bore - one) < 0.01 for one in need.arbors))]
    for size, bore in made[:1]:
        yield Wanted(new("face-mill", diameter_mm=size, bore_mm=bore, face_mm=round(_FACE_SHARE * size, 3), note=SHELL),
                     f"{MEMORY} sizes")


KIND = Kind(
    name="face-mill",
    words="face mill",
    plural="face mills",
    called=lambda cutter: SHELL if is_shell(cutter) else "",
    shown_keys=("flutes", "bore_mm"),
    form=_form,
    fill=_fill,
    unknowns=_unknowns,
    motions=frozenset({Motion.ALONG}),
    on_stub=True,
    bite_mm=_BITE_MM,
    proposes=_proposes,
    cautions=lambda group: ("a wide cutter throws its chips far and hot: stand to the side, a shield before it",),
    gauging=by_size("face-mill", "face mill", lambda: (*parts_of_an_inch(5, 24, 4), *(
        Made(float(mm), f"{mm} mm") for mm in (32, 40, 50, 63, 80, 100, 125, 160))), over=0.5, rare=True),
    speech=Speech(
        largest=304.8,
        times_shank=12.0,
        names=(Name(r"shell (?:end ?)?mills?", SHELL, {"is_square": True}, lent=True), Name(r"face ?mills?")),
        angle=Angle.PLAIN,
        tells={r"square(?:[ -]should(?:er|ers|ered))?|should(?:er|ers|ered)": {"angle_deg": _SQUARE_DEG}},
        wanted=("bore_mm", "flutes"),
        looks=_looks,
    ),
    example=Cutter(0, "face-mill", diameter_mm=50.8, flutes=5, bore_mm=19.05),
)
