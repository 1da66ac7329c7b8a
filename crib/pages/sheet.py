"""The sheet of an answered question: the whole page, with its pictures."""

from __future__ import annotations

from crib.pages.answer import page
from crib.pages.blocks import Blocks
from crib.pages.scenes import scene_of
from crib.pages.why import why as cost
from crib.planning.advise import Answered
from crib.shop import Shop


def sheet(found: Answered, refused: int | None = None, why: Shop | None = None) -> Blocks:
    """The blocks. `refused`: how many refused cutters to show, None for all; `why`: with all of the cost, and the
    settings of this shop behind it."""
    drawn = list(map(scene_of, found.proved[:1]))
    behind = cost(found.advice.plans[0], why) if why and found.advice.plans else ()
    return (*page(found.advice, drawn, refused), *behind)
