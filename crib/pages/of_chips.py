"""Chips are told of in one place: under the passes that stop for them; else among the cautions, else as a remark. So is
that a metal hardens."""

from __future__ import annotations

from collections.abc import Iterable

from crib.findings.finding import Finding
from crib.findings.message import Message, Text
from crib.planning.told.advice import Plan
from crib.safety.cautions import RUBS

_HARDENS = "MT3"
"""The rule on metal that hardens where a drill rubs."""


def cautions_of(cautions: Iterable[Text], plan: Plan) -> list[Text]:
    """The cautions, without those on chips where passes say when to stop for them, and without the one on a metal that
    hardens where a remark says it of the drill."""
    hardens = any(one.id == _HARDENS for one in plan.warnings)
    return [one for one in cautions if not ((_stops(plan) and _is_of_chips(one)) or (hardens and one == RUBS))]


def remarks_of(found: Iterable[Finding], cautions: Iterable[Text], plan: Plan) -> list[Finding]:
    """The remarks, without those on chips where the passes or a caution say it."""
    told = _stops(plan) or any(map(_is_of_chips, cautions))
    return [one for one in found if not (told and _is_of_chips(one.says))]


def _stops(plan: Plan) -> bool:
    return any(one.stops_mm for one in plan.passes)


def _is_of_chips(text: Text) -> bool:
    return (text.template if isinstance(text, Message) else text).startswith("chips ")
