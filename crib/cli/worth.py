"""`crib worth KIND`: buy, borrow, grind or work around, and what would turn the answer."""

from __future__ import annotations

from dataclasses import asdict, replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from crib.cli import out
from crib.cli.app import new_app
from crib.cli.asked import Asked
from crib.cli.make import Features
from crib.cli.slots import Slot, with_options
from crib.cli.status import Status
from crib.features import KINDS

if TYPE_CHECKING:
    from crib.buying.offers import Bench, Extra
    from crib.features.base import Request

_TERMS = (
    Slot("price", "price", "Price of what would save most, its shipping behind a plus: 48+9", "MONEY"),
    Slot("shipping", "shipping", "What it costs to get it here", "MONEY"),
    Slot("uses", "uses", "How often it will be wanted, this time with them; else from what was asked", "N"),
    Slot("wait", "wait", "Days until it is here", "DAYS"),
    Slot("deadline", "deadline", "Days that there are, or the day itself", "DAYS|DAY"),
    Slot("day_cost", "day-cost", "What a day of waiting costs, the machine standing", "MONEY"),
    Slot("cutter", "cutter", "Only this cutter, in shop words, of all that could be bought", "WORDS"),
)


class WorthFeatures(Features):
    """A command for each kind of feature, made when it is wanted."""

    def get_command(self, ctx: typer.Context, cmd_name: str) -> Any:  # type: ignore[override]
        """The command of a kind."""
        return _command(cmd_name) if cmd_name in KINDS else None


app = new_app(cls=WorthFeatures, help="Ask whether something is worth buying for a feature.", no_args_is_help=True)
app.callback()(lambda: None)


def _command(name: str) -> Any:
    from crib.planning.ask import fields

    kind = KINDS[name]
    slots = [*(Slot(one.key, one.name, one.help, one.value) for one in fields(kind)), *_TERMS]

    @with_options(slots)
    def worth(
        ctx: typer.Context,
        *,
        texts: dict[str, str],
        accept: Annotated[bool, typer.Option("--accept", help="What the work-around gives away will do")] = False,
    ) -> Status:
        return answer(ctx.obj, name, texts, accept)

    one = new_app()
    one.command(name, help=f"Whether something is worth buying for {kind.words}, or what else to do.")(worth)
    command = typer.main.get_command(one)
    command.name = name
    return command


def answer(asked: Asked, name: str, texts: dict[str, str], accept: bool) -> Status:
    """Read the question, reckon with everything that could be got, print the answer."""
    from crib.buying.worth import Asking, reckon
    from crib.cli.remembered import bench_of, history_of, today
    from crib.intake.money import read_terms
    from crib.pages.worth_page import worth_page
    from crib.planning.ask import read_request
    from crib.render.money_json import worth_json
    from crib.safety.refer import refer
    from crib.store import open_crib

    said = {slot.key for slot in _TERMS}
    with open_crib(asked.crib, units=asked.units) as crib:
        shop = replace(crib.shop(), units=asked.units or crib.shop().units)
        bench, history = bench_of(crib, shop), history_of(crib, shop)
    request = read_request(name, {key: text for key, text in texts.items() if key not in said}, shop, shop.units)
    terms = read_terms(texts, shop, today())
    if refer(request.use, request.mating) is not None:
        from crib.cli.make import answer as made

        return made(asked, name, {key: text for key, text in texts.items() if key not in said})
    only = _only(texts["cutter"], bench, request) if "cutter" in texts else None
    found = reckon(request, bench, Asking(**asdict(terms), accept=accept, only=only), history, today())
    out.answer(asked, worth_json(found, shop.currency, shop.units) if asked.json else None,
               () if asked.json else out.shown(worth_page(found, shop.currency), shop.units))
    return Status.ANSWERED if found.work is not None or found.decision.worth is not None else Status.NO


def _only(words: str, bench: Bench, request: Request) -> Extra:
    """The cutter that is asked about, as if it could be bought."""
    from crib.buying.candidates import said_cutter
    from crib.buying.offers import bought
    from crib.intake.priced import read_one

    return bought(said_cutter(read_one(words, bench.shop), bench.shop), bench, request)
