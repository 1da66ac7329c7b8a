"""Craft rules: what geometry can't know. Each is a small function over a draft that yields what it has to say. To add
one: the function, and its name in the `RULES` of its file; one that can forbid a cutter whatever its passes are stands
in `STOPS` too."""

from __future__ import annotations

from crib.findings.finding import Finding
from crib.machining.draft import Draft
from crib.rules import beside, holding, metal, passes, sizes, slants

_RULES = (*holding.RULES, *metal.RULES, *sizes.RULES, *passes.RULES, *slants.RULES, *beside.RULES)
_STOPS = (*holding.STOPS, *metal.STOPS, *passes.STOPS)
_ORDER = {"stop": 0, "caution": 1, "warn": 2, "note": 3}


def judge(draft: Draft) -> tuple[Finding, ...]:
    """Everything that the rules say of a draft, gravest first, nothing twice."""
    said = dict.fromkeys(warning for rule in _RULES for warning in rule(draft))
    return tuple(sorted(said, key=lambda warning: _ORDER[warning.severity]))


def is_stopped(draft: Draft) -> bool:
    """Whether any rule forbids a draft."""
    return any(warning.severity == "stop" for warning in judge(draft))


def stops(draft: Draft) -> tuple[Finding, ...]:
    """What forbids the cutters of a draft, whatever their passes."""
    return tuple(warning for rule in _STOPS for warning in rule(draft) if warning.severity == "stop")
