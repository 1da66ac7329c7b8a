"""Keyseat cutters: teeth on the periphery only, none on the end."""

from __future__ import annotations

from crib.cutters import disc
from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.speech import Name, Order, Speech

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
