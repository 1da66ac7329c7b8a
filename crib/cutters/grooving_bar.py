"""Grooving bars: a bar with one square tooth at its side, for grooves round the wall of a bore. A boring head sets it
out. Their length of cut is how far the tooth stands out beside the bar, and their face how wide it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion, Unknown
from crib.cutters.boring_bar import reach
from crib.cutters.gauged import parts_of_an_inch
from crib.cutters.proposals import THOU, TO_ORDER, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Name, Speech
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import InWords, said
from crib.geometry.outline import Opening
from crib.geometry.silhouette import Silhouette
from crib.light.hints import Any

FACES = parts_of_an_inch(2, 12, 64)
"""The usual widths of a tooth: 1/32 to 3/16. From memory."""

_LEAST_OUT, _MOST_OUT, _LEAST_FACE, _MOST_FACE = 0.02, 0.8, 0.25, 12.7
"""How far a tooth stands out, of the bar's diameter [-]; how wide one could be [mm]. From memory."""


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The bar, the width of its tooth and how far that stands out, where they aren't known."""
    bar, asked = cutter.diameter_mm, []
    if bar is None:
        return (Unknown("diameter_mm", 0.6 * (cutter.min_hole_mm or 12.7), 0.95 * (cutter.min_hole_mm or 12.7),
                        "mic the bar behind its tooth", position=True),)
    if cutter.face_mm is None:
        asked.append(Unknown("face_mm", _LEAST_FACE, _MOST_FACE, "mic the width of its tooth", position=True))
    if cutter.length_of_cut_mm is None:
        most = _MOST_OUT * bar if cutter.min_hole_mm is None else cutter.min_hole_mm - bar
        asked.append(Unknown("length_of_cut_mm", most, min(_LEAST_OUT * bar, most),
                             "measure across tooth and bar: how far the tooth stands out is that less the bar",
                             position=True))
    return tuple(asked)


def _check(cutter: Cutter) -> tuple[Finding, ...]:
    """A bar and its tooth don't go into a hole that is narrower than both."""
    from crib.cutters.checks import no_longer

    bar, out, hole = cutter.diameter_mm, cutter.length_of_cut_mm or 0.0, cutter.min_hole_mm
    found = no_longer(cutter, "reach_mm", "overall_length_mm", "the reach", "the overall length")
    if bar is not None and out > _MOST_OUT * bar + 1e-6:
        says = said("no tooth stands {out} out of a bar of {bar}", bar=InWords(bar), out=InWords(out))
        fix = said("the bar, how wide its tooth is, how far it stands out, such as: grooving bar {bar}, {wide} wide, "
                   "{out} out", bar=InWords(round(4 * out, 3)), wide=InWords(bar), out=InWords(out))
        return (*found, wrong(says, said("{bar}", bar=InWords(bar)), fix))
    if bar is None or hole is None or hole >= bar + out - 1e-6:
        return found
    says = said("a bar of {bar} with a tooth that stands {out} out doesn't go into a hole of {hole}", bar=InWords(bar),
                out=InWords(out), hole=InWords(hole))
    return (*found, wrong(says, said("{hole}", hole=InWords(hole)), "the smallest hole is bar and tooth together"))


def least_hole(cutter: Cutter) -> float:
    """The smallest hole that bar and tooth go into, before any air [mm]: across both."""
    return max(cutter.min_hole_mm or 0.0, (cutter.diameter_mm or 0.0) + (cutter.length_of_cut_mm or 0.0))


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """What its tooth sweeps with the bar in the middle, and the bar behind it."""
    bar, out, face = cutter.diameter_mm or 0.0, cutter.length_of_cut_mm or 0.0, cutter.face_mm or 0.0
    teeth = (cylinder("tooth", 0.0, face, bar + 2 * out),)
    long = max(reach(cutter), face + 1.0)
    return Silhouette(teeth, teeth, (cylinder("shank", face, long, bar, clear.neck),))


def _proposes(need: Need) -> Iterator[Wanted]:
    """For a groove in a bore, with the widest usual tooth that goes in."""
    if need.hole is None or need.room is None or need.room.opens(Opening.TOP) or need.face is None:
        return
    fitting = [one.mm for one in FACES if one.mm <= need.face[1] + 1e-6]
    out = need.room.most.width / 1e6 + need.neck + 20 * THOU
    bar = round(min(0.75 * need.hole, 12.7), 3)
    if fitting and bar + out < need.hole:
        yield Wanted(new("grooving-bar", diameter_mm=bar, face_mm=fitting[-1], length_of_cut_mm=round(out, 3),
                         min_hole_mm=round(bar + out, 3), shank_mm=12.7,
                         reach_mm=round(need.deep + need.end + 25 * THOU, 3)), TO_ORDER)


def _looks(values: Mapping[str, Any]) -> Iterator[str]:
    """One size that no word goes with may be the bar's or, as small as teeth are, its tooth's."""
    bar = values.get("diameter_mm")
    if bar and "face_mm" not in values and "miked" not in values and bar <= FACES[-1].mm + 1e-6:
        yield "is that the bar across, or the width of its tooth?"


KIND = Kind(
    name="grooving-bar",
    words="grooving bar",
    plural="grooving bars",
    size_keys=("diameter_mm", "min_hole_mm"),
    shown_keys=("face_mm", "length_of_cut_mm", "min_hole_mm", "shank_mm"),
    on_axis=_on_axis,
    unknowns=_unknowns,
    check=_check,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.GROOVING}),
    proposes=_proposes,
    cautions=lambda group: ("a grooving bar stands out on one side: turn it round by hand in the bore before the "
                            "spindle is started",),
    speech=Speech(
        names=(Name(r"(?:internal |inside )?grooving (?:bars?|tools?)"), Name(r"(?:circlip|snap ring) groov(?:e|ing) "
                                                                              r"(?:bars?|tools?)")),
        beside=r"tooth|out",
        phrases=((r"(\bgroov\w*\b.*?)\b(?:sticks|stands|sticking|standing) (?=[.\d])", r"\1"),
                 (r"([\d\"”]|mm|in) (?:sticking |standing |sticks |stands )?out\b(?=.*\bgroov)", r"\1 loc"),
                 (r"(\bgroov\w*\b.*(?:[\d\"”]|mm|in)) (?:sticking |standing |sticks |stands )?out\b", r"\1 loc"),
                 (r"(\bgroov\w*\b.*?)\bout (?:by )?(?=\.?\d)", r"\1loc ")),
        order=("diameter_mm", "face_mm", "length_of_cut_mm"),
        fields={"bore_mm": "min_hole_mm"},
        wanted=("face_mm", "length_of_cut_mm", "min_hole_mm", "shank_mm"),
        looks=_looks,
    ),
    example=Cutter(0, "grooving-bar", diameter_mm=9.525, face_mm=1.4, length_of_cut_mm=2.0, min_hole_mm=11.7,
                   shank_mm=12.7, reach_mm=38.1, overall_length_mm=76.2, material="hss"),
)
