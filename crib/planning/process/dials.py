"""Handwheels: from a reading to whole turns of the screw and divisions of its dial.

Every reading is come to the same way round, so that the slack of screw and nut lies on the same side: the cutter going
towards larger readings on table and cross slide, the knee going up. Leads and divisions that the owner hasn't said are
those usual for a knee mill: .200 in a turn and .100 on the knee, or 5 and 2.5 mm (common practice).
"""

from __future__ import annotations

from math import ceil, floor

from crib.findings.message import Mm, Text, joined, said
from crib.machining.words import Slack, Slide, Turned
from crib.planning.told.passes import Dial, Pass
from crib.shop import Shop

_WAY = {Slide.TABLE: (Turned.RIGHT, Slack.LEFT), Slide.CROSS: (Turned.AWAY, Slack.FRONT),
        Slide.KNEE: (Turned.UP, Slack.BELOW)}
_USUAL = {"in": (5.08, 2.54), "mm": (5.0, 2.5)}
_PAST_SLACK_MM = 0.020 * 25.4
"""How far beyond the slack a slide is taken back at the least [mm]. Common practice."""


def lead_mm(slide: Slide, shop: Shop) -> float:
    """How far a slide goes in one turn of its handwheel [mm]: as the owner says, else as usual.

    >>> lead_mm(Slide.CROSS, Shop()), lead_mm(Slide.KNEE, Shop(units="mm"))
    (5.08, 2.5)
    >>> lead_mm(Slide.TABLE, Shop(screw_lead_mm=2.54))
    2.54
    """
    usual, knee = _USUAL[shop.units]
    if slide == Slide.KNEE:
        return shop.knee_lead_mm or knee
    return shop.screw_lead_mm or usual


def division_mm(shop: Shop) -> float:
    """One division of the dials [mm]."""
    return 0.0254 if shop.units == "in" else 0.01


def dial(slide: Slide, reading_mm: float, shop: Shop) -> Dial:
    """Turns and divisions of a reading. On table and cross slide the divisions count up from the whole turn below it,
    as the dial shows them; the knee's turns count as it goes up, which is as z goes down.

    Parameters: the slide, `reading_mm` from the zero that was touched off. References: turns = distance / lead.

    >>> dial(Slide.CROSS, 1.2845 * 25.4, Shop()).turns, dial(Slide.CROSS, 1.2845 * 25.4, Shop()).divisions
    (6, 84.5)
    >>> dial(Slide.CROSS, -0.0345 * 25.4, Shop()).turns, dial(Slide.CROSS, -0.0345 * 25.4, Shop()).divisions
    (-1, 165.5)
    """
    way, slack_from = _WAY[slide]
    lead, distance = lead_mm(slide, shop), -reading_mm if slide == Slide.KNEE else reading_mm
    turns = floor(distance / lead + 1e-9)
    divisions = round(abs(distance - turns * lead) / division_mm(shop), 2)
    return Dial(slide, reading_mm, turns, divisions, way, slack_from)


def turns_back(slide: Slide, shop: Shop) -> int:
    """Whole turns that a slide is taken back, beyond its slack, before it comes up to a reading again.

    >>> turns_back(Slide.CROSS, Shop()), turns_back(Slide.CROSS, Shop(screw_lead_mm=1.0, backlash_mm=1.2))
    (1, 2)
    """
    return max(1, ceil((shop.backlash_mm + _PAST_SLACK_MM) / lead_mm(slide, shop)))


def slack_mm(shop: Shop) -> float:
    """By how much less a dial reads where a slide was come to against the way that all readings count by, toward you or
    to the left: the screw turns that far before anything moves [mm]. A readout counts the slide itself.

    >>> slack_mm(Shop(backlash_mm=0.2, dro=False)), slack_mm(Shop(backlash_mm=0.2, dro=True))
    (0.2, 0.0)
    """
    return 0.0 if shop.dro else shop.backlash_mm


def goes_across(one: Pass) -> bool:
    """Whether a pass goes across in the metal: then its cross slide can't come from beyond a wall."""
    return len({across for _, across in one.dial_path_mm}) > 1


def less_slack(shop: Shop) -> Text:
    """Said beside a reading that was taken so; empty where there is none."""
    slack = slack_mm(shop)
    return said(", the {slack} of backlash taken off, as it comes toward you", slack=Mm(slack)) if slack else ""


def in_words(shop: Shop, across: bool = False) -> Text:
    """What the dials go by and how they are come to; where passes go `across` in the metal there is no coming from
    beyond a wall."""
    back = turns_back(Slide.CROSS, shop)
    if across and shop.backlash_mm:
        return said("turns + divisions of {division} from the zero, {table} a turn, {knee} on the knee. They hold with "
                    "the cutter going away from you and to the right; what is come to toward you or to the left, as "
                    "nothing comes from beyond a wall, is dialled {slack} lower, for the backlash. The knee's upwards",
                    division=Mm(division_mm(shop)), table=Mm(lead_mm(Slide.TABLE, shop)),
                    knee=Mm(lead_mm(Slide.KNEE, shop)), slack=Mm(shop.backlash_mm))
    return said("turns + divisions of {division} from the zero, {table} a turn, {knee} on the knee; come to the "
                "cross slide's with the cutter going away from you, from beyond back {back} and up again, the knee's "
                "upwards", division=Mm(division_mm(shop)), table=Mm(lead_mm(Slide.TABLE, shop)),
                knee=Mm(lead_mm(Slide.KNEE, shop)), back="a full turn" if back == 1 else f"{back} full turns")


def across_alone(shop: Shop) -> Text:
    """The same where only table and cross slide are dialled."""
    back = turns_back(Slide.CROSS, shop)
    return said("turns + divisions of {division} from the zero, {table} a turn; come to the table's with the cutter "
                "going right, to the cross slide's with it going away from you, from beyond back {back} and up again",
                division=Mm(division_mm(shop)), table=Mm(lead_mm(Slide.TABLE, shop)),
                back="a full turn" if back == 1 else f"{back} full turns")


def assumed(shop: Shop) -> Text:
    """What of the leads is taken as usual; empty where the owner has said them all."""
    unsaid = [said("{lead} {words}", lead=Mm(lead_mm(slide, shop)), words=words) for slide, own, words in (
        (Slide.TABLE, shop.screw_lead_mm, "on table and cross slide"), (Slide.KNEE, shop.knee_lead_mm, "on the knee"))
        if own is None]
    return said("a turn {unsaid}, usual: crib shop --screw-lead, --knee-lead",
                unsaid=joined(" and ", unsaid)) if unsaid else ""

