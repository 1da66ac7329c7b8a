"""`crib kinds` and `crib materials`: what can be named, and the words that are read as it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status

if TYPE_CHECKING:
    from crib.app.named import Named


def kinds(ctx: typer.Context) -> Status:
    """List the features that can be asked for and the kinds of cutter, with the words for each."""
    from crib.app import named

    asked: Asked = ctx.obj
    features, cutters = named.features(), named.cutters()
    made = [(one.name, *one.words, " ".join(one.needs), " ".join(one.instead)) for one in features]
    owned = [(one.name, ", ".join(one.words)) for one in cutters]
    out.answer(asked, {"features": _listed(features), "cutters": _listed(cutters)}, [
        *out.table(("crib make", "is", "needs", "or by"), made), "",
        *out.table(("cutter", "said"), owned)])
    return Status.ANSWERED


def materials(ctx: typer.Context) -> Status:
    """List the materials that are known, with the names and grades that are read as each."""
    from crib.app import named

    asked: Asked = ctx.obj
    found = named.materials()
    rows = [(one.name, ", ".join(one.words)) for one in found]
    out.answer(asked, {"materials": _listed(found)}, out.table(("material", "also said"), rows))
    return Status.ANSWERED


def _listed(found: Iterable[Named]) -> list[dict[str, Any]]:
    return [{"name": one.name, "words": list(one.words)}
            | ({"needs": list(one.needs), "or_by": list(one.instead)} if one.needs else {}) for one in found]
