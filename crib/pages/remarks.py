"""What pages say of a cutter's place, and of what the rules have to say."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cutters.base import Cutter
from crib.findings.finding import Finding
from crib.pages.text import paragraph
from crib.render.words import words

_SEVERITY = {"stop": "STOP", "caution": "Caution", "warn": "Mind", "note": "Note"}
"""Severities, worst first, and the word that stands before what they say."""


_UNSAID = ("", "common practice", "common practice, no source", "geometry", "from memory")
"""Sources that nobody can look up: `--json` has them, a page only names one that can be opened."""


def place(cutter: Cutter) -> str:
    """Where it lies.

    >>> place(Cutter(1, "end-mill", drawer="B2")), place(Cutter(1, "end-mill"))
    ('drawer B2', 'drawer not noted')
    """
    if not cutter.drawer:
        return "drawer not noted"
    return cutter.drawer if " " in cutter.drawer else f"drawer {cutter.drawer}"


def warning_lines(warnings: Iterable[Finding], units: str, width: int) -> list[str]:
    """The worst first, each with a word for how bad it is."""
    order = list(_SEVERITY)
    ranked = sorted(warnings, key=lambda w: order.index(w.severity) if w.severity in order else len(order))
    said = dict.fromkeys((warning.severity, words(warning.says, units), warning.source) for warning in ranked)
    out: list[str] = []
    for severity, says, source in said:
        tail = "" if source in _UNSAID else f" ({source})"
        out += paragraph(says + tail, width, f"{_SEVERITY.get(severity, 'Note')}: ", 2)
    return out
