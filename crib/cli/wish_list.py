"""`crib wish-list`: which purchases would save most, by all that was asked of the crib."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status


def wish_list(
    ctx: typer.Context,
    budget: Annotated[str | None, typer.Option(help="The most that may be spent", metavar="MONEY")] = None,
) -> Status:
    """Everything that could be bought for what was asked so far, and what to choose within a budget."""
    from crib.buying.wishes import wish_list as reckon
    from crib.cli.progress import ticking
    from crib.cli.remembered import bench_of, history_of, today
    from crib.intake.money import read_money
    from crib.pages.wish_page import wish_page
    from crib.render.money_json import wish_json
    from crib.store import open_crib

    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        shop = replace(crib.shop(), units=asked.units or crib.shop().units)
        most = None if budget is None else read_money(budget, shop.currency, "budget")
        bench, history = bench_of(crib, shop), history_of(crib, shop)
    found = reckon(bench, history, most, today(), lambda past: ticking(past, "questions", 3))
    out.answer(asked, wish_json(found, shop, most) if asked.json else None,
               () if asked.json else out.shown(wish_page(found, shop, most), shop.units))
    return Status.ANSWERED if found.wishes else Status.NO
