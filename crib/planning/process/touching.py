"""Holding the work and touching off: which face, with what, and the reading to set.

When an edge finder kicks, the axis stands half its diameter outside the face; when a cutter drags on paper, its lower
end stands the paper's thickness over the face, or its axis its own radius and the paper outside it. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.base import Down
from crib.features import KINDS
from crib.findings.message import ByUnits, Mm, Text, joined, said
from crib.geometry.outline import Opening
from crib.geometry.region import FAR
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.question import ZEROS, Question
from crib.machining.tool import Tool
from crib.planning.process.dials import less_slack, slack_mm
from crib.planning.told.passes import Touch
from crib.shop import Shop

_EDGES = ("the wall", "the face that it opens at")


def held(question: Question, lowest_mm: float = 0.0) -> Text:
    """How the work is held, and what is indicated: as its kind says, else as the set-up does. `lowest_mm`: how low the
    cutter goes."""
    how = KINDS[question.feature.kind].held.get(question.setup.name, question.setup.held)
    if question.feature.flats:
        from crib.machining.indexing import indexed

        return indexed(question.feature.flats, question.shop).held
    ends = {"open": "both ends", "one": "the open, left-hand end"}.get(question.feature.request.ends, "")
    free = f"; {ends} free for the cutter to run out" if ends and not question.layers else ""
    return said(how + "{free}{over}", true=TRUE, free=free, over=_over_the_jaws(question, lowest_mm))


def _over_the_jaws(question: Question, lowest_mm: float) -> Text:
    """How far work in a vise stands out of it where the cutter runs out over the jaw beside it."""
    beside = any(room.opens(Opening.TOP, side) for room in question.outline.rooms
                 for side in (Opening.LEFT, Opening.RIGHT))
    if not beside or question.setup.name != "upright":
        return ""
    return said("; {high} of it at the least above the jaws: the cutter runs out over them",
                high=Mm(question.shop.end_clearance_mm - lowest_mm))


def held_for_a_hole(question: Question) -> Text:
    """The same for what comes down an axis."""
    from crib.features.rounds import is_through

    under = "nothing under the hole, " if is_through(question.feature.request) else ""
    how = "on parallels in the vise or clamped, {under}an edge indicated {true}"
    return said(KINDS[question.feature.kind].held.get(question.setup.name, how), true=TRUE, under=under)


TRUE = said("along the table within {far}", far=ByUnits(".001 in 6", "0.02 in 150"))
"""How true the work is set along the table: .001 in 6 in. Common practice."""


def touch_off(draft: Draft) -> tuple[Touch, ...]:
    """Every step, in order."""
    return (*_across(draft), *_along(draft), *_down(draft))


def _across(draft: Draft) -> Iterator[Touch]:
    question, shop = draft.question, draft.question.shop
    edge, zero = question.outline.stock.bounds()[2], question.zeros[0]
    tool = draft.tools[0]
    if body := KINDS[question.feature.kind].middle_of.get(question.setup.name):
        yield Touch(said("{kick} set cross {zero}", kick=_kick(shop, f"front side of the {body}"), zero=Mm(0.0)), 0.0)
        slack = slack_mm(shop)
        half = said("add the {slack} of backlash to what cross reads and come up from the front to half of that",
                    slack=Mm(slack)) if slack else "go back half of what cross reads"
        yield Touch(said("the same edge finder on its back side: at the kick {half}, set cross 0: the {body}'s centre "
                         "line, whatever the finder measures; the passes count from there", half=half, body=body), 0.0)
        return
    if question.setup.name == "face level":
        yield Touch("sight the axis over the edge, set cross 0: a face that the cutter runs off at both sides bears it "
                    "being a little off", 0.0)
        return
    if edge < FAR // 2 or zero in _EDGES:
        at = edge / 1e6 if edge < FAR // 2 else 0.0
        reading = at + shop.finder_mm / 2 - slack_mm(shop)
        is_there = zero in _EDGES or (not edge and zero != ZEROS[0])
        face = str(zero).removeprefix("the ") if is_there else "back edge"
        yield Touch(said("{kick} set cross {signed}{by_paper}{less}", kick=_kick(shop, face), signed=_signed(reading),
                         by_paper=_by_paper(tool, shop, at - slack_mm(shop), 1), less=less_slack(shop)), reading)
    elif question.setup.name == "tilted":
        yield Touch(said("set cross 0 and Z 0 at {zero}, by the lines of the layout", zero=question.zeros[1]), 0.0)
    else:
        reading = -shop.finder_mm / 2
        yield Touch(said("{kick} set cross {signed}{by_paper}", kick=_kick(shop, 'front face'),
                         signed=_signed(reading), by_paper=_by_paper(tool, shop, 0.0, -1)),
                    reading)
        middle = "the middle of the feature" if zero == ZEROS[0] else zero
        yield Touch(said("go to {middle} as drawn from that face, set cross 0: the passes count from there",
                         middle=middle), 0.0)


def _signed(reading: float) -> Mm:
    return Mm(reading, sign=True)


def _kick(shop: Shop, face: str) -> Text:
    return said("edge finder {finder} on the {face}: at the kick", finder=Mm(shop.finder_mm), face=face)


def _by_paper(tool: Tool, shop: Shop, at: float, side: int) -> Text:
    """The same with the first cutter itself and paper; for a disc too, which is touched at its teeth."""
    if not tool.form.radius:
        return ""
    reading = at + side * (tool.form.radius / 1e6 + shop.feeler_mm)
    return said(" (or no. {id} on paper {feeler}: {signed})", id=tool.id, feeler=Mm(shop.feeler_mm),
                signed=_signed(reading))


def _along(draft: Draft) -> Iterator[Touch]:
    ends, shop = draft.question.feature.request.ends, draft.question.shop
    reading, is_placed = -shop.finder_mm / 2, bool(draft.question.layers)
    if ends == "open" and not is_placed:
        return
    which = "open, left-hand end" if ends == "one" else "left-hand end"
    yield Touch(said("{kick} set table {reading}", kick=_kick(shop, which), reading=Mm(reading)), reading)
    if ends == "open":
        yield Touch("go to the middle of the seat as drawn, set table 0, lock the table", 0.0)
    if ends == "closed":
        yield Touch("go to the left-hand end of the finished cut as drawn, set table 0", 0.0)


def _down(draft: Draft) -> Iterator[Touch]:
    question, shop = draft.question, draft.question.shop
    if question.setup.name == "tilted":
        return
    zero, level = question.zeros[1], question.feature.level
    up = not question.outline.rooms[0].opens(Opening.TOP) or question.setup.name != "upright"
    reading, face = shop.feeler_mm, "top"
    if level and not question.outline.rooms[0].opens(Opening.TOP):
        reading, face = reading + level[0], level[1].removeprefix("below the ")
    elif question.setup.name == "face level":
        face = "edge"
    elif up and zero != ZEROS[1]:
        face = "face that lies up"
    tools = tuple({tool.id: tool for tool in draft.tools}.values())
    ends = {tool.id: f"no. {tool.id}'s {'lower face of the teeth' if tool.kind.buried else 'end'}" for tool in tools}

    def dragging(those: str) -> Text:
        return said("{ends} on paper {feeler} on the {face}, spindle stopped, rolled by hand: at the drag set Z "
                    "{signed}", ends=those, feeler=Mm(shop.feeler_mm), face=face, signed=_signed(reading))

    each = tuple((number, dragging(end)) for number, end in ends.items())
    yield Touch(dragging(", ".join(ends.values())), reading, each)
    if face != "top" and not level and not question.outline.rooms[0].opens(Opening.TOP):
        then = said("then go down to {zero} as drawn from that face, set Z 0: the passes count from there",
                    zero=zero)
        yield Touch(then, 0.0, tuple((number, then) for number in ends))


_TO_EACH = ("each cutter goes to every hole by its readings, come to from the left and from the front; lock table and "
            "cross at each")


_NEXT = ("for each of the others move the work on the table and set it true the same way; table and cross stay as they "
         "are set")


def over_the_hole(chain: Chain) -> Iterator[Touch]:
    """Every step for what comes down an axis: the place as its kind says, else from two faces; the height by each
    cutter. A point is touched off beside a hole that is there already, before the spindle is brought over it."""
    brought, paper = chain.brought or KINDS[chain.question.feature.kind].brought, chain.question.shop.feeler_mm
    circle = chain.question.feature.circle
    down = tuple({tool.id: tool for tool in chain.tools if not tool.by_hand}.values())
    beside = down[:1] if brought and down and _end_of(down[0]) == "tip" else ()
    if beside:
        yield _dragging(beside, paper, "the top beside the hole")
    if circle and circle.middle is None:
        yield Touch("bring the spindle over the middle of the circle: by an indicator round a bore or a boss there, or "
                    "by two faces as drawn; set table 0 and cross 0", 0.0)
        yield Touch(_TO_EACH)
    else:
        yield from map(Touch, brought) if brought else _from_two_faces(chain)
        if chain.turned and chain.question.feature.number > 1:
            yield Touch(_NEXT)
    if down and not beside:
        yield _dragging(down[:1], paper, "the face" if chain.brought else "the top")
    if later := down[1:]:
        yield _dragging(later, paper, "a parallel laid over the hole", "to its thickness ")


def _dragging(tools: Sequence[Tool], paper: float, where: str, over: Text = "") -> Touch:
    """Each cutter's lower end on paper. Where a hole has been begun, a point goes into it and a bar's tooth hangs over
    it: a parallel laid over it bears them, and table and cross stay locked. Common practice, no source."""

    def says(those: str) -> Text:
        return said("{cutters} on paper {paper} on {where}, spindle stopped: at the drag set Z {over}{at}",
                    cutters=those, paper=Mm(paper), where=where, over=over, at=Mm(paper, sign=True))

    ends = {tool.id: f"no. {tool.id}'s {_end_of(tool)}" for tool in tools}
    return Touch(says(", ".join(ends.values())), paper, tuple((number, says(end)) for number, end in ends.items()))


def _end_of(tool: Tool) -> str:
    """What of a cutter comes down on the work first; a pilot goes into its hole."""
    if tool.cutter.pilot_mm:
        return "teeth"
    if tool.kind.buried:
        return "lower face of the teeth"
    if tool.down in (Down.GROOVING, Down.TREPANNING):
        return "tooth"
    from crib.machining.methods.down_the_axis.sizes import is_ground_flat

    return "tip" if tool.cutter.angle_deg and not is_ground_flat(tool.cutter) else "end"


def _from_two_faces(chain: Chain) -> Iterator[Touch]:
    shop, reading = chain.question.shop, -chain.question.shop.finder_mm / 2
    place = "each hole's place" if chain.question.feature.number > 1 else "the hole's place"
    yield Touch(said("edge finder {finder} on the left-hand face: at the kick set table {at}", at=Mm(reading),
                     finder=Mm(shop.finder_mm)), reading)
    yield Touch(said("the same on the front face: set cross {at}", at=Mm(reading)), reading)
    if chain.question.feature.circle:
        yield Touch(_TO_EACH)
        return
    yield Touch(said("go to {place} as drawn from these faces{along}, lock table and cross", place=place,
                     along=_along_the_gib(chain)))


def _along_the_gib(chain: Chain) -> Text:
    """Where each of a gib's screws stands."""
    from crib.features.down import Thread

    down = chain.question.feature.down
    if not isinstance(down, Thread) or down.gib is None:
        return ""
    return said(" (from the gib's end {along})", along=joined(", ", map(Mm, down.gib.along_mm)))
