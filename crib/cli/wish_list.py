"""`crib wish-list`: which purchases would save most, by all that was asked of the crib."""

from __future__ import annotations

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.light.hints import Annotated, Any


def wish_list(
    ctx: typer.Context,
    budget: Annotated[str | None, typer.Option(help="The most that may be spent", metavar="MONEY")] = None,
) -> Status:
    """Everything that could be bought for what was asked so far, and what to choose within a budget."""
    from crib.app import wishes
    from crib.cli.progress import trials
    from crib.pages.wish_page import wish_page

    def document() -> dict[str, Any]:
        from crib.render.json.money import wish_json

        return wish_json(found, shop, most)

    asked: Asked = ctx.obj
    with asked.open() as crib, trials(crib.units, not asked.json) as row:
        found, most, shop = wishes.wish_list(crib, budget, row)
    out.answer(asked, document, lambda: out.shown(wish_page(found, shop, most, not row.stopped), shop.units))
    return Status.ANSWERED if found.wishes else Status.NO
