"""Whether what is owned serves what it is wanted for."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from statistics import median

from crib.audits.base import Bench, fault, name, numbers
from crib.cutters import kind_of
from crib.cutters.base import Cutter, Down
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.findings.message import a
from crib.findings.verdicts import Verdict
from crib.planning.advise import best_plan
from crib.planning.ask import read_request

LONGEST_UNKNOWN = 60
_LATEST = 4
"""So many of the latest questions are asked again without each of their cutters."""

_OUTLIER, _LEAST_PRICES = 4.0, 4
_SOFT = "brass|aluminium|plastic|wood|bronze"
_KEPT_FOR = re.compile(rf"\b({_SOFT}) only\b|\b(?:keep|only) for ({_SOFT})\b", re.IGNORECASE)


def state_not_known(bench: Bench) -> Iterator[Finding]:
    """AU51: the state of a cutter is looked at."""
    old = [one for one in bench.there if one.condition == "unknown" and (bench.days_unseen(one) or 0) > LONGEST_UNKNOWN]
    if old:
        yield fault("AU51", old[0].id if len(old) == 1 else None,
                    f"nobody has said whether {numbers(old)} {'are' if len(old) > 1 else 'is'} sharp",
                    f"look at the edges: crib now {old[0].id} sharp")


def steel_not_known(bench: Bench) -> Iterator[Finding]:
    """AU52: what a cutter is made of decides its speed."""
    mills = [one for one in bench.there if kind_of(one).form is not None]
    unknown = [one for one in mills if one.material == "unknown"]
    carbon = [one for one in mills if one.material == "carbon-steel"]
    if unknown:
        yield fault("AU52", unknown[0].id if len(unknown) == 1 else None,
                    f"it isn't known what {numbers(unknown)} {'are' if len(unknown) > 1 else 'is'} made of",
                    f"try a file and a spark, then: crib amend {unknown[0].id} --material hss")
    for one in carbon:
        yield fault("AU52", one.id, f"{name(one)} is carbon steel: it burns at the speed of high-speed steel",
                    "tie a tag to it; half the speed, and for soft metal")


def price_off(bench: Bench) -> Iterator[Finding]:
    """AU53: a price far from those of its kind is a slip of the pen."""
    kinds: dict[tuple[str, str | None], list[Cutter]] = defaultdict(list)
    for one in bench.cutters:
        if one.price:
            kinds[(one.kind, one.currency)].append(one)
    for cutters in kinds.values():
        usual = median(one.price or 0.0 for one in cutters)
        for one in cutters if len(cutters) >= _LEAST_PRICES else ():
            if not usual / _OUTLIER <= (one.price or 0.0) <= usual * _OUTLIER:
                yield fault("AU53", one.id, f"{name(one)} is on record at {one.price:g}, its kind at about {usual:g}",
                             f"crib amend {one.id} --price, if that was a slip")


def no_use(bench: Bench) -> Iterator[Finding]:
    """AU54: what is only on record is told apart from what plans are made with."""
    idle = [one for one in bench.there if kind_of(one).form is None and kind_of(one).on_axis is None]
    for words in dict.fromkeys(kind_of(one).words for one in idle):
        these = [one for one in idle if kind_of(one).words == words]
        yield fault("AU54", these[0].id if len(these) == 1 else None,
                    f"no plan is made with {a(words)}: {numbers(these)} "
                    f"{'are' if len(these) > 1 else 'is'} on record only",
                    "nothing to do; it is kept and found")


def left_hand(bench: Bench) -> Iterator[Finding]:
    """AU55: a left-hand cutter wants the spindle reversed."""
    for one in bench.there:
        if one.hand == "left" and Down.TAPPING not in kind_of(one).down:
            yield fault("AU55", one.id, f"{name(one)} is left-hand",
                        "tie a tag to it: it cuts with the spindle reversed only")


def kept_for(bench: Bench) -> Iterator[Finding]:
    """AU56: what is kept for one metal isn't used on another."""
    for one in bench.there:
        found = _KEPT_FOR.search(one.note or "")
        metal = (found[1] or found[2] or "").lower() if found else ""
        used = [each for each in bench.questions if one.id in each.cutters and each.texts.get("material")
                and metal not in str(each.texts["material"]).lower()]
        if metal and used:
            yield fault("AU56", one.id, f"{name(one)} is kept for {metal}, and question {used[-1].id} was answered "
                        f"with it in {used[-1].texts['material']}",
                        f"another cutter there, or crib amend {one.id} --note")


def asked_in_vain(bench: Bench) -> Iterator[Finding]:
    """AU57: what was asked for and can't be made is a gap in the drawer."""
    vain = [one for one in bench.questions if one.answer == Verdict.CANNOT]
    if vain:
        said = ", ".join(str(one.id) for one in vain[-4:])
        yield fault("AU57", None, f"{len(vain)} of {len(bench.questions)} questions ended in nothing that is owned: "
                    f"{said}", "crib wish-list tells which purchase would help most")


def only_one(bench: Bench) -> Iterator[Finding]:
    """AU58: where one cutter alone can do what was asked, its loss stops the work."""
    alone: dict[int, list[int]] = defaultdict(list)
    for question in [one for one in bench.questions if one.cutters and one.kind in KINDS][-_LATEST:]:
        try:
            request = read_request(question.kind, question.texts, bench.shop, question.units)
            for number in question.cutters:
                others = [one for one in bench.there if one.id != number]
                if len(others) < len(bench.there) and best_plan(request, others, bench.shop) is None:
                    alone[number].append(question.id)
        except CribError:
            continue
    for one in bench.there:
        if (asked := alone.get(one.id)) and one.count == 1:
            yield fault("AU58", one.id, f"{name(one)} is the only one that can do what question {asked[0]} asks",
                        "keep it sharp, or have another")


AUDITS = (asked_in_vain, only_one, steel_not_known, state_not_known, kept_for, left_hand, price_off, no_use)
