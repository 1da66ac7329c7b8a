"""`crib gauge`: what something unmarked may be."""

from __future__ import annotations

from typing import Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status


def gauge(
    ctx: typer.Context,
    kind: Annotated[str | None, typer.Option(help="A kind of cutter, or screw, internal-thread, taper")] = None,
    diameter: Annotated[str | None, typer.Option(help="Across teeth, threads, a large end", metavar="SIZE")] = None,
    width: Annotated[str | None, typer.Option(help="Width of the teeth of a disc", metavar="SIZE")] = None,
    pitch: Annotated[str | None, typer.Option(help="Pitch: .0312 or 0.8mm", metavar="SIZE")] = None,
    tpi: Annotated[str | None, typer.Option(help="Threads per inch by the pitch gauge", metavar="N")] = None,
    angle: Annotated[str | None, typer.Option(help="By the protractor; threads' flanks", metavar="DEGREES")] = None,
    hole: Annotated[str | None, typer.Option(help="Largest drill that enters a thread", metavar="SIZE")] = None,
    small: Annotated[str | None, typer.Option(help="A taper's small end", metavar="SIZE")] = None,
    length: Annotated[str | None, typer.Option(help="Between a taper's two diameters", metavar="SIZE")] = None,
    radius: Annotated[str | None, typer.Option(help="By the radius gauge", metavar="SIZE")] = None,
    pin: Annotated[str | None, typer.Option(help="Laid in a dovetail, better two: 1/2,1/4", metavar="SIZES")] = None,
    over_pins: Annotated[str | None, typer.Option(help="Over two of each pin, of a slide", metavar="SIZES")] = None,
    between_pins: Annotated[str | None, typer.Option(help="Between two, of a slot", metavar="SIZES")] = None,
    opening: Annotated[str | None, typer.Option(help="A dovetail's width at the surface", metavar="SIZE")] = None,
    height: Annotated[str | None, typer.Option(help="A dovetail's height", metavar="SIZE")] = None,
) -> Status:
    """Name what isn't marked from what calipers, pitch gauge, pins and protractor say: a cutter, a screw, a tapped
    hole, a taper, a dovetail. What is worn is named too, with how far off it is."""
    from crib.app.gauge import gauge as named
    from crib.app.opening import units_of
    from crib.pages.gauge_page import gauge_page
    from crib.render.json.gauge import gauge_json

    asked: Asked = ctx.obj
    units = units_of(asked.crib, asked.units)
    found = named(kind, units=units, diameter=diameter, width=width, pitch=pitch, tpi=tpi, angle=angle, hole=hole,
                  small=small, length=length, radius=radius, pin=pin, over_pins=over_pins, between_pins=between_pins,
                  opening=opening, height=height)
    out.answer(asked, gauge_json(found, units), out.shown(gauge_page(found), units))
    return Status.ANSWERED if found.candidates else Status.NO
