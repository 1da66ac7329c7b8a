"""`crib shop`: what the shop has and asks for."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import SHOP_SLOTS
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.intake.shop_settings import SETTINGS, WEIGHTS, read_settings
from crib.pages.card import settings
from crib.pages.card import weights as reckoned_with
from crib.shop import Shop
from crib.store import crib_exists, open_crib


@with_options(SHOP_SLOTS)
def shop(
    ctx: typer.Context,
    weights: Annotated[bool, typer.Option("--weights", help="Show what the cost is reckoned with: minutes, chances, "
                                          "wear, each with its option")] = False,
    *,
    texts: dict[str, str],
) -> Status:
    """Show the shop's settings, after setting those that are given. The word none is an empty list."""
    asked: Asked = ctx.obj
    changes = read_settings(texts, asked.units or _units(asked)) if texts else {}
    with open_crib(asked.crib, create=bool(changes), units=asked.units) as crib:
        now = crib.set_shop(changes) if changes else crib.shop()
    out.answer(asked, now.as_json(), _weights(now) if weights else _settings(now, asked.units or now.units))
    return Status.ANSWERED


def _settings(now: Shop, units: str) -> list[str]:
    shown = {key: value for key, value in now.as_json().items() if key in SETTINGS and key not in WEIGHTS}
    return [*out.shown([settings(shown)], units), "",
            "what the cost is reckoned with: crib shop --weights"]


def _weights(now: Shop) -> list[str]:
    figures = {key: (SETTINGS[key].help, SETTINGS[key].source) for key in WEIGHTS}
    return out.shown([reckoned_with(now, figures)], now.units)


def _units(asked: Asked) -> str:
    if not crib_exists(asked.crib):
        return Shop().units
    with open_crib(asked.crib, create=True) as crib:
        return crib.units
