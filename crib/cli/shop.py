"""`crib shop`: what the shop has and asks for."""

from __future__ import annotations

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import SHOP_SLOTS
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.intake.shop_settings import read_settings
from crib.planning.shop import Shop
from crib.sheets.card import settings
from crib.store import crib_exists, open_crib


@with_options(SHOP_SLOTS)
def shop(ctx: typer.Context, *, texts: dict[str, str]) -> Status:
    """Show the shop's settings, after setting those that are given. The word none is an empty list."""
    asked: Asked = ctx.obj
    changes = read_settings(texts, asked.units or _units(asked)) if texts else {}
    with open_crib(asked.crib, create=bool(changes), units=asked.units) as crib:
        now = crib.set_shop(changes) if changes else crib.shop()
    rows = settings(now.as_json(), asked.units or now.units)
    out.answer(asked, now.as_json(), out.table(("setting", "is"), rows))
    return Status.ANSWERED


def _units(asked: Asked) -> str:
    if not crib_exists(asked.crib):
        return Shop().units
    with open_crib(asked.crib, create=True) as crib:
        return crib.units
