"""`crib to-mic`: the few measurements that would turn most of the questions asked so far into answers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.store import PastQuestion, open_crib

if TYPE_CHECKING:
    from crib.planning.to_mic import Pending
    from crib.shop import Shop


def to_mic(
    ctx: typer.Context,
    most: Annotated[int, typer.Option("--most", help="How many cutters you would measure", metavar="N")] = 3,
) -> Status:
    """Which cutters to measure so that the most of what you asked so far can be answered, or answered better."""
    from crib.cli.progress import ticking
    from crib.intake.attributes import ATTRIBUTES
    from crib.pages.asked_again import in_a_line
    from crib.pages.to_mic_page import to_mic_page
    from crib.planning import to_mic as measuring
    from crib.render.to_mic_json import to_mic_json

    asked: Asked = ctx.obj
    if most < 1:
        raise CribError("most", f"--most {most} is no number of cutters", str(most), "--most 3")
    with open_crib(asked.crib, units=asked.units) as crib:
        shop, cutters, questions = crib.shop(), crib.cutters(), crib.questions()
    units = asked.units or shop.units
    pending, skipped = _pending(questions, shop)
    found = measuring.to_mic(ticking(pending, "asked again", long=2), cutters, replace(shop, units=units), most)
    found = replace(found, skipped=(*skipped, *found.skipped))
    for number, why in found.skipped:
        out.note(f"question {number} can't be asked any more: {why}")
    if not found.measures:
        lines = [_nothing(len(questions), most, found.could_turn)]
    else:
        said = {one.id: in_a_line(one.as_json()) for one in questions}
        lines = out.shown(to_mic_page(found, said, {key: one.option for key, one in ATTRIBUTES.items()}), units)
    out.answer(asked, to_mic_json(found, units) | {"questions": len(questions)}, lines)
    return Status.ANSWERED if found.measures else Status.NO


def _pending(questions: Iterable[PastQuestion], shop: Shop) -> tuple[list[Pending], list[tuple[int, str]]]:
    """The questions as requests, and those that can't be read any more with why."""
    from crib.features import KINDS
    from crib.planning.ask import read_request
    from crib.planning.to_mic import Pending

    pending, skipped = [], []
    for one in questions:
        if one.kind not in KINDS:
            skipped.append((one.id, f"a {one.kind} isn't reckoned with here"))
            continue
        try:
            pending.append(Pending(one.id, read_request(one.kind, one.texts, shop, one.units), one.times))
        except CribError as error:
            skipped.append((one.id, error.diagnostic.what))
    return pending, skipped


def _nothing(asked: int, most: int, could_turn: tuple[int, ...]) -> str:
    if could_turn:
        return f"no answer turns with so few cutters measured; it takes more than that: crib to-mic --most {most + 1}"
    if not asked:
        return "nothing was asked yet: crib make asks, and what it was asked is remembered"
    return f"no measuring would turn an answer: none of what was asked ({asked}) hangs on a size that isn't known"
