"""What a crib remembers, as the planner takes it: prices seen, friends' cutters, questions of the past."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.buying.bench import Bench
from crib.buying.prices import Price
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.light.hints import TYPE_CHECKING
from crib.machining.metal import metal_of
from crib.planning.ask import read_request
from crib.safety.refer import refer
from crib.shop import Shop
from crib.store import Holdings, Note
from crib.store.notes import cutter_of, size_of

if TYPE_CHECKING:
    from datetime import date

    from crib.buying.uses import Past
    from crib.store import PastQuestion


def bench_of(there: Holdings, shop: Shop) -> Bench:
    """Everything that money is reckoned with."""
    return Bench(there.cutters, shop, prices_of(there.notes, shop.units), lent_of(there.notes, shop.units))


def lent_of(notes: Iterable[Note], units: str) -> tuple[tuple[str, Cutter], ...]:
    """Of some notes the cutters that friends would lend, with whose they are."""
    lent = [(note.about["friend"], cutter_of(note, units)) for note in notes if note.kind == "lent"]
    return tuple((friend, cutter) for friend, cutter in lent if cutter is not None)


def prices_of(notes: Iterable[Note], units: str) -> tuple[Price, ...]:
    """Of some notes the prices seen."""
    return tuple(
        Price(note.about["price"], note.about["shipping"], note.about["seen"], note.words, note.about["where"],
              cutter_of(note, units), size_of(note))
        for note in notes if note.kind == "price")


def history_of(questions: Sequence[PastQuestion], shop: Shop) -> tuple[Past, ...]:
    """The questions of the past that can still be asked, the latest first; none of those that are referred."""
    from crib.buying.uses import Past

    found = []
    for past in questions:
        try:
            request = read_request(past.kind, past.texts, shop, past.units)
            metal_of(request, shop)
        except (CribError, KeyError):
            continue
        if refer(request.use, request.mating) is None:
            found.append(Past(past.id, request, past.times, _day(past.first_at), _day(past.at)))
    return tuple(found)


def today() -> date:
    """Today, where the user is."""
    from datetime import datetime

    return datetime.now().astimezone().date()


def _day(text: str) -> date:
    from datetime import datetime

    return datetime.fromisoformat(text).date()
