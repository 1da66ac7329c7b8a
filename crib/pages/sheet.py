"""The sheet of an answered question: the whole page, with its pictures."""

from __future__ import annotations

from collections.abc import Collection

from crib.pages.answer import page
from crib.pages.blocks import Blocks
from crib.pages.more import ALL, More
from crib.pages.scenes import scene_of
from crib.planning.advise import Answered
from crib.shop import Shop


def sheet(found: Answered, refused: int | None = None, shop: Shop | None = None, more: Collection[More] = ALL
          ) -> Blocks:
    """The blocks. `refused`: how many refused cutters to show, None for all; `shop`: the one whose settings are told
    behind the cost; `more`: what is shown beside the first screen."""
    drawn = list(map(scene_of, found.proved[:1]))
    return page(found.advice, drawn, refused, more, shop)
