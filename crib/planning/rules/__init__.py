"""Craft rules: what geometry can't know. Each is a small function over a draft that yields what it has to say. To add
one: the function, and its name in the `RULES` of its file."""

from __future__ import annotations

from crib.planning.advice import Warning
from crib.planning.draft import Draft
from crib.planning.rules import holding, metal, passes, sizes, slants

_RULES = (*holding.RULES, *metal.RULES, *sizes.RULES, *passes.RULES, *slants.RULES)
_ORDER = {"stop": 0, "caution": 1, "warn": 2, "note": 3}


def judge(draft: Draft) -> tuple[Warning, ...]:
    """Everything that the rules say of a draft, gravest first, nothing twice."""
    said = dict.fromkeys(warning for rule in _RULES for warning in rule(draft))
    return tuple(sorted(said, key=lambda warning: _ORDER[warning.severity]))
