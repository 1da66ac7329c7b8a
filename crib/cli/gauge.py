"""`crib gauge`: what an unmarked cutter may be."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError

if TYPE_CHECKING:
    from crib.cutters.gauged import Measured


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
    from crib.planning.gauge import gauge as named

    asked: Asked = ctx.obj
    units = _units(asked)
    found = named(_measured(units, diameter, width, pitch, tpi, angle), kind)
    document = {"candidates": [{"kind": one.kind, "label": one.label, "off_mm": _round(one.off_mm), "why": one.why,
                                "twin": one.twin} for one in found]}
    rows = [(one.label, "" if one.off_mm is None else out_by(one.off_mm, units), one.why) for one in found]
    lines = out.table(("it may be", "off", ""), rows) if found else ["nothing that is made fits: measure again"]
    out.answer(asked, document, lines)
    return Status.ANSWERED if found else Status.NO


def out_by(off: float, units: str) -> str:
    """How far off a measurement is, in the user's units."""
    from crib.units import show

    return show(off, units, sign=True, places=4 if units == "in" else 3)


def _round(off: float | None) -> float | None:
    return None if off is None else round(off, 9) + 0.0


def _units(asked: Asked) -> str:
    """The units that bare numbers are in: as asked, else the crib's, else inches."""
    if asked.units:
        return asked.units
    from crib.store import crib_exists, open_crib

    if not crib_exists(asked.crib):
        return "in"
    with open_crib(asked.crib) as crib:
        return crib.units


def _measured(units: str, diameter: str | None, width: str | None, pitch: str | None, tpi: str | None,
              angle: str | None) -> Measured:
    from crib.cutters.gauged import Measured
    from crib.intake.attributes import read_length, read_number
    from crib.planning.gauge import pitch_of

    if pitch is not None and tpi is not None:
        raise CribError("usage", "a pitch and threads per inch say the same thing", f"{pitch} {tpi}", "one of them")
    turns = None if tpi is None else pitch_of(read_number(tpi, "tpi", 1, 200, "threads per inch"))
    return Measured(
        None if diameter is None else read_length(diameter, units, "diameter"),
        None if width is None else read_length(width, units, "width"),
        turns if pitch is None else read_length(pitch, units, "pitch"),
        None if angle is None else read_number(angle.rstrip("°"), "angle", 1, 180, "degrees"),
        units,
    )
