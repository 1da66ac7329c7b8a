"""`crib to-mic`: the few measurements that would turn most of the questions asked so far into answers."""

from __future__ import annotations

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.light.hints import Annotated, Any


def to_mic(
    ctx: typer.Context,
    most: Annotated[int, typer.Option("--most", help="How many cutters you would measure", metavar="N")] = 3,
) -> Status:
    """Which cutters to measure so that the most of what you asked so far can be answered, or answered better."""
    from crib.app import to_mic as measuring
    from crib.cli.progress import trials
    from crib.intake.attributes import ATTRIBUTES
    from crib.pages.asked_again import in_a_line
    from crib.pages.to_mic_page import nothing_to_mic, to_mic_page
    from crib.render.words import words

    def document() -> dict[str, Any]:
        from crib.render.json.to_mic import to_mic_json

        return to_mic_json(found, units) | {"questions": len(questions)}

    asked: Asked = ctx.obj
    with asked.open() as crib:
        units = crib.units
        with trials(units, not asked.json) as row:
            found, questions = measuring.to_mic(crib, most, row)
    for number, why in found.skipped:
        out.note(f"question {number} can't be asked any more: {words(why, units)}")
    if not found.measures:
        lines = [nothing_to_mic(row.tried if row.stopped else len(questions), most, found.could_turn,
                                not row.stopped)]
    else:
        said = {one.id: in_a_line(one.as_json()) for one in questions}
        lines = out.shown(to_mic_page(found, said, {key: one.option for key, one in ATTRIBUTES.items()}), units)
    out.answer(asked, document, lines)
    return Status.ANSWERED if found.measures else Status.NO
