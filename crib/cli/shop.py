"""`crib shop`: what the shop has and asks for."""

from __future__ import annotations

from collections.abc import Callable

from crib.app import shop as setting
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import SHOP_SLOTS
from crib.cli.declared import Command
from crib.cli.later import typer
from crib.cli.status import Status
from crib.intake.shop_settings import SETTINGS, WEIGHTS
from crib.light.hints import Annotated
from crib.pages.card import settings
from crib.pages.card import weights as reckoned_with


def _shop(
    ctx: typer.Context,
    weights: Annotated[bool, typer.Option("--weights", help="Show what the cost is reckoned with: minutes, chances, "
                                          "wear, each with its option")] = False,
    yes: Annotated[bool, typer.Option("--yes", help="Set what no shop has without asking")] = False,
    *,
    texts: dict[str, str],
) -> Status:
    """Show the shop's settings, after setting those that are given. The word none is an empty list."""
    asked: Asked = ctx.obj
    now = setting.shop(asked.crib, asked.units, texts, _sure(asked, yes))
    if weights:
        figures = {key: (SETTINGS[key].help, SETTINGS[key].source) for key in WEIGHTS}
        lines = out.shown([reckoned_with(now, figures)], now.units)
    else:
        shown = {key: value for key, value in now.as_json().items() if key in SETTINGS and key not in WEIGHTS}
        lines = [*out.shown([settings(shown)], asked.units or now.units), "",
                 "what the cost is reckoned with: crib shop --weights"]
    out.answer(asked, now.as_json(), lines)
    return Status.ANSWERED


def _sure(asked: Asked, yes: bool) -> Callable[[str], bool] | None:
    """Who says whether a value that no shop has is meant: the option, or whoever is at the terminal."""
    if yes:
        return lambda question: True
    if out.is_asking() and not asked.json:
        from crib.cli.before import is_wanted

        return is_wanted
    return None


shop = Command("shop", _shop, SHOP_SLOTS)
