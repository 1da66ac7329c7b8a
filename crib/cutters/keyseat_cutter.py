"""Keyseat cutters: teeth on the periphery only, none on the end."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from crib.cutters import disc
from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.gauged import IN, SIZE_MM, Candidate, Gauging, Measured, fine, outside
from crib.cutters.proposals import LONGER_MM, Need, Wanted, new, thin_necked
from crib.cutters.speech import Name, Order, Speech
from crib.findings.message import InWords, said
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later

if TYPE_CHECKING:
    from crib.handbook import stock
    from crib.handbook.stock import StockKeyseatCutter
else:
    stock = later("crib.handbook.stock")

_MOST, _USUAL_REACH_MM = 3, 0.75 * IN
"""So many sizes are proposed beside a wall, and how far they reach there [mm]. From memory."""

_ACROSS_MM = 0.020 * IN
"""How far a keyseat cutter that is still named by its number is from its diameter [mm]. Common practice."""


def _fits(measured: Measured) -> Iterator[Candidate]:
    """The numbers of both standards that its diameter and face stand for; one that is made new is over its size."""
    from crib.handbook.woodruff import keyseat_cutters

    if measured.diameter_mm is None or measured.width_mm is None:
        return
    for one in keyseat_cutters():
        off, thick = measured.diameter_mm - one.diameter_mm, measured.width_mm - one.width_mm
        ground = "; reground" if off < -SIZE_MM else ""
        why = said("{across} x {face} by {standard}{old}, face {off} {side}{ground}", across=InWords(one.diameter_mm),
                   face=InWords(one.width_mm), standard=one.standard, old=f", old No {one.old}" if one.old else "",
                   off=fine(abs(thick)), side="over" if thick >= 0 else "under", ground=ground)
        beyond = outside(off, -_ACROSS_MM, _ACROSS_MM) + outside(thick, -SIZE_MM, SIZE_MM)
        yield Candidate("keyseat-cutter", f"{one.number} keyseat cutter", off, why, beyond=beyond,
                        order=(abs(off) + abs(thick),))


def _proposes(need: Need) -> Iterator[Wanted]:
    """Under a lip those that go in and need no more than two levels; beside a wall the three smallest of the height
    that is called for."""
    if need.room is None:
        return
    if need.opening is None:
        low, high = need.face or (0.0, 0.0)
        wide = need.diameter or (0.0, inf)
        fitting = [one for one in stock.keyseat_cutters() if low - 1e-6 <= one.face_mm <= high + 1e-6
                   and wide[0] - 1e-6 <= one.diameter_mm <= wide[1] + 1e-6]
        yield from (_grooving(need, one) for one in fitting[:_MOST])
        return
    for one in stock.keyseat_cutters():
        fits = 0.6 * need.room.aim.width / 1e6 <= one.diameter_mm <= need.room.most.width / 1e6
        if fits and 0.45 * need.tallest <= one.face_mm <= need.tallest:
            made = disc.Disc(one.diameter_mm, one.face_mm, stock.KEYSEAT_SHANK_MM)
            for cutter in disc.under_a_lip(need, "keyseat-cutter", made, one.number):
                yield thin_necked(cutter.but(end_teeth=False), stock.SOURCE)


def _grooving(need: Need, one: StockKeyseatCutter) -> Wanted:
    deepest = one.diameter_mm - 2 * (need.deep + need.neck) if need.diameter else inf
    reach = max(_USUAL_REACH_MM, need.deep + need.end + LONGER_MM)
    cutter = new("keyseat-cutter", diameter_mm=one.diameter_mm, face_mm=one.face_mm, flutes=8, marking=one.number,
                 neck_mm=round(min(stock.NECK_SHARE * one.diameter_mm, deepest), 6), shank_mm=stock.KEYSEAT_SHANK_MM,
                 reach_mm=round(reach, 6), end_teeth=False)
    return thin_necked(cutter, stock.SOURCE)


KIND = Kind(
    name="keyseat-cutter",
    words="keyseat cutter",
    plural="keyseat cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("face_mm", "neck_mm", "reach_mm", "shank_mm", "flutes"),
    form=disc.form,
    stem=disc.stem,
    teeth=disc.teeth,
    fill=lambda cutter: disc.fill(cutter).but(end_teeth=False),
    unknowns=disc.unknowns,
    check=disc.check,
    motions=frozenset({Motion.ALONG}),
    buried=True,
    gauging=Gauging("width_mm", _fits, needs=("diameter_mm", "width_mm")),
    cautions=disc.cautions,
    proposes=_proposes,
    is_ground_from_blanks=True,
    is_ground_out=True,
    in_place_of=("t-slot-cutter",),
    speech=Speech(
        largest=63.5,
        names=(
            Name(r"(?:key ?seats?|woodruff|key ?ways?|key) ?(?:seat(?:ing)? )?(?:cutters?|mills?)"),
            Name(r"woodruff|key ?seats?|key ?ways?"),
            Name(r"(?<!t )(?<!tee )slot (?:cutters?|mills?)",
                 asks="is it a keyseat cutter or a T-slot cutter? look for teeth on its faces"),
        ),
        noun="woodruff|key ?(?:seat|way) cutter",
        short=("woodruff",),
        heard={"woodrough": "woodruff", "wdrf": "woodruff", "keyset": "keyseat"},
        phrases=((r"\bkey set\b", "keyseat"), (r"\bwood rough\b", "woodruff")),
        order=Order.MARK,
        small=True,
        wanted=("neck_mm", "reach_mm", "shank_mm"),
    ),
    example=Cutter(0, "keyseat-cutter", diameter_mm=15.875, face_mm=4.7625, neck_mm=6.35, reach_mm=17.4625,
                   shank_mm=12.7, overall_length_mm=57.15, flutes=10, material="hss"),
)
