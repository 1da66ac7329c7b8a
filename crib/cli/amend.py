"""`crib amend`: change what is known of a cutter, or of many at once."""

from __future__ import annotations

from collections.abc import Mapping

from crib.app import life
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.declared import Command
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.light.hints import Annotated
from crib.pages.card import card, overruled
from crib.render.words import words


def _amend(
    ctx: typer.Context,
    numbers: Annotated[str | None, typer.Argument(metavar="[ID]", help="The cutter's number; 1-20,25 for many")] = None,
    where: Annotated[str | None, typer.Option("--where", help="All that a search finds: \"end mills in B3\"")] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Change many without asking")] = False,
    *,
    texts: dict[str, str],
) -> Status:
    """Change a cutter; its history keeps what it was. The word unknown takes a value away. Of many it is shown first
    what would change."""
    asked: Asked = ctx.obj
    if (numbers is None) == (where is None):
        raise CribError("usage", "which cutters?", numbers or "", "crib amend 12, crib amend 1-20,25, or "
                        "crib amend --where \"end mills in B3\"")
    if not texts:
        what = numbers if numbers is not None else f'--where "{where}"'
        raise CribError("usage", "nothing to change is given", "", f"crib amend {what} --neck .250 --measured neck")
    if numbers is not None and numbers.isascii() and numbers.isdigit():
        return _one(asked, int(numbers), texts)
    return _many(asked, numbers, where or "", texts, yes)


def _one(asked: Asked, number: int, texts: Mapping[str, str]) -> Status:
    with asked.open() as crib:
        became, units = life.amend(crib, number, texts), crib.units
    after = became.after
    out.answer(asked, after.as_json(), out.shown(card(after, {}), units))
    for says in overruled(became.before, after):
        out.note(words(says, units))
    return Status.ANSWERED


def _many(asked: Asked, numbers: str | None, where: str, texts: Mapping[str, str], yes: bool) -> Status:
    """What would change is shown, and done where it is wanted."""
    from crib.app import many
    from crib.app.rehearsal import done, rehearsed
    from crib.cli.before import is_wanted, rows

    with asked.open() as crib:
        cutters = many.wanted(crib, where) if numbers is None else many.numbered(crib, numbers)
        deed = many.amending(crib, cutters, texts)
        shown = rehearsed(crib, deed)
        labels = {f"cutter {cutter.id}": cutter.label for cutter in cutters}
        document = {"cutters": [cutter.id for cutter in cutters], "changes": [one.as_json() for one in shown]}
        same = len(cutters) - len(shown)
        if not asked.json:
            out.answer(asked, None, [*rows(shown, crib.units, labels), *([f"{same} as said already"] if same else [])])
        if not shown:
            out.answer(asked, {**document, "is_done": False}, ())
            return Status.NO
        if not yes and not (out.is_asking() and not asked.json and is_wanted(f"Change {len(shown)} of them?")):
            out.answer(asked, {**document, "is_done": False}, ["nothing was changed; --yes does it"])
            return Status.NO
        crib.put_by("before-amend")
        made = done(crib, deed, shown)
    first, last = made[0].id, made[-1].id
    back = f"crib undo {first}" if first == last else f"crib undo {first}-{last}"
    out.answer(asked, {**document, "changes": [one.as_json() for one in made], "is_done": True},
               [f"{len(made)} changed; {back} takes it back"])
    return Status.ANSWERED


amend = Command("amend", _amend, CUTTER_SLOTS)
