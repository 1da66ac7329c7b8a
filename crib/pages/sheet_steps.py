"""The steps of a set-up sheet: holding, touching off, each cutter put in, and its passes in groups that look alike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from crib.cutters.base import Cutter
from crib.findings.message import Fact, Feed, Measure, Mm, Reading, Sentence, Text, joined, said
from crib.geometry.outline import BOTH_SIDES
from crib.machining.draft import ZEROS
from crib.machining.words import SIZED, Direction, Fed, Role, Slack, Slide
from crib.pages.passes import numbers, without_size
from crib.pages.process import aim, limits
from crib.pages.remarks import name
from crib.pages.stages import above_of, scene_of
from crib.pages.tasks import Reads, Setting, Step, Task
from crib.planning.advice import Check, Dial, Pass, Plan
from crib.planning.finish import Proved
from crib.planning.process import dials as handwheels
from crib.shop import Shop

Run = tuple[Pass, ...]

ARROWS = {"right": "→", "left": "←", "away": "↑", "toward": "↓", "down": "⤓"}
_TABLE = {"right": "the table goes left", "left": "the table goes right", "away": "the saddle comes toward you",
          "toward": "the saddle goes away"}
"""What really moves: common practice, the directions of conventional milling."""


def steps(proved: Proved) -> Iterator[Step]:
    """Every step, in the order in which they are done."""
    plan = proved.plan
    yield Step("Hold the work, indicate it", (Task(Sentence(plan.hold)), *_lying(plan)))
    yield Step("Touch off the work", tuple(touched(plan)), tuple(coming_to(plan)))
    if plan.indexed:
        yield Step("Turn to each flat: all passes, then the next", tuple(
            Task(said("flat {flat}: {says}", flat=one.flat, says=one.says)) for one in plan.indexed))
    if plan.places:
        yield Step("Where the holes stand", tuple(_stand(plan)))
    for _, mine in groupby(plan.passes, key=lambda one: one.cutter_id):
        passes = tuple(mine)
        yield put_in(plan, passes)
        yield from cut(proved, passes)
    yield COMES_LOOSE


def cut(proved: Proved, passes: Run) -> Iterator[Step]:
    """The steps of passes with one cutter, those that belong together in one."""
    plan, shop = proved.plan, proved.draft.question.shop
    two_walls = not any(room.open & BOTH_SIDES for room in proved.draft.question.outline.rooms)
    holes = proved.draft.question.feature.number
    for run in runs(passes):
        tasks, facts = _tasks(run, plan, shop, holes), _facts(run, plan, shop, holes)
        yield Step(_title(run, two_walls), tuple(tasks), tuple(facts), scene_of(proved, run), above_of(proved, run))


COMES_LOOSE = Step("Before the work comes loose", (
    Task("spindle off; take the burrs off"),
    Task("measure all sizes once more: what was touched off is lost when it is unclamped")))


def _lying(plan: Plan) -> Iterator[Task]:
    if plan.setup not in ("upright", ""):
        yield Task(Sentence(plan.setup))


def touched(plan: Plan) -> Iterator[Task]:
    """What is touched off once, not with every cutter."""
    for one in plan.touch_off:
        if not one.each:
            yield Task(Sentence(one.says), blank=_begins(one.says, "go to "))


def _stand(plan: Plan) -> Iterator[Task]:
    """Each hole's readings of table and cross, tried before anything turns."""
    for one in plan.places:
        dials = {dial.slide: dial for dial in one.dials} if plan.handwheels else {}
        yield Task(f"hole {one.no}", settings=(
            Setting("table", Reading(one.dial_x_mm, sign=True), _dial(dials.get(Slide.TABLE))),
            Setting("cross", Reading(one.dial_y_mm, sign=True), _dial(dials.get(Slide.CROSS)))))


def coming_to(plan: Plan) -> Iterator[tuple[str, Fact]]:
    """What positions count from, and how a setting is come to."""
    cross, down = plan.zeros
    if any(one.direction != Direction.AXIAL for one in plan.passes):
        yield "cross", said("the cutter's axis from {zero}, + away from you", zero=cross)
    if any(one.dial_from_mm != one.dial_to_mm or one.stop_mm is not None for one in plan.passes):
        yield "table", "the cutter's axis along the feed, from the left-hand end"
    yield "Z", said("the cutter's lower end from {zero}", zero=down)
    yield "set", plan.handwheels or "lock, then read again: a lock may pull the slide"


def put_in(plan: Plan, passes: Run) -> Step:
    """A cutter goes in: what holds it, its speed, where its end is touched off."""
    one, number = passes[0], passes[0].cutter_id
    place, cutter = next((at, c) for at, c in enumerate(plan.cutters) if c.id == number)
    held = said(", in the {holder}", holder=plan.holders[place]) if len(plan.holders) == len(plan.cutters) else ""
    touched = [Task(Sentence(text)) for step in plan.touch_off for id, text in step.each if id == number]
    return Step(said("Put in no. {number}", number=number), (
        Task(Sentence(said("{cutter}{held}{checked}", cutter=name(cutter), held=held,
                           checked=_checked(cutter, one)))),
        Task(Sentence(speed(one))), *touched))


def _checked(cutter: Cutter, one: Pass) -> Text:
    """The one size that its settings, or the hole, hang on."""
    along = one.direction != Direction.AXIAL
    if cutter.diameter_mm is None or not (along or one.role in SIZED):
        return ""
    return said("; its diameter must be {across}, or {what} off", across=Measure(cutter.diameter_mm),
                what="every setting is" if along else "the hole is")


def speed(one: Pass) -> str:
    """The step of the spindle, or the speed that is wanted where none are on record.

    >>> from crib.planning.advice import Pass
    >>> mill = Pass(1, 1, "rough", "slot", 0, 0, 0, 0, 0, 0, "right", "both", 325, 330, 60, 1, "")
    >>> speed(mill)
    'spindle at 325 rpm'
    """
    if one.role in (Role.SLOT, Role.BROACH):
        return "no spindle turns it" if one.role == Role.BROACH else "spindle locked, its power off"
    if one.spindle_is_off:
        return "turned by hand, spindle off"
    return f"spindle at {one.rpm} rpm" if one.rpm is not None else f"spindle at about {one.wanted_rpm} rpm"


def runs(passes: Sequence[Pass]) -> Iterator[Run]:
    """Passes of a cutter that belong together: in one room, down at one place, along one wall, or out to both sides
    at one height."""
    for _, mine in groupby(passes, key=lambda one: (one.room, one.view, one.direction == Direction.AXIAL)):
        yield from _by_wall(_level_or_down(tuple(mine)))


def _level_or_down(passes: Run) -> Iterator[Run]:
    """Cut where neither the place across nor the height stays."""
    run: list[Pass] = []
    for one in passes:
        if run and not (_same([*run, one], "dial_x_mm") or _same([*run, one], "dial_z_mm")):
            yield tuple(run)
            run = []
        run.append(one)
    yield tuple(run)


def _by_wall(found: Iterator[Run]) -> Iterator[Run]:
    """Cut between two walls that are done one after the other."""
    for run in found:
        turns = [at for at, (a, b) in enumerate(pairwise(run), start=1) if a.feed != b.feed]
        if len(turns) == 1 and len(run) > 2:
            yield from (run[:turns[0]], run[turns[0]:])
        else:
            yield run


def _same(passes: Sequence[Pass], key: str) -> bool:
    return len({getattr(one, key) for one in passes}) == 1


def _title(run: Run, two_walls: bool) -> str:
    """What a group of passes does, and which of two walls it cuts where it cuts only one."""
    roles = list(dict.fromkeys(one.role for one in run))
    number = f"Pass {run[0].no}" if len(run) == 1 else f"Passes {run[0].no} to {run[-1].no}"
    ways = {(one.feed, one.direction) for one in run}
    wall = next((words for way, words in _WALLS.items() if ways == {(way, Direction.CONVENTIONAL)}), "")
    what = " and ".join(roles) + ("" if run[0].room in roles else f" {run[0].room}")
    return f"{number}: {what}{wall if two_walls else ''}"


_WALLS = {"right": ", back wall", "left": ", front wall"}
"""What is cut conventionally by a cutter that goes over the work that way."""


def _facts(run: Run, plan: Plan, shop: Shop, holes: int) -> Iterator[tuple[str, Fact]]:
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
        yield "goes round", "the boring head turns it, set out with the spindle stopped"
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
    for note, those in _shared(run, plan, shop).items():
        yield f"{'passes' if len(run) > 1 else 'pass'} {numbers(those)}", note


def _bites(run: Run) -> Iterator[Fact]:
    """The widest and the deepest bite."""
    for way, mm in (("side", max(one.radial_mm for one in run)), ("deep", max(one.axial_mm for one in run))):
        if mm > 0:
            yield said("{mm} {way}", mm=Mm(mm), way=way)


def _shared(run: Run, plan: Plan, shop: Shop) -> dict[Fact, list[int]]:
    """What is to be minded in more than one pass, with their numbers."""
    found: dict[Fact, list[int]] = {}
    for one in run:
        for note in _notes(one, plan, shop):
            found.setdefault(note, []).append(one.no)
    return {note: those for note, those in found.items() if len(those) > 1}


_CUTS = {Direction.BOTH: "full width", Direction.CONVENTIONAL: "conventional", Direction.CLIMB: "climb",
         Direction.AXIAL: "down"}


def _fed(feed: Fed) -> str:
    word = feed.split(" ")[0]
    moves = f" ({_TABLE[word]})" if word in _TABLE else ""
    return f"{ARROWS.get(word, '')} {feed}{moves}".strip()


def _slack(run: Run, shop: Shop) -> Text:
    """From which side each slide is come to; where passes go across in the metal nothing comes from beyond a wall."""
    if any(map(handwheels.goes_across, run)) and (slack := handwheels.slack_mm(shop)):
        return said("what is come to toward you or to the left is dialled {slack} lower", slack=Mm(slack))
    ways = dict.fromkeys((dial.slide, dial.way, dial.slack_from) for one in run for dial in one.dials)
    return ", ".join(f"{slide} from {_from(side)} going {way}" for slide, way, side in ways)


def _from(side: Slack) -> str:
    return {Slack.FRONT: "the front", Slack.LEFT: "the left", Slack.BELOW: "below"}[side]


def _tasks(run: Run, plan: Plan, shop: Shop, holes: int) -> Iterator[Task | Reads]:
    """Each pass with what is measured after it."""
    shared = _shared(run, plan, shop)
    for one in run:
        notes = tuple(note for note in _notes(one, plan, shop) if note not in shared)
        yield Task(_what(one), one.no, tuple(_settings(one, plan)), _arrow(one.feed), notes, holes)
        checks = [read(check) for check in plan.checks if check.after_no == one.no]
        yield from checks or _floor(one, plan)


def _floor(one: Pass, plan: Plan) -> Iterator[Reads]:
    """The depth that is measured where the floor is cut, and nothing else is."""
    if _begins(one.says, "depth by micrometer") and plan.zeros == ZEROS:
        yield Reads(f"depth of the {one.room}", "depth micrometer", Measure(-one.dial_z_mm))


def _what(one: Pass) -> Fact:
    if one.diameter_mm is not None and one.role in (Role.BORE, Role.GROOVE):
        return said("{role} to {size}", role=one.role, size=Measure(one.diameter_mm))
    return one.role


def _arrow(feed: Fed) -> str:
    return ARROWS.get(feed.split(" ")[0], "")


def _settings(one: Pass, plan: Plan) -> Iterator[Setting]:
    """Table, cross and Z, as far as they are set; on the dials too where there is no readout."""
    dials = {dial.slide: dial for dial in one.dials} if plan.handwheels else {}
    ends = dict.fromkeys(end for end in (one.dial_from_mm, one.dial_to_mm) if end is not None)
    if ends:
        yield Setting("table", joined(" to ", map(Reading, ends)), _dial(dials.get(Slide.TABLE)))
    elif one.stop_mm is not None:
        at = max((along for along, _ in one.dial_path_mm), default=one.stop_mm)
        yield Setting("table stop", Reading(at), _dial(dials.get(Slide.TABLE)))
    if one.direction != Direction.AXIAL or one.dial_from_mm is not None:
        yield Setting("cross", Reading(one.dial_cross_mm, sign=True), _dial(dials.get(Slide.CROSS)))
    yield Setting("Z", Reading(one.dial_z_mm), _dial(dials.get(Slide.KNEE)))


def _on_the_way(one: Pass, plan: Plan, shop: Shop) -> Iterator[Fact]:
    """The corners of a way on the dials, where there is no readout: those that no setting has."""
    if not plan.handwheels:
        return
    set_ = {(dial.slide, dial.reading_mm) for dial in one.dials}
    corners = dict.fromkeys(corner for along, across in one.dial_path_mm
                            for corner in ((Slide.TABLE, along), (Slide.CROSS, across)) if corner not in set_)
    if corners:
        yield said("on the dials: {corners}", corners=joined(", ", (
            said("{slide} {reading} = {dial}", slide=slide, reading=Reading(at, sign=slide == Slide.CROSS),
                 dial=_dial(handwheels.dial(slide, at, shop))) for slide, at in corners)))


def _dial(dial: Dial | None) -> Fact:
    """A reading in turns and divisions."""
    if dial is None:
        return ""
    return said("{turns} {word} + {divisions:g}", turns=dial.turns, divisions=dial.divisions,
                word="turn" if abs(dial.turns) == 1 else "turns")


def _notes(one: Pass, plan: Plan, shop: Shop) -> Iterator[Fact]:
    """What is to be minded in a pass: its way, its stops, what is said of it and isn't measured by a line of its
    own."""
    yield from one.way_says
    yield from _on_the_way(one, plan, shop)
    if one.stops_mm:
        places = joined(", ", map(Measure, one.stops_mm))
        yield said("stop {places} from where it goes in, and at its end: spindle off, brush the chips out",
                   places=places)
    measured = any(check.after_no == one.no for check in plan.checks) or bool([*_floor(one, plan)])
    if one.says and not (measured and _begins(one.says, *_MEASURED)):
        yield without_size(one.says) if one.role == Role.GROOVE and one.diameter_mm is not None else one.says


_MEASURED = ("measure ", "depth by micrometer")
"""What is said of a pass that a line of its own says with its reading."""


def _begins(text: Text, *words: str) -> bool:
    """Whether a text begins with some words."""
    return (text if isinstance(text, str) else text.template).startswith(words)


def read(one: Check) -> Reads:
    """What is to be measured, as the sheet has it."""
    return Reads(one.what, one.instrument, aim(one), limits(one))
