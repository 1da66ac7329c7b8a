"""Strokes down an axis in words and numbers, as a plan tells them."""

from __future__ import annotations

from collections.abc import Iterator

from crib.findings.finding import Figure
from crib.findings.message import Text
from crib.machining.chain import Chain
from crib.machining.methods.cuts import Cut
from crib.machining.words import Direction, Fed, Role
from crib.planning.reckoning.minutes import cut_minutes
from crib.planning.told.passes import Pass


def passes(chain: Chain) -> Iterator[Pass]:
    """Each stroke, as deep as it is dialled."""
    for number, (job, cut) in enumerate(chain.passes(), start=1):
        tool, z = job.tool, chain.dialled(cut) / 1e6
        yield Pass(
            no=number, cutter_id=tool.id, role=cut.role, room=job.room, x_mm=cut.x / 1e6, z_mm=z,
            dial_x_mm=cut.x / 1e6 if cut.role is Role.SLOT else 0.0,
            dial_z_mm=z, dial_from_mm=_table(cut), dial_to_mm=_table(cut),
            radial_mm=cut.radial / 1e6, diameter_mm=cut.diameter_mm,
            axial_mm=abs(z) if cut.fed is Fed.DOWN else cut.axial / 1e6, feed=cut.fed,
            direction=Direction.AXIAL,
            rpm=None if tool.by_hand or tool.step is None else tool.step.rpm, wanted_rpm=round(tool.wanted_rpm),
            mm_per_min=0.0 if tool.by_hand or cut.fed is Fed.OUT else tool.feed,
            minutes=cut_minutes(tool, 0.0, cut) * chain.question.feature.number, says=cut.says,
        )


def _table(cut: Cut) -> float | None:
    """Where the table stands, where that is set for it [mm]."""
    return cut.x / 1e6 if cut.fed is Fed.ROUND else None


def figures(chain: Chain) -> Iterator[Figure]:
    """What was reckoned of a gib's screws, of a circle, then of the hole."""
    from crib.rules import gib_screws

    yield from gib_screws.figures(chain)
    if chain.question.feature.circle:
        yield from (Figure(what, mm) for what, mm in chain.question.feature.measures)
    yield from chain.figures


def assumed(chain: Chain) -> Iterator[Text]:
    """What is taken for granted of a gib's screws, then of the hole."""
    from crib.rules import gib_screws

    yield from gib_screws.assumed(chain.question)
    yield from chain.assumed
