"""Asking a crib what of it can make a feature: read once, planned, and, once it was answered, remembered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager, nullcontext

from crib.app.beside import with_all_beside
from crib.features import KINDS
from crib.features.request import Request
from crib.findings import notices
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, replace
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.planning.search.watch import PATIENCE, Watch
from crib.planning.told.advice import Advice
from crib.shop import Shop
from crib.store import Crib, Holdings

if TYPE_CHECKING:
    from crib.store import PastQuestion

_TOLD = 24
"""So many refusals are worked out in full at the least: those shown, and enough beside them to find what would do."""

_HURRY = 0.25
"""How long a locked crib is waited for when a question is remembered [s]: whoever has the answer wants to go on."""

Around = Callable[[Callable[[], str]], AbstractContextManager[None]]
"""What stands around a search: it is handed what says how far the search is."""


@dataclass(frozen=True)
class Enquiry:
    """A question as it was typed, by key and in units, and as it was read; `there`: what it is answered from. The shop
    is set to the units of the answer."""

    kind: str
    texts: Mapping[str, str]
    typed_in: str
    request: Request
    shop: Shop
    there: Holdings


@dataclass(frozen=True)
class Reply:
    """A question with its answer. `found`: the advice and the proved plans behind it; `ran_out`: not everything was
    tried in the time there was; `stopped`: nor would whoever asked wait for it."""

    enquiry: Enquiry
    found: Answered
    ran_out: bool = False
    stopped: bool = False

    @property
    def advice(self) -> Advice:
        """The advice."""
        return self.found.advice

    @property
    def past(self) -> PastQuestion:
        """The question with its answer, as the crib keeps it."""
        from crib.store import PastQuestion

        asked, advice = self.enquiry, self.advice
        if not advice.plans:
            return PastQuestion(asked.kind, asked.texts, asked.typed_in, advice.answer)
        best = advice.plans[0]
        return PastQuestion(asked.kind, asked.texts, asked.typed_in, advice.answer, cost=best.cost,
                            currency=best.currency, minutes=best.minutes,
                            cutters=tuple(cutter.id for cutter in best.cutters))


def read(crib: Crib, kind: str, texts: Mapping[str, str], typed_in: str | None = None, units: str | None = None
         ) -> Enquiry:
    """A question of a crib, typed in some units and to be answered in others; the crib's own where none are said.
    Raises `CribError` for what can't be read."""
    there = crib.holdings()
    shop = replace(there.shop, units=units or crib.units)
    typed_in = typed_in or shop.units
    return Enquiry(kind, texts, typed_in, read_request(kind, texts, shop, typed_in), shop, there)


def ask(crib: Crib, kind: str, texts: Mapping[str, str], refused: int | None = None, relax: bool = False,
        patience: float = PATIENCE, around: Around = lambda says: nullcontext()) -> Reply:
    """What of a crib can make a feature, and what is to be said beside it: what buying would do, what is lent, what was
    held back, and with `relax` which change of the drawing would do better.

    `refused`: how many refused cutters are told of, None for all; `patience`: seconds to look for a way. Raises
    `CribError` for what can't be read or reckoned with.
    """
    enquiry = read(crib, kind, texts)
    if enquiry.typed_in == "in":
        _ask_after_large(kind, texts)
    return answer(enquiry, refused, relax, patience, around)


_LARGE_IN = 4.0
"""From so many inches on a bare whole number may be one of millimetres."""


def _ask_after_large(kind: str, texts: Mapping[str, str]) -> None:
    """Leave word of sizes whose bare whole numbers count as inches and are large for a cut; none is of its length."""
    for key in (one.key for one in KINDS[kind].sizes):
        text = texts.get(key, "").strip()
        if key != "length" and text.isdecimal() and int(text) >= _LARGE_IN:
            notices.say(f"the {key.replace('_', ' ')}, {text}, is read as inches; if it is millimetres say {text}mm")


def answer(enquiry: Enquiry, refused: int | None = None, relax: bool = False, patience: float = PATIENCE,
           around: Around = lambda says: nullcontext()) -> Reply:
    """The answer to a question that was read, as `ask` has it."""
    there, watch, beside = enquiry.there, Watch(patience=patience), ""
    with around(lambda: beside or watch.says):
        found = advise(enquiry.request, there.cutters, enquiry.shop, watch=watch,
                       most_refused=None if refused is None else max(refused, _TOLD))
        beside = "trying changes of the drawing" if relax else "trying what could be got"
        try:
            if not watch.stopped:
                advice = with_all_beside(found, enquiry.request, enquiry.shop, there, relax, watch)
                found = replace(found, advice=advice)
        except KeyboardInterrupt:
            watch.stopped = True
    return Reply(enquiry, found, watch.ran_out, watch.stopped)


def remember(crib: Crib, reply: Reply) -> None:
    """Write a question down in the crib that answered it, unless the owner doesn't want it or the search was stopped.
    Raises `CribError` where that can't be done."""
    if reply.enquiry.shop.remember_questions and not reply.stopped:
        crib.hurry(_HURRY)
        crib.remember(reply.past, reply.enquiry.there)
