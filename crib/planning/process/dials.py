"""Handwheels: from a reading to whole turns of the screw and divisions of its dial.

Every reading is come to the same way round, so that the slack of screw and nut lies on the same side: the cutter going
towards larger readings on table and cross slide, the knee going up. Leads and divisions that the owner hasn't said are
those usual for a knee mill: .200 in a turn and .100 on the knee, or 5 and 2.5 mm (common practice).
"""

from __future__ import annotations

from math import ceil, floor

from crib.planning.advice import Dial
from crib.shop import Shop
from crib.units import show

_WAY = {"table": ("right", "left"), "cross": ("away from you", "front"), "knee": ("up", "below")}
_USUAL = {"in": (5.08, 2.54), "mm": (5.0, 2.5)}
_PAST_SLACK_MM = 0.020 * 25.4
"""How far beyond the slack a slide is taken back at the least [mm]. Common practice."""


def lead_mm(slide: str, shop: Shop) -> float:
    """How far a slide goes in one turn of its handwheel [mm]: as the owner says, else as usual.

    >>> lead_mm("cross", Shop()), lead_mm("knee", Shop(units="mm")), lead_mm("table", Shop(screw_lead_mm=2.54))
    (5.08, 2.5, 2.54)
    """
    usual, knee = _USUAL[shop.units]
    if slide == "knee":
        return shop.knee_lead_mm or knee
    return shop.screw_lead_mm or usual


def division_mm(shop: Shop) -> float:
    """One division of the dials [mm]."""
    return 0.0254 if shop.units == "in" else 0.01


def dial(slide: str, reading_mm: float, shop: Shop) -> Dial:
    """Turns and divisions of a reading. On table and cross slide the divisions count up from the whole turn below it,
    as the dial shows them; the knee's turns count as it goes up, which is as z goes down.

    Parameters: the slide, `reading_mm` from the zero that was touched off. References: turns = distance / lead.

    >>> dial("cross", 1.2845 * 25.4, Shop()).turns, dial("cross", 1.2845 * 25.4, Shop()).divisions
    (6, 84.5)
    >>> dial("cross", -0.0345 * 25.4, Shop()).turns, dial("cross", -0.0345 * 25.4, Shop()).divisions
    (-1, 165.5)
    """
    way, slack_from = _WAY[slide]
    lead, distance = lead_mm(slide, shop), -reading_mm if slide == "knee" else reading_mm
    turns = floor(distance / lead + 1e-9)
    divisions = round(abs(distance - turns * lead) / division_mm(shop), 2)
    return Dial(slide, reading_mm, turns, divisions, way, slack_from)


def turns_back(slide: str, shop: Shop) -> int:
    """Whole turns that a slide is taken back, beyond its slack, before it comes up to a reading again.

    >>> turns_back("cross", Shop()), turns_back("cross", Shop(screw_lead_mm=1.0, backlash_mm=1.2))
    (1, 2)
    """
    return max(1, ceil((shop.backlash_mm + _PAST_SLACK_MM) / lead_mm(slide, shop)))


def in_words(shop: Shop) -> str:
    """What the dials go by and how they are come to."""
    units = shop.units
    back = turns_back("cross", shop)
    return (f"turns + divisions of {show(division_mm(shop), units)} from the zero, {_said('table', shop)} a "
            f"turn, {_said('knee', shop)} on the knee; come to the cross slide's with the cutter going away from you, "
            f"from beyond back {'a full turn' if back == 1 else f'{back} full turns'} and up again, the knee's upwards")


def assumed(shop: Shop) -> str:
    """What of the leads is taken as usual; empty where the owner has said them all."""
    unsaid = [f"{_said(slide, shop)} {words}" for slide, own, words in (
        ("table", shop.screw_lead_mm, "on table and cross slide"), ("knee", shop.knee_lead_mm, "on the knee"))
        if own is None]
    return f"a turn {' and '.join(unsaid)}, usual: crib shop --screw-lead, --knee-lead" if unsaid else ""


def _said(slide: str, shop: Shop) -> str:
    return show(lead_mm(slide, shop), shop.units)
