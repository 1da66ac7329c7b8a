"""`crib gauge`: what an unmarked cutter may be."""

from __future__ import annotations

from typing import Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status


def gauge(
    ctx: typer.Context,
    kind: Annotated[str | None, typer.Option(help="A kind, such as tap, drill, end-mill or keyseat-cutter")] = None,
    diameter: Annotated[str | None, typer.Option(help="Across teeth, margins or full threads", metavar="SIZE")] = None,
    width: Annotated[str | None, typer.Option(help="Width of the teeth of a disc", metavar="SIZE")] = None,
    pitch: Annotated[str | None, typer.Option(help="Pitch: .0312 or 0.8mm", metavar="SIZE")] = None,
    tpi: Annotated[str | None, typer.Option(help="Threads per inch by the pitch gauge", metavar="N")] = None,
    angle: Annotated[str | None, typer.Option(help="By the protractor; a thread's flanks", metavar="DEGREES")] = None,
) -> Status:
    """Name an unmarked cutter from what calipers, pitch gauge and protractor say."""
    from crib.app.gauge import gauge as named
    from crib.app.opening import units_of
    from crib.pages.gauge_page import gauge_page
    from crib.render.gauge_json import gauge_json

    asked: Asked = ctx.obj
    units = units_of(asked.crib, asked.units)
    found = named(kind, diameter=diameter, width=width, pitch=pitch, tpi=tpi, angle=angle, units=units)
    lines = out.shown([gauge_page(found)], units) if found else ["nothing that is made fits: measure again"]
    out.answer(asked, gauge_json(found, units), lines)
    return Status.ANSWERED if found else Status.NO
