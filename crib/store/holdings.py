"""All that a question is answered from, read in one go: a shared crib may be far away."""

from __future__ import annotations

import json

from crib.cutters.base import Cutter
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later
from crib.light.records import dataclass, replace
from crib.shop import Shop, from_json
from crib.store import notes
from crib.store.columns import CUTTER_READ, HELD_BACK, NOTE
from crib.store.database import Database
from crib.store.notes import Note
from crib.store.rows import from_rows
from crib.store.statements import listed

if TYPE_CHECKING:
    from crib.store import held_back
    from crib.store.held_back import HeldBack
else:
    held_back = later("crib.store.held_back")

SETTINGS = "SELECT name, value FROM setting"
NOTES = f"SELECT {listed(NOTE)} FROM note ORDER BY id"
THERE = f'SELECT {listed(CUTTER_READ)} FROM cutter WHERE "count" > 0 ORDER BY id'
AWAY = f"SELECT {listed(CUTTER_READ)} FROM cutter WHERE rest LIKE '%\"away\"%' ORDER BY id"
HELD = f"SELECT {listed(HELD_BACK)} FROM held_back ORDER BY id"
LAST = "SELECT coalesce(max(id), 0), (SELECT max(at) FROM question) FROM change"


@dataclass(frozen=True)
class Holdings:
    """What is owned, the shop and what was noted, at one moment. `last_change`: the number of the last change before;
    `last_asked`: when the last question was asked."""

    shop: Shop
    cutters: tuple[Cutter, ...]
    away: tuple[Cutter, ...]
    notes: tuple[Note, ...]
    held_back: tuple[HeldBack, ...]
    last_change: int
    last_asked: str | None


def holdings(database: Database, units: str | None) -> Holdings:
    """All of it; cutters named in these units, else in the shop's."""
    settings, noted, held, [(change, asked)], away, there = database.read(SETTINGS, NOTES, HELD, LAST, AWAY, THERE)
    own = tuple(notes.from_row(row) for row in noted)
    shop = replace(from_json({name: json.loads(value) for name, value in settings}), own=notes.own(own))
    cutters, gone = (tuple(from_rows(rows, units or shop.units)) for rows in (there, away))
    return Holdings(shop, cutters, gone, own, tuple(held_back.from_row(row) for row in held), int(change), asked)
