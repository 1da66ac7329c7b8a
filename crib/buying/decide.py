"""Buy, borrow, grind or work around: the answer in a line, and when it comes too late for this job."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, inf

from crib.buying.compare import BOUGHT, CENT, Way, Worth, is_better
from crib.findings.finding import Finding
from crib.findings.message import Measure, Text, counted, joined, said
from crib.findings.verdicts import ANSWERS
from crib.light.choices import StrEnum
from crib.light.records import dataclass
from crib.planning.told.advice import AnyPlan


class Advised(StrEnum):
    """What to do about a cutter, in the words that other programs know."""

    WORK_AROUND = "work around"
    BUY = "buy"
    BORROW = "borrow"
    GRIND = "grind"


ADVICE = {Way.BUY: Advised.BUY, Way.HOLDER: Advised.BUY, Way.BORROW: Advised.BORROW, Way.NEIGHBOUR: Advised.BORROW,
          Way.GRIND: Advised.GRIND, Way.REGRIND: Advised.GRIND}
"""What is advised where a way wins."""

_CHOICE = {Way.REGRIND: "send out", Way.NEIGHBOUR: "do it"}

_HOURS_THAT_COUNT, _SURER = 8, 0.02


@dataclass(frozen=True)
class Terms:
    """How often it is wanted, how long it would take to come and how long there is [days], None where that doesn't
    matter, and whether what the work-around gives away is accepted. `said`: the uses are as the owner says, else they
    are expected by the past. `price` and `shipping` of what is to be bought, None as they were seen; `day_cost`: what a
    day of waiting costs [money]."""

    uses: float = 1.0
    wait: float = 0.0
    deadline: float | None = None
    accept: bool = False
    said: bool = False
    price: float | None = None
    shipping: float | None = None
    day_cost: float = 0.0

    @property
    def late(self) -> bool:
        """Whether what is ordered now comes too late."""
        return self.deadline is not None and self.wait > self.deadline

    def in_time(self, worth: Worth) -> bool:
        """Whether an offer is there before it is too late."""
        return self.deadline is None or worth.offer.wait(self.wait) <= self.deadline


@dataclass(frozen=True)
class Decision:
    """What is advised; the offer that wins, or that comes nearest where nothing does; and the sentence."""

    advice: Advised
    worth: Worth | None
    says: Text

    @property
    def choice(self) -> str:
        """What is to be done, in a few words: `work around`, `buy the 5/8 collet`."""
        if self.advice == Advised.WORK_AROUND or self.worth is None:
            return self.advice
        return f"{_CHOICE.get(self.worth.offer.way, self.advice)} {_a(self.worth)}"


def decide(work: AnyPlan | None, worths: Sequence[Worth], terms: Terms, currency: str, measure: bool = False,
           lacks: Text = "") -> Decision:
    """The best of what there is. `measure`: what is owned may do, if it is measured. `lacks`: what would do, where
    nothing owned makes it; what to measure, where that may."""
    in_time = [w for w in worths if terms.in_time(w)]
    if measure and work is None:
        mic = "mic what you own before you spend anything, it may do"
        return Decision(Advised.WORK_AROUND, nearest(worths, terms), joined(": ", [mic, lacks] if lacks else [mic]))
    if work is None:
        return _needed(in_time, worths, terms, currency, lacks)
    keeps = [w for w in in_time if is_better(w.plan, work)]
    if keeps and not terms.accept:
        return _keeps_the_drawing(keeps, work, terms, currency)
    best = winner(work, in_time, terms)
    if best is not None:
        return Decision(ADVICE[best.offer.way], best, _pays(best, work, terms, currency))
    near = nearest(worths, terms)
    return Decision(Advised.WORK_AROUND, near, _not_worth(near, terms, currency))


def winner(work: AnyPlan, worths: Sequence[Worth], terms: Terms) -> Worth | None:
    """The offer of known price that leaves most over the uses, if any leaves something and none makes it worse."""
    saving = [w for w in worths if w.each is not None and w.each > CENT and not _is_worse(w.plan, work)]
    paying = [(net, w) for w in saving if (net := w.net(terms.uses)) is not None]
    best = max(paying, key=lambda each: (round(each[0], 6), each[1].offer.idle, -each[1].plan.minutes), default=None)
    return best[1] if best is not None and best[0] > 1e-9 else None


def nearest(worths: Sequence[Worth], terms: Terms) -> Worth | None:
    """What is worth most money, whatever its price: what to look out for."""
    gains = [w for w in worths if w.offer.way in BOUGHT and w.free is not None and w.free > CENT]
    return max(gains, key=lambda w: (w.offer.price is not None, w.pays_up_to(terms.uses) or 0.0), default=None)


def _is_worse(plan: AnyPlan, work: AnyPlan) -> bool:
    return ANSWERS.index(plan.answer) > ANSWERS.index(work.answer)


def total(worth: Worth, uses: float) -> float:
    """What the uses cost with an offer, all told; infinite where its price isn't known [money]."""
    if worth.spent is None:
        return inf
    return worth.spent + uses * (worth.plan.cost + worth.offer.each_time(worth.stake))


def _cheapest(worths: Sequence[Worth], uses: float) -> Worth:
    return min(worths, key=lambda w: (ANSWERS.index(w.plan.answer) > 1, total(w, uses), w.plan.cost))


def _needed(in_time: Sequence[Worth], worths: Sequence[Worth], terms: Terms, currency: str, lacks: Text) -> Decision:
    """Nothing owned makes it."""
    if not worths:
        none = "nothing that is owned makes it, and no cutter that could be got was found to"
        what = joined("; what would do: ", [none, lacks] if lacks else [none])
        return Decision(Advised.BUY, None,
                        said("{what}. Have it made, or ask with --relax what change of the drawing would do",
                             what=what))
    if not in_time:
        best = _cheapest(worths, terms.uses)
        return Decision(ADVICE[best.offer.way], best,
                        f"nothing that is owned makes it; {_a(best)} would, {_days(terms, best)} too late")
    best = _cheapest(in_time, terms.uses)
    spent = "no price seen" if best.spent is None else f"{best.spent:.2f} {currency}"
    return Decision(ADVICE[best.offer.way], best, f"nothing that is owned makes it; {_a(best)} would: {spent}")


def _keeps_the_drawing(keeps: Sequence[Worth], work: AnyPlan, terms: Terms, currency: str) -> Decision:
    best = _cheapest(keeps, terms.uses)
    given = joined("", (said(": {off}", off=_off(deviation)) for deviation in work.deviations[:1]))
    spent = "no price seen" if best.spent is None else f"{best.spent:.2f} {currency}"
    return Decision(ADVICE[best.offer.way], best, said("it keeps the drawing ({spent}); what is owned does it at a "
                                                       "price{given}. If that will do, ask again with --accept",
                                                       spent=spent, given=given))


def _off(deviation: Finding) -> Text:
    """What comes out otherwise than as drawn, and by how much."""
    by = Measure(deviation.has_mm or 0.0, places=4)
    return said("{what} by {by}" if deviation.beyond else "{what} {by}", what=deviation.says, by=by)


def _pays(worth: Worth, work: AnyPlan, terms: Terms, currency: str) -> str:
    uses = worth.uses_to_break_even or 0.0
    each = f"{worth.each:.2f} {currency} a time"
    if worth.offer.way == Way.GRIND:
        return f"{_a(worth)} saves {each}: more than the {worth.offer.minutes:g} min that it takes to make"
    if worth.offer.way == Way.NEIGHBOUR:
        return f"{_a(worth)} saves {each}, the hour there and the way counted"
    if worth.offer.way == Way.BORROW:
        return f"{_a(worth)} saves {each}, the way there and back counted"
    idle = f"; {worth.offer.idle} cutters lie idle without it" if worth.offer.idle > 1 else ""
    return f"{_a(worth)} saves {each} and has paid after {times(uses)}, of {_number(terms.uses)} expected{idle}"


def _not_worth(near: Worth | None, terms: Terms, currency: str) -> str:
    if near is None:
        return "nothing that could be got saves anything here"
    later = ""
    if terms.late:
        later = f"; what is ordered now comes {_days(terms, near)} too late"
    if near.offer.price is None:
        up_to = near.pays_up_to(terms.uses) or 0.0
        at = f"{_number(terms.uses)} use{'' if terms.uses == 1 else 's'}"
        return f"no price was seen; {_a(near)} is worth up to {up_to:.2f} {currency} at {at}{later}"
    after = near.uses_to_break_even
    pays = "never pays" if after is None or after == inf else f"pays after {times(after)}"
    return (f"{_a(near)} saves {near.each:.2f} {currency} a time and {pays}, of {_number(terms.uses)} expected{later}"
            + _order_later(near, terms))


def _order_later(near: Worth, terms: Terms) -> str:
    """Whether it pays for the uses that come after this one, with nothing waiting for it."""
    if near.each is None or near.spent is None or terms.uses <= 1 or not (terms.late or near.waiting):
        return ""
    left = (terms.uses - 1) * near.each - (near.spent - near.waiting)
    return "; work around now and order it for the next time" if left > 0 else ""


def surer(worth: Worth, work: AnyPlan, hours: float) -> str:
    """Where money says work around but much is in the part: both are worth a look."""
    if hours < _HOURS_THAT_COUNT or work.scrap_chance - worth.plan.scrap_chance < _SURER:
        return ""
    return (f"with {counted(hours, 'hour')} in the part {worth.offer.label} is surer by "
            f"{work.scrap_chance - worth.plan.scrap_chance:.0%}: the more so where this is the last cut on it")


def times(uses: float) -> str:
    """A number of uses that must be reached, in words.

    >>> times(1.87), times(0.4)
    ('2 uses (1.9)', '1 use (0.4)')
    """
    whole = max(1, ceil(uses - 1e-9))
    return f"{whole} use{'s' if whole > 1 else ''} ({uses:.1f})"


def _number(uses: float) -> str:
    return f"{uses:.1f}".removesuffix(".0")


def _days(terms: Terms, worth: Worth) -> str:
    days = worth.offer.wait(terms.wait) - (terms.deadline or 0.0)
    return f"{days:g} day{'' if days == 1 else 's'}"


def _a(worth: Worth) -> str:
    return worth.offer.named
