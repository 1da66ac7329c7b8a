"""Is it worth the money? One question, reckoned with everything that could be got, and what would turn the answer."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from crib.buying.bench import Bench, Extra
from crib.buying.compare import BOUGHT, Worth, bill_of
from crib.buying.decide import Decision, Terms, decide, surer, winner
from crib.buying.elsewhere import neighbour, without_twice
from crib.buying.flips import Flip, confirmed, first_use, hour_at, settled
from crib.buying.offers import extras, pairs, worths
from crib.buying.prices import is_same
from crib.buying.uses import Past, expected_uses, served_by
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.message import Text, joined, said
from crib.findings.verdicts import Verdict
from crib.light.records import dataclass, replace
from crib.planning.search.watch import Trials
from crib.planning.told.advice import Advice, AnyPlan


@dataclass(frozen=True)
class Answer:
    """The whole answer. `work` is the best plan with what is owned, None where there is none: `verdict` then says
    whether something must be measured or can't be made. `served`: questions of the past that the offer would serve."""

    decision: Decision
    work: AnyPlan | None
    verdict: Verdict
    worths: tuple[Worth, ...]
    terms: Terms
    flips: tuple[Flip, ...] = ()
    served: tuple[Past, ...] = ()
    remark: Text = ""


def reckon(request: Request, bench: Bench, terms: Terms, history: Sequence[Past] = (), today: date | None = None,
           only: Extra | None = None, trials: Trials | None = None) -> Answer:
    """The answer; of `only` this and nothing else that could be bought, where it is given. `trials`: for who waits;
    where it is stopped, by what was tried of what could be got, without what would turn it or was asked before. Raises
    `CribError` for what `advise` raises it for."""
    trials = trials or Trials()
    work = bench.best(request)
    answered = None if work else bench.why_not(request)
    verdict = work.answer if work else answered.answer if answered else Verdict.CANNOT
    offered = _offered(request, bench, only)
    found = _found(request, bench, work, offered, terms, trials)
    single, is_round = offered, bench.feature(request).down is not None
    for number in (2, 3)[:1 + is_round]:  # a bored hole may want a drill, a bar and the head for it
        if work is None and not found and not trials.stopped:
            offered = list(pairs(single, number))
            found = _found(request, bench, work, offered, terms, trials)
    offered, found = _priced(request, bench, work, offered, found, terms)
    focus = _focus(found)
    trials.at = "looking at what was asked before"
    served = () if trials.stopped else _served(focus, offered, history, bench, request)
    terms = terms if terms.said else replace(terms, uses=_expected(served, bench, today))
    decision = decide(work, found, terms, bench.shop.currency, verdict == Verdict.MEASURE_FIRST,
                      _to_mic(answered) or _lacks(answered))
    turning = _Turning(request, bench, terms, tuple(offered))
    trials.at = "asking at which price, which use and what an hour is worth it turns"
    flips = tuple(turning.flips(work, decision, found)) if work is not None and not trials.stopped else ()
    remarks = (surer(decision.worth, work, request.hours) if decision.worth and work else "",
               _dull(decision.worth, offered, bench), _in_part(trials, bench))
    remark = joined(". ", filter(None, remarks))
    return Answer(decision, work, verdict, _ranked(found, terms.uses), terms, flips, served, remark)


def _in_part(trials: Trials, bench: Bench) -> Text:
    """That not everything that could be got was tried."""
    if trials.stopped:
        return said("only {tried} of {of} that could be got were tried", tried=trials.tried, of=trials.of)
    return "not everything was tried in the time there was: there may be better" if bench.in_part else ""


def _found(request: Request, bench: Bench, work: AnyPlan | None, among: Sequence[Extra], terms: Terms,
           trials: Trials | None = None) -> tuple[Worth, ...]:
    """What of the offers the best plan makes use of, and an hour where others have the cutter."""
    found = without_twice(worths(request, bench, work, among, terms.wait, terms.day_cost, trials))
    there = neighbour(found, work, bench.shop)
    return (*found, there) if there else found


def _to_mic(answered: Advice | None) -> Text:
    """What is to be measured first, and of which cutter; nothing where no measuring helps."""
    if answered is None or answered.answer != Verdict.MEASURE_FIRST:
        return ""
    asked = [one for one in answered.refused if one.answer == Verdict.MEASURE_FIRST and one.helps]
    return next((_of(one.says, one.cutter) for one in asked), "")


def _lacks(answered: Advice | None) -> Text:
    """The nearest change that would do, in the words of the refusal, and of which cutter."""
    hopeful = (one for one in answered.refused if one.is_hopeful) if answered else ()
    return next((_of(one.fix or "", one.cutter) for one in hopeful), "")


def _of(text: Text, cutter: Cutter) -> Text:
    return said("{ask} (no. {number}, {label})", ask=text, number=cutter.id, label=cutter.label)


def _dull(worth: Worth | None, offered: Sequence[Extra], bench: Bench) -> str:
    """An owned cutter of that very size that isn't sharp: up to what it is worth to have it sharpened."""
    extra = next((extra for extra in offered if worth and extra.offer == worth.offer), None)
    if extra is None or not extra.cutters:
        return ""
    same = [c for c in bench.cutters if c.condition in ("dull", "chipped") and is_same(c, extra.cutters[0])]
    if not same:
        return ""
    price, share = extra.offer.price, bench.shop.regrind_worth
    least = f"{share:.0%} of a new one" + (f", {share * price:.2f} {bench.shop.currency}" if price else "")
    return f"no. {same[0].id} is one, {same[0].condition}: have it sharpened if that costs less than {least}"


def _offered(request: Request, bench: Bench, only: Extra | None) -> list[Extra]:
    others = extras(request, bench)
    if only is None:
        return list(others)
    return [only, *(extra for extra in others if extra.offer.way not in BOUGHT)]


def _focus(found: Sequence[Worth]) -> Worth | None:
    """What would save most if it cost nothing."""
    bought = [worth for worth in found if worth.offer.way in BOUGHT]
    return max(bought, key=lambda w: (w.plan.answer == Verdict.AS_DRAWN, w.free or 0.0, -w.plan.cost), default=None)


def _priced(request: Request, bench: Bench, work: AnyPlan | None, offered: list[Extra], found: tuple[Worth, ...],
            terms: Terms) -> tuple[list[Extra], tuple[Worth, ...]]:
    """The price that was said goes to what would save most."""
    focus = _focus(found)
    if focus is None or (terms.price is None and terms.shipping is None):
        return offered, found
    price = terms.price if terms.price is not None else focus.offer.price
    said = [priced(extra, price, terms.shipping) if extra.offer.label == focus.offer.label else extra
            for extra in offered]
    used = {worth.offer.label for worth in found}
    again = _found(request, bench, work, [extra for extra in said if extra.offer.label in used], terms)
    return said, again


def priced(extra: Extra, price: float | None, shipping: float | None = None) -> Extra:
    """The same at another price."""
    ship = extra.offer.shipping if shipping is None else shipping
    return Extra(replace(extra.offer, price=price, shipping=ship),
                 tuple(cutter.but(price=price) for cutter in extra.cutters))


def _served(focus: Worth | None, offered: Sequence[Extra], history: Sequence[Past], bench: Bench, request: Request
            ) -> tuple[Past, ...]:
    extra = next((extra for extra in offered if focus and extra.offer.label == focus.offer.label), None)
    others = [past for past in history if past.request != request or past.jobs > 1]
    return served_by(extra, others, bench) if extra is not None else ()


def _expected(served: Sequence[Past], bench: Bench, today: date | None) -> float:
    return expected_uses(served, today or datetime.now().astimezone().date(), bench.shop)


def _ranked(found: Sequence[Worth], uses: float) -> tuple[Worth, ...]:
    """What leaves most first; then what has no price, by what it is worth."""
    def key(worth: Worth) -> tuple[bool, float, float]:
        net = worth.net(uses)
        return net is None, -(net or 0.0), -(worth.free if worth.free is not None else -worth.plan.cost)

    return tuple(sorted(found, key=key))


@dataclass(frozen=True)
class _Turning:
    """Asking again, with one thing changed."""

    request: Request
    bench: Bench
    terms: Terms
    offered: tuple[Extra, ...]

    def flips(self, work: AnyPlan, decision: Decision, found: Sequence[Worth]) -> list[Flip]:
        """The price, the uses and the worth of an hour at which the answer flips, those that there are."""
        focus = decision.worth
        if focus is None or focus.offer.way not in BOUGHT or focus.free is None:
            return []
        label = focus.offer.label
        used = {worth.offer.label for worth in found if worth.offer.price is not None} | {label}
        turning = replace(self, offered=tuple(extra for extra in self.offered if extra.offer.label in used))
        others = [worth for worth in found if worth.offer.label != label]
        best = winner(work, others, self.terms)
        beside = (best.net(self.terms.uses) or 0.0) if best else 0.0
        price = confirmed("price", focus.pays_up_to(self.terms.uses, beside), lambda at: turning.at_price(label, at))
        if focus.spent is None:
            return [flip for flip in (price,) if flip]
        after = first_use(focus.uses_to_break_even or 0.0)
        uses = confirmed("uses", None if after is None else float(after), turning.at_uses, whole=True)
        hour = confirmed("hour", settled(turning.hour(label, self.bench.shop.hour_rate),
                                         lambda at: turning.hour(label, at)), turning.at_hour)
        return [flip for flip in (price, uses, hour) if flip]

    def at_price(self, label: str, price: float) -> str:
        """The advice at another price."""
        said = tuple(priced(extra, price) if extra.offer.label == label else extra for extra in self.offered)
        return replace(self, offered=said).advice(self.bench, self.terms)

    def at_uses(self, uses: float) -> str:
        """The advice for another number of uses."""
        return self.advice(self.bench, replace(self.terms, uses=uses))

    def at_hour(self, hour: float) -> str:
        """The advice where an hour is worth something else."""
        return self.advice(self._at(hour), self.terms)

    def hour(self, label: str, hour: float) -> float | None:
        """The worth of an hour at which the plans that are best at this one are even."""
        bench = self._at(hour)
        work = bench.best(self.request)
        mine = [extra for extra in self.offered if extra.offer.label == label]
        found = _found(self.request, bench, work, mine, self.terms)
        worth = next((worth for worth in found if worth.offer.label == label), None)
        if work is None or worth is None:
            return None
        spent = (worth.offer.price or 0.0) + worth.offer.shipping + worth.waiting
        return hour_at(bill_of(work), bill_of(worth.plan), worth.stake, self.terms.uses, spent, worth.offer.minutes)

    def advice(self, bench: Bench, terms: Terms) -> str:
        """Everything reckoned anew."""
        work = bench.best(self.request)
        found = _found(self.request, bench, work, self.offered, self.terms)
        return decide(work, found, terms, bench.shop.currency).choice

    def _at(self, hour: float) -> Bench:
        return replace(self.bench, shop=replace(self.bench.shop, hour_rate=hour))
