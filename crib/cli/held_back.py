"""`crib held-back`: the lines that couldn't be taken in."""

from __future__ import annotations

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.store import open_crib


def held_back(ctx: typer.Context) -> Status:
    """List what was held back, oldest first."""
    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        held = crib.held_back()
    rows = [(one.file or "typed", str(one.line), one.text, one.why) for one in held]
    lines = out.table(("from", "line", "text", "why"), rows) if held else ["nothing is held back"]
    out.answer(asked, {"held_back": [one.as_json() for one in held]}, lines)
    return Status.ANSWERED
