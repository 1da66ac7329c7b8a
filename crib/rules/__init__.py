"""Craft rules: what geometry can't know. Each is a small function over a draft that yields what it has to say. To add
one: the function, and its name in the `RULES` of its file; one that can forbid a cutter whatever its passes are stands
in `STOPS` too."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache

from crib.findings.finding import Finding, Grade
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.rules import beside, corners, forms, holding, metal, passes, sizes, slants
from crib.rules.overruling import is_any, softened

_TOOLS = (*holding.TOOLS, *metal.TOOLS, *sizes.TOOLS)
_ALONG = (*holding.RULES, *metal.RULES, *sizes.RULES, *passes.RULES, *slants.RULES, *beside.RULES,
          *corners.RULES, *forms.RULES)
_STOPS = (*holding.STOPS, *metal.STOPS, *passes.STOPS)
_MAY_STOP = (*holding.RULES, *metal.STOPS, *passes.MAY_STOP, *beside.MAY_STOP)
_ORDER = {Grade.STOP: 0, Grade.CAUTION: 1, Grade.WARN: 2, Grade.NOTE: 3}


@cache
def _down() -> tuple[Callable[[Chain], Iterable[Finding]], ...]:
    """The rules of what comes down an axis, loaded for the first that does."""
    from crib.rules import gib_screws, hole_sizes, round_sizes, rounds

    return (rounds.known, *hole_sizes.RULES, *round_sizes.RULES, *rounds.RULES, *gib_screws.RULES, *forms.RULES,
            metal.sharp_groove)


def judge(draft: Draft) -> tuple[Finding, ...]:
    """Everything that the rules say of a draft, gravest first, nothing twice."""
    said = [warning for rule in (_TOOLS if draft.is_round else _ALONG) for warning in rule(draft)]
    if isinstance(draft, Chain):
        said += [warning for rule in _down() for warning in rule(draft)]
    if is_any(draft):
        said = [softened(draft, warning) for warning in said]
    return tuple(sorted(dict.fromkeys(said), key=lambda warning: _ORDER[warning.grade]))


def is_stopped(draft: Draft) -> bool:
    """Whether any rule forbids a draft; of what goes along the work only those that may are asked."""
    if draft.is_round:
        return any(warning.grade == Grade.STOP for warning in judge(draft))
    said = (warning for rule in _MAY_STOP for warning in rule(draft) if warning.grade == Grade.STOP)
    return any(softened(draft, warning).grade == Grade.STOP for warning in said)


def stops(draft: Draft) -> tuple[Finding, ...]:
    """What forbids the cutters of a draft, whatever their passes."""
    found = [warning for rule in _STOPS for warning in rule(draft) if warning.grade == Grade.STOP]
    if is_any(draft):
        found = [warning for warning in (softened(draft, each) for each in found) if warning.grade == Grade.STOP]
    return tuple(found)
