"""`crib make KIND`: which cutters that are owned can make it, and how. A command for each kind of feature."""

from __future__ import annotations

import gc
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.core import TyperGroup

from crib.cli import out
from crib.cli.app import new_app
from crib.cli.asked import Asked
from crib.cli.progress import telling
from crib.cli.remember import past_question, remember
from crib.cli.slots import Slot, with_options
from crib.cli.status import Status
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.findings.message import joined
from crib.planning.watch import PATIENCE, Watch
from crib.store import open_crib

if TYPE_CHECKING:
    from crib.cutters.base import Cutter
    from crib.planning.advice import Advice
    from crib.planning.advise import Answered
    from crib.shop import Shop
    from crib.store import HeldBack, Note

_WITH_A_HINT = ("extra passes", "compromise", "cannot")
_NOT_YET = (
    "pocket", "keyseat", "woodruff", "corner-round", "countersink",
)


_TOLD = 24
"""So many refusals are worked out in full: those shown, and enough beside them to find what would do."""


class Features(TyperGroup):
    """A command for each kind of feature, made when it is wanted."""

    def list_commands(self, ctx: typer.Context) -> list[str]:  # type: ignore[override]
        """The names of the kinds."""
        return list(KINDS)

    def get_command(self, ctx: typer.Context, cmd_name: str) -> Any:  # type: ignore[override]
        """The command of a kind."""
        return _command(cmd_name) if cmd_name in KINDS else None

    def resolve_command(self, ctx: typer.Context, args: list[str]) -> Any:  # type: ignore[override]
        """The command that is meant. Raises `CribError` for a kind that there isn't, or isn't yet."""
        name = args[0]
        if name in _NOT_YET:
            raise CribError("feature", f"a {name} is outside what is reckoned so far", name,
                            "one of " + ", ".join(KINDS))
        if name not in KINDS and not name.startswith("-"):
            from crib.intake.near import one_of

            raise CribError("feature", f"{name!r} is not a kind of feature", name, one_of(name, KINDS))
        return super().resolve_command(ctx, args)


app = new_app(cls=Features, help="Ask which cutters that you own can make something, and how.", no_args_is_help=True)
app.callback()(lambda: None)


def _command(name: str) -> Any:
    from crib.planning.ask import fields

    kind = KINDS[name]
    slots = [Slot(one.key, one.name, one.help, one.value) for one in fields(kind)]

    @with_options(slots)
    def make(
        ctx: typer.Context,
        *,
        texts: dict[str, str],
        refused: Annotated[str, typer.Option(help="How many refused cutters to tell of, or all", metavar="N|all")] = "",
        why: Annotated[bool, typer.Option("--why", help="Show all of the cost, and the settings behind it")] = False,
        relax: Annotated[bool, typer.Option("--relax", help="What change of the drawing would do, where nothing does")
                         ] = False,
        patience: Annotated[float, typer.Option(help="Seconds to look for a way before what was found is told",
                                                metavar="SECONDS", min=0.1)] = PATIENCE,
    ) -> Status:
        return answer(ctx.obj, name, texts, refused, why, relax, patience)

    one = new_app()
    one.command(name, help=f"Which cutters that you own can make {kind.words}, and how.",
                epilog="A tolerance goes behind any size: 5/8+.002-0, 16mm±.02.")(make)
    command = typer.main.get_command(one)
    command.name = name
    return command


def answer(asked: Asked, name: str, texts: dict[str, str], refused: str = "", why: bool = False,
           relax: bool = False, patience: float = PATIENCE) -> Status:
    """Read the question, answer it from the crib, print the answer, and remember it."""
    most = _how_many(refused, 12 if asked.json else 6)
    with open_crib(asked.crib, units=asked.units) as crib:
        then = crib.holdings()
    shop, cutters, away, held = then.shop, list(then.cutters), list(then.away), then.held_back
    seen = [note for note in then.notes if note.kind in ("price", "lent")]
    gc.freeze()  # what was read stays; looking through it for rubbish costs a tenth of a large crib's answer
    units = asked.units or shop.units
    shop = replace(shop, units=units)
    watch = Watch(patience=patience)
    with telling(lambda: watch.says, not asked.json):
        found = advice(name, texts, cutters, shop, units, most_refused=None if most is None else max(most, _TOLD),
                       watch=watch)
        if not watch.stopped:
            found = _with_hint(found, name, texts, cutters, shop, seen)
            found = _with_held(found, name, texts, shop, held) if held and not found.advice.plans else found
            found = _with_away(found, name, texts, cutters, away, shop) if away else found
            if relax and found.advice.answer not in ("as drawn", "refer"):
                found = _relaxed(found, name, texts, cutters, shop)
    if watch.ran_out:
        out.note(f"crib: not everything was tried in {patience:g} s; --patience {4 * patience:g} goes on for longer")
    if watch.stopped:
        out.note("crib: stopped: this is what was found until then; there may be a better one")
    if asked.json:
        from crib.render.json import advice_json

        out.answer(asked, advice_json(found.advice, units, refused="all" if most is None else most), ())
    else:
        shown = sheet(found, units, most)
        out.answer(asked, None, [*shown, *(_why(found.advice, shop, units) if why else ())])
    if shop.remember_questions and not watch.stopped:
        remember(asked, past_question(name, texts, units, found.advice), then)
    return Status.ANSWERED if found.advice.plans else Status.NO


def _with_hint(found: Answered, name: str, texts: Mapping[str, str], cutters: Sequence[Cutter], shop: Shop,
               seen: Sequence[Note]) -> Answered:
    """The answer with its line about money, where it could have one."""
    if found.advice.answer not in _WITH_A_HINT or found.advice.buy is not None:
        return found
    from crib.buying.hint import hint
    from crib.cli.remembered import lent_of, price_of
    from crib.planning.ask import read_request

    request = read_request(name, texts, shop, shop.units)
    prices = [price_of(note, shop.units) for note in seen if note.kind == "price"]
    lent = lent_of(seen, shop.units)
    return replace(found, advice=replace(found.advice, buy=hint(request, found.advice, cutters, shop, prices, lent)))


def _with_away(found: Answered, name: str, texts: Mapping[str, str], cutters: Sequence[Cutter], away: Sequence[Cutter],
               shop: Shop) -> Answered:
    """The answer with what is lent or lost and would do better."""
    from crib.planning.ask import read_request
    from crib.planning.out_of_reach import would_do

    request = read_request(name, texts, shop, shop.units)
    better = would_do(request, found.advice.answer, cutters, away, shop)
    return replace(found, advice=replace(found.advice, away=tuple(one.as_json() for one in better)))


def _with_held(found: Answered, name: str, texts: Mapping[str, str], shop: Shop, held: Sequence[HeldBack]) -> Answered:
    """A no with the lines that were held back and might be what lacks."""
    if found.advice.answer not in ("cannot", "measure first"):
        return found
    from pathlib import PurePath

    from crib.buying.offers import feature_of
    from crib.planning.ask import read_request
    from crib.planning.held import may_be

    feature = feature_of(read_request(name, texts, shop, shop.units))
    lines = [(f"line {one.line} of {PurePath(one.file).name}" if one.file else f"held-back line {one.id}", one.text)
             for one in held]
    more = may_be(lines, feature)
    says = joined("; ", filter(None, (found.advice.says, more)))
    return replace(found, advice=replace(found.advice, says=says))


def _relaxed(found: Answered, name: str, texts: Mapping[str, str], cutters: Sequence[Cutter], shop: Shop) -> Answered:
    """The answer with the smallest changes of the drawing that would do better."""
    from crib.planning.ask import read_request
    from crib.planning.relax import relax

    changes = relax(read_request(name, texts, shop, shop.units), found.advice, cutters, shop)
    return replace(found, advice=replace(found.advice, changes=changes))


def _why(advice: Advice, shop: Shop, units: str) -> list[str]:
    from crib.pages.why import why

    return out.shown(why(advice.plans[0], shop), units) if advice.plans else []


def advice(name: str, texts: Mapping[str, str], cutters: Sequence[Cutter], shop: Shop, units: str,
           typed_in: str | None = None, most_refused: int | None = None, watch: Watch | None = None) -> Answered:
    """The answer in some units to a question whose texts were typed in them, or in others; `watch`: as `advise` has
    it."""
    from crib.planning.advise import advise
    from crib.planning.ask import read_request

    shop = replace(shop, units=units)
    return advise(read_request(name, texts, shop, typed_in or units), cutters, shop, most_refused=most_refused,
                  watch=watch)


def sheet(found: Answered, units: str, refused: int | None) -> list[str]:
    """The whole page of an answer."""
    from crib.pages.answer import page
    from crib.pages.scenes import scene_of

    return out.shown(page(found.advice, [*map(scene_of, found.proved[:1])], refused), units)


def _how_many(text: str, usual: int) -> int | None:
    """How many refusals: None for all, as many as usual where nothing was said."""
    if text == "all":
        return None
    if text and not (text.isascii() and text.isdigit()):
        raise CribError("refused", f"--refused {text!r} is neither a number nor all", text, "--refused all")
    return int(text) if text else usual
