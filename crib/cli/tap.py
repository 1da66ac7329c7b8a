"""`crib tap`: whether tap and drill belong together, before the part is spoilt."""

from __future__ import annotations

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.findings.verdicts import Verdict
from crib.light.hints import Annotated


def tap(
    ctx: typer.Context,
    thread: Annotated[list[str] | None, typer.Argument(help="The thread: 10-32, quarter twenty, M6x1, 0BA, 3/8 whit",
                                                       metavar="THREAD")] = None,
    depth: Annotated[str | None, typer.Option(help="Depth of full thread; with --through, the thickness")] = None,
    through: Annotated[bool, typer.Option("--through", help="The hole goes through")] = False,
    below: Annotated[str | None, typer.Option(help="Metal under the full thread")] = None,
    class_: Annotated[str | None, typer.Option("--class", help="2B, 6H, or none", metavar="CLASS")] = None,
    material: Annotated[str, typer.Option(help="What it is cut in: grey iron, 1018, 304 ...")] = "",
    drill: Annotated[str | None, typer.Option(help="The drill in hand, to be checked", metavar="SIZE")] = None,
    form: Annotated[str | None, typer.Option(help="The tap in hand: cutting or forming")] = None,
    use: Annotated[str | None, typer.Option(help="What the part is for")] = None,
    mating: Annotated[str | None, typer.Option(help="What goes in it")] = None,
    power: Annotated[bool, typer.Option("--power", help="Tapped under power; else by hand")] = False,
    check_all: Annotated[bool, typer.Option("--check-all", help="Every tap against every drill")] = False,
) -> Status:
    """Taps and drills that you own for a thread, best first, with the hole each makes."""
    from crib.app import tap as tapping

    asked: Asked = ctx.obj
    words = " ".join(thread or [])
    if bool(words) == check_all:
        raise CribError("usage", "a thread and --check-all don't go together" if words else "no thread is given", words,
                        "crib tap 10-32, or crib tap --check-all")
    if check_all:
        return _check_all(asked, material, class_)
    with asked.open() as crib:
        advice = tapping.tap(crib, words, depth=depth, through=through, below=below, class_name=class_,
                             material=material, drill=drill, form=form, use=use, mating=mating, power=power)
        units = crib.units
    if asked.json:
        from crib.render.json.tap import tap_json

        out.answer(asked, tap_json(advice, units))
    else:
        from crib.pages.tap_page import tap_page

        out.answer(asked, None, out.shown(tap_page(advice), units))
    return Status.NO if advice.answer in (Verdict.CANNOT, Verdict.REFER, Verdict.MEASURE_FIRST) else Status.ANSWERED


def _check_all(asked: Asked, material: str, class_name: str | None) -> Status:
    from crib.app import tap as tapping
    from crib.pages.tap_page import checked_page
    from crib.render.json.tap import checked_json

    with asked.open() as crib:
        found, units = tapping.check_all(crib, material, class_name), crib.units
    out.answer(asked, lambda: checked_json(found, units), lambda: out.shown(checked_page(found), units))
    return Status.ANSWERED if found and all(one.drills for one in found) else Status.NO
