"""Keyseat cutters: teeth on the periphery only, none on the end."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import disc
from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.gauged import IN, SIZE_MM, Candidate, Gauging, Measured
from crib.cutters.speech import Name, Order, Speech
from crib.units import in_words

_ACROSS_MM = 0.020 * IN
"""How far a keyseat cutter that is still named by its number is from its diameter [mm]. Common practice."""


def _fits(measured: Measured) -> Iterator[Candidate]:
    """The number that a keyseat cutter's diameter and face stand for: eighths behind, thirty-seconds before."""
    if measured.diameter_mm is None or measured.width_mm is None:
        return
    eighths, thirty_seconds = round(measured.diameter_mm / IN * 8), round(measured.width_mm / IN * 32)
    across, face = eighths * IN / 8, thirty_seconds * IN / 32
    off, thick = measured.diameter_mm - across, measured.width_mm - face
    if eighths and thirty_seconds and abs(off) <= _ACROSS_MM and abs(thick) <= SIZE_MM:
        sizes = f"{in_words(across, 'in')} x {in_words(face, 'in')}"
        ground = "; reground" if off < -SIZE_MM else ""
        yield Candidate("keyseat-cutter", f"{thirty_seconds}{eighths:02d} keyseat cutter", off,
                        f"{sizes}, face {measured.said(abs(thick))} {'over' if thick >= 0 else 'under'}{ground}")


KIND = Kind(
    name="keyseat-cutter",
    words="keyseat cutter",
    plural="keyseat cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("face_mm", "neck_mm", "reach_mm", "shank_mm", "flutes"),
    form=disc.form,
    fill=lambda cutter: disc.fill(cutter).but(end_teeth=False),
    unknowns=disc.unknowns,
    check=disc.check,
    motions=frozenset({Motion.ALONG}),
    buried=True,
    gauging=Gauging("width_mm", _fits),
    cautions=disc.cautions,
    speech=Speech(
        names=(
            Name(r"(?:key ?seats?|woodruff|key ?ways?|key) ?(?:seat(?:ing)? )?(?:cutters?|mills?)"),
            Name(r"woodruff|key ?seats?|key ?ways?"),
            Name(r"(?<!t )(?<!tee )slot (?:cutters?|mills?)",
                 asks="is it a keyseat cutter or a T-slot cutter? look for teeth on its faces"),
        ),
        noun="woodruff|key ?(?:seat|way) cutter",
        short=("woodruff",),
        heard={"woodrough": "woodruff", "keyset": "keyseat"},
        phrases=((r"\bkey set\b", "keyseat"), (r"\bwood rough\b", "woodruff")),
        order=Order.MARK,
        small=True,
        wanted=("neck_mm", "reach_mm", "shank_mm"),
    ),
    example=Cutter(0, "keyseat-cutter", diameter_mm=15.875, face_mm=4.7625, neck_mm=6.35, reach_mm=17.4625,
                   shank_mm=12.7, overall_length_mm=57.15, flutes=10, material="hss"),
)
