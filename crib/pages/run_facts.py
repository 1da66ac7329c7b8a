"""What holds for all passes of a run: their feed, cut, rate and speed, and what is locked."""

from __future__ import annotations

from collections.abc import Iterator

from crib.findings.message import Fact, Feed, Measure, Mm, Text, joined, said
from crib.machining.words import Direction, Fed, Role, Slack, Slide
from crib.pages.pass_tasks import ARROWS, shared
from crib.pages.passes import numbers
from crib.pages.runs import Run
from crib.planning.process import dials as handwheels
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Pass
from crib.shop import Shop


def facts(run: Run, plan: Plan, shop: Shop, holes: int) -> Iterator[tuple[str, Fact]]:
    """What holds for all passes of a group."""
    one, along = run[0], run[0].direction != Direction.AXIAL
    if along:
        yield "feed", joined(", then ", map(_fed, dict.fromkeys(each.feed for each in run)))
        yield "cut", " and ".join(dict.fromkeys(_CUTS[each.direction] for each in run))
    if rates := list(dict.fromkeys(each.mm_per_min for each in run if each.mm_per_min > 0)):
        yield "rate", joined(" or ", map(Feed, rates))
    yield "speed", speed(one)
    if holes > 1:
        yield ("each flat", f"{holes}, each pass on every one") if plan.indexed else (
            "holes", f"{holes}, each pass at every one")
    if one.feed == Fed.ROUND:
        yield "goes round", "the work is turned under it, once for each pass"
    elif one.feed == Fed.OUT:
        yield "goes round", "the head turns it and sets it out"
    elif not along and Slide.KNEE in one.locks:
        yield "Z", "by the quill and its depth stop"
    if one.locks:
        yield "lock", " and ".join(filter(None, (", ".join(one.locks[:-1]), one.locks[-1])))
    if along:
        yield "takes", joined(", ", _bites(run))
    if one.enters_mm is not None:
        yield "begin and end", said("with the axis {far} clear of the end", far=Measure(
            -min(one.enters_mm, one.leaves_mm or 0.0)))
    if (slack := _slack(run, shop)) and plan.handwheels:
        yield "slack", slack
    for note, those in shared(run, plan, shop).items():
        yield f"{'passes' if len(run) > 1 else 'pass'} {numbers(those)}", note


def speed(one: Pass) -> str:
    """The step of the spindle, or the speed that is wanted where none are on record.

    >>> from crib.planning.told.passes import Pass
    >>> mill = Pass(1, 1, "rough", "slot", 0, 0, 0, 0, 0, 0, "right", "both", 325, 330, 60, 1, "")
    >>> speed(mill)
    'spindle at 325 rpm'
    """
    if one.role in (Role.SLOT, Role.BROACH):
        return "no spindle turns it" if one.role == Role.BROACH else "spindle locked, its power off"
    if one.spindle_is_off:
        return "turned by hand, spindle off"
    return f"spindle at {one.rpm} rpm" if one.rpm is not None else f"spindle at about {one.wanted_rpm} rpm"


def _bites(run: Run) -> Iterator[Fact]:
    """The widest and the deepest bite."""
    for way, mm in (("side", max(one.radial_mm for one in run)), ("deep", max(one.axial_mm for one in run))):
        if mm > 0:
            yield said("{mm} {way}", mm=Mm(mm), way=way)


_CUTS = {Direction.BOTH: "full width", Direction.CONVENTIONAL: "conventional", Direction.CLIMB: "climb",
         Direction.AXIAL: "down"}


def _fed(feed: Fed) -> str:
    word = feed.split(" ")[0]
    moves = f" ({_TABLE[word]})" if word in _TABLE else ""
    return f"{ARROWS.get(word, '')} {feed}{moves}".strip()


_TABLE = {"right": "the table goes left", "left": "the table goes right", "away": "the saddle comes toward you",
          "toward": "the saddle goes away"}
"""What really moves: common practice, the directions of conventional milling."""


def _slack(run: Run, shop: Shop) -> Text:
    """From which side each slide is come to; where passes go across in the metal nothing comes from beyond a wall."""
    if any(map(handwheels.goes_across, run)) and (slack := handwheels.slack_mm(shop)):
        return said("what is come to toward you or to the left is dialled {slack} lower", slack=Mm(slack))
    ways = dict.fromkeys((dial.slide, dial.way, dial.slack_from) for one in run for dial in one.dials)
    return ", ".join(f"{slide} from {_from(side)} going {way}" for slide, way, side in ways)


def _from(side: Slack) -> str:
    return {Slack.FRONT: "the front", Slack.LEFT: "the left", Slack.BELOW: "below"}[side]
