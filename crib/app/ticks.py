"""What is ticked off on the sheet of an answer: kept with the crib, so that whoever opens the sheet again goes on."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from hashlib import sha256

from crib.app.asking import Reply
from crib.store import Crib


def sheet_of(reply: Reply, boxes: Iterable[str]) -> str:
    """The name of an answer's sheet: by what is asked, by the passes of its best plan as they are set, and by the boxes
    there are. Another plan is another sheet, on which nothing is ticked yet."""
    asked = reply.enquiry
    passes = [[one.no, one.cutter_id, one.role, one.x_mm, one.y_mm, one.z_mm] for plan in reply.advice.plans[:1]
              for one in plan.passes]
    said = [asked.kind, sorted((key, text.strip()) for key, text in asked.texts.items()), asked.typed_in, passes,
            list(boxes)]
    return sha256(json.dumps(said).encode()).hexdigest()[:16]


def ticked(crib: Crib, sheet: str) -> frozenset[str]:
    """The boxes of a sheet that are ticked."""
    state: dict[str, bool] = {}
    for change in crib.changes(f"sheet {sheet}"):
        state |= (change.after or {}).get("boxes", {})
    return frozenset(box for box, is_done in state.items() if is_done)


def tick(crib: Crib, sheet: str, boxes: Mapping[str, bool]) -> frozenset[str]:
    """Tick boxes of a sheet, or take ticks back; those that are ticked then. What is so already isn't written down."""
    with crib.transaction():
        there = ticked(crib, sheet)
        if changed := {box: is_done for box, is_done in boxes.items() if (box in there) != is_done}:
            crib.tick(sheet, changed)
        return there - {box for box in changed if not changed[box]} | {box for box in changed if changed[box]}
