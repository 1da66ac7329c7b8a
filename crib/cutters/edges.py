"""What the edges of a cutter are good for: the state that they are in, and whether they are serrated."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.light.patterns import pattern

BROKEN = ("chipped", "burnt", "bent")
"""Edges that make no size."""

SERRATED = "serrated"
"""Edges of a roughing mill, which leave their grooves in a wall."""

_ROUGHING = pattern(
    r"(?:^|[,;]) *(?:rougher|roughing|hog|hogger)(?: (?:end ?)?mill)? *(?=$|[,;])|corn ?cob|serrated")
_PARTS = ("rough", "hog", "corn", "serrated")
"""How a note says that a mill is a roughing one, and what of it stands in every such note; that a plain one is good for
roughing only, its condition says."""


def is_serrated(cutter: Cutter) -> bool:
    """Whether an end mill is a roughing one, as its note or its marking says.

    >>> is_serrated(Cutter(1, "end-mill", note="corncob")), is_serrated(Cutter(2, "end-mill", note="roughing only"))
    (True, False)
    """
    if cutter.kind != "end-mill" or not (cutter.note or cutter.marking):
        return False
    said = f"{cutter.note or ''}, {cutter.marking or ''}".lower()
    return any(part in said for part in _PARTS) and bool(_ROUGHING.search(said))


def edges(cutter: Cutter) -> str:
    """The state of a cutter's edges: its condition, `serrated` for a roughing mill whose edges are whole.

    >>> edges(Cutter(1, "end-mill", note="roughing", condition="sharp")), edges(Cutter(2, "drill", condition="dull"))
    ('serrated', 'dull')
    """
    return SERRATED if cutter.condition not in BROKEN and is_serrated(cutter) else cutter.condition
