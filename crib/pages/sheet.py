"""The sheet of an answered question: the whole page, with its pictures."""

from __future__ import annotations

from collections.abc import Collection

from crib.pages.answer import beside, page
from crib.pages.blocks import Block, Blocks, Paragraph, spaced
from crib.pages.more import ALL, More
from crib.pages.scenes import scene_of
from crib.planning.advise import Answered
from crib.shop import Shop


def sheet(found: Answered, refused: int | None = None, shop: Shop | None = None, more: Collection[More] = ALL
          ) -> Blocks:
    """The blocks. `refused`: how many refused cutters to show, None for all; `shop`: the one whose settings are told
    behind the cost; `more`: what is shown beside the first screen."""
    drawn = list(map(scene_of, found.proved[:1]))
    return page(found.advice, drawn, refused, more, shop, pieces_of(found))


def in_parts(found: Answered, refused: int | None = None, shop: Shop | None = None
             ) -> tuple[Blocks, dict[More, Blocks]]:
    """The first screen, and beside it each part that may be asked for by itself, where there is anything in it; all in
    one where there is no plan. For who opens parts instead of asking for them."""
    advice, scene = found.advice, next(map(scene_of, found.proved[:1]), None)
    if not advice.plans:
        return page(advice, (), refused, ALL, shop), {}
    first = page(advice, [scene], refused, (), shop, pieces_of(found))
    parts = {one: spaced(beside(advice, scene, refused, (one,), shop)) for one in More}
    return tuple(one for one in first if not _leads_on(one)), {one: part for one, part in parts.items() if part}


def pieces_of(found: Answered) -> int:
    """How many are to be made, where the plan is that of one: of holes and the like it is that of all."""
    feature = next((one.draft.question.feature for one in found.proved[:1]), None)
    return feature.request.count if feature is not None and feature.number == 1 else 1


def _leads_on(one: Block) -> bool:
    """What says by which options the rest is asked for."""
    return isinstance(one, Paragraph) and one.label == "More"
