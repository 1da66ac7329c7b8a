"""Ends: how a cutter gets in between them, how far it runs, how it comes in from the open one. What is open at both
loads none of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from crib.cutters.base import Cutter, Kind
from crib.geometry.operation import Operation, Work
from crib.geometry.outline import Opening, Room
from crib.geometry.region import NOTHING, Region
from crib.light.hints import TYPE_CHECKING
from crib.machining.draft import Draft
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import Cut, Job
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner

if TYPE_CHECKING:
    from crib.machining.ends.cornered import InTheCorners
    from crib.machining.ends.roughed import Rounds
    from crib.machining.ends.way_down import Doorway
    from crib.machining.sizes import Sizes


def never_in(question: Question, limits: Limits, tool: Tool, room: Room) -> bool:
    """Whether a tool can't get into a room between its ends, whatever is done before."""
    if question.layers is None:
        return False
    from crib.machining.ends import entry

    if entry.never_in(question, tool, room):
        return True
    if room.opens(Opening.TOP):
        return False
    from crib.machining.ends import under

    return under.is_never_in(question, limits, tool, room)


def is_not_in_yet(draft: Draft, limits: Limits, tool: Tool, room: Room) -> bool:
    """Whether a tool surely doesn't get into a room after what was done."""
    if draft.question.layers is None or room.opens(Opening.TOP):
        return False
    from crib.machining.ends import under

    return under.is_not_in_yet(draft, limits, tool, room)


def doorway(question: Question, room: Room) -> Doorway | None:
    """What lets tools down in a room in which nothing is open yet; None where its ends aren't closed, or where it hangs
    on more than the tool."""
    if question.layers is None:
        return None
    from crib.machining.ends import entry

    return entry.doorway(question, room)


def cuts_on_centre(kind: Kind, cutter: Cutter) -> bool:
    """Whether the teeth of a cutter, with what is usual of its kind filled in, are known to cut on centre."""
    return not kind.buried and bool(cutter.centre_cutting)


def keeps_out(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a tool surely doesn't get down in a room in which nothing is open yet, but for holes drilled for it."""
    door = doorway(question, room)
    return door is not None and door.keeps_out(tool.kind, cuts_on_centre(tool.kind, tool.cutter), tool.form.radius)


def is_shut(question: Question, room: Room, tools: Iterable[Tool]) -> bool:
    """Whether of some tools none that makes a size gets down in a room for want of one that opens it."""
    if question.layers is None:
        return False
    from crib.machining.ends import entry

    return entry.is_shut(question, room, tools)


def is_shut_under(question: Question, limits: Limits, room: Room, able: Callable[[Room], Iterable[Tool]]) -> bool:
    """Whether of the tools that are able to do anything in a room under a lip none ever gets in there."""
    if question.layers is None or room.opens(Opening.TOP):
        return False
    from crib.machining.ends import under

    return under.is_shut(question, limits, room, able)


def kept_out(question: Question, limits: Limits, room: Room, tools: Iterable[Tool],
             able: Callable[[Room], Iterable[Tool]]) -> frozenset[int]:
    """Of some tools the numbers of those that never get in a room, whoever of those that are able to do anything there
    or in another room opens it."""
    if question.layers is None:
        return frozenset()
    if room.opens(Opening.TOP):
        from crib.machining.ends import entry

        return entry.kept_out(question, room, tools, able)
    from crib.machining.ends import under

    return under.kept_out(question, limits, room, tools, able)


def is_shut_to_all(draft: Draft, limits: Limits, room: Room, needed: Callable[[], float]) -> bool:
    """Whether a room under a lip isn't opened so far yet as the least that anybody who does anything there needs each
    side of the middle [nm], asked only of a room between closed ends."""
    if draft.question.layers is None or room.opens(Opening.TOP):
        return False
    from crib.machining.ends import under

    return under.is_narrower(draft, limits, room, needed())


def ends_stand(question: Question, limits: Limits, room: Room, tools: Sequence[Tool]) -> bool:
    """Whether something that an owner may let stand surely stands at the ends of a room under a lip, whichever of some
    tools are put to it."""
    if question.layers is None or room.opens(Opening.TOP):
        return False
    from crib.machining.ends import under

    return under.ends_stand(question, limits, room, tools)


def least_needed(question: Question, limits: Limits, room: Room, tools: Iterable[Tool]) -> float:
    """How far each side of the middle what opens a room under a lip must be cut away for any of some tools [nm]."""
    from crib.machining.ends import under

    return under.least_needed(question, limits, room, tools)


def least_run(question: Question, limits: Limits, tool: Tool, room: Room) -> int:
    """How far each way from the middle every pass of a disc under a lip goes at the least, where nobody was there
    before [nm]; nought where that isn't told."""
    if question.layers is None or room.opens(Opening.TOP):
        return 0
    from crib.machining.ends import under

    return under.least_run(question, limits, tool, room)


def least_run_of(question: Question, limits: Limits, room: Room, sizes: Sizes) -> int:
    """The same told of the bare sizes of a disc."""
    if question.layers is None or room.opens(Opening.TOP):
        return 0
    from crib.machining.ends import under

    return under.least_run_of(question, limits, room, sizes)


def rubs_at_an_end(question: Question, tool: Tool, room: Room) -> bool:
    """Whether what makes a size surely rubs at a closed end when it makes the floor of a room."""
    if question.layers is None:
        return False
    from crib.machining.ends import entry

    return entry.rubs_at_an_end(question, tool, room)


def fits(question: Question, job: Job) -> bool:
    """Whether a job finds its way between the ends."""
    if question.layers is None:
        return True
    from crib.machining.ends import fit

    return fit.fits(question, job)


def with_courses(draft: Draft, choice: Sequence[Job]) -> Iterator[Draft]:
    """A draft with more jobs, one for each way in between the ends."""
    if draft.question.layers is None:
        return iter((draft.then(*choice),))
    from crib.machining.ends import fit

    return fit.with_courses(draft, choice)


def in_every_frame(draft: Draft) -> tuple[Work, tuple[Operation, ...]]:
    """What is asked of a draft and its passes, in the section and, where an end is closed, from above."""
    request = draft.question.feature.request
    if request.ends != "one" or not request.length:
        return Work(draft.question.outline, layers=draft.question.layers), draft.operations
    from crib.machining.ends import one_end

    return one_end.in_every_frame(draft)


def leaves_corners(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a tool that finishes a room leaves more in its corners, seen from above, than the drawing allows."""
    layers = question.layers
    corners = layers.corners.get(room.name) if layers else None
    return corners is not None and tool.can_finish and tool.form.radius > corners.most


def has_corners(question: Question, room: Room) -> bool:
    """Whether a room has round corners as seen from above, so that one mill may rough it for another."""
    return question.layers is not None and room.name in question.layers.corners


def corners_stay(question: Question, limits: Limits, tools: Iterable[Tool], gone: Region) -> bool:
    """Whether something stays in a room's round corners, seen from above, that must go whatever an owner lets stand,
    and that none of some tools gets to where no more of the section is ever gone than so much."""
    if question.layers is None or not question.layers.corners:
        return False
    from crib.machining.ends import corner_reach

    [room] = (room for room in question.outline.rooms if room.name in question.layers.corners)
    return corner_reach.corners_stay(question, limits, room, tools, gone)


def after_a_rougher(question: Question, tool: Tool, room: Room) -> tuple[Rounds, Rounds] | None:
    """What a tool takes at the least in a room that another mill has roughed, without and with a drill down its
    corners; None where none roughs it for this tool."""
    layers = question.layers
    if layers is None or room.name not in layers.corners or not question.roughers:
        return None
    from crib.machining.ends import cornered, roughed

    walls = cornered.Walls.of(layers, room)
    if not roughed.may_follow(tool, walls):
        return None
    return roughed.least_rounds(tool, room, walls, False), roughed.least_rounds(tool, room, walls, True)


def after_a_chain(question: Question, tool: Tool, room: Room) -> tuple[float, int] | None:
    """What a chain of holes in a room takes at the least [min], and in how many levels a tool then clears it at the
    least; None where none is drilled for it."""
    if not tool.can_finish or chain_minutes(question, room) is None:
        return None
    from crib.machining.ends import chained

    return chained.least(question, tool, room)


def chain_minutes(question: Question, room: Room) -> float | None:
    """What a chain of holes in a room takes at the least [min], whatever clears it then; None where none is drilled."""
    layers = question.layers
    if layers is None or layers.corners or room.across or not room.opens(Opening.TOP) or not question.drills:
        return None
    from crib.machining.ends import chained

    found = chained.least_of_rows(question, room)
    return found[0] if found else None


def misses_corners(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a room's corners, seen from above, come out beyond the drawing where a tool is the largest in them."""
    if question.layers is None or room.name not in question.layers.corners:
        return False
    from crib.machining.ends import cornered

    alone = Job(tool, room.name, (), NOTHING, Manner.IDLE)
    return any(one.left > one.allowed + 1 for one in cornered.in_the_corners(question.layers, (room,), (alone,)))


def in_the_corners(draft: Draft) -> tuple[InTheCorners, ...]:
    """What comes of the corners of rooms that have a radius there as seen from above."""
    layers = draft.question.layers
    if layers is None or not layers.corners:
        return ()
    from crib.machining.ends import cornered

    return tuple(cornered.in_the_corners(layers, draft.question.outline.rooms, draft.jobs))


def zero_along(draft: Draft) -> int:
    """From where positions along count, as ways are reckoned [nm]: from the left end of what opens between closed ones,
    else from the open end."""
    layers = draft.question.layers
    return layers.ends[draft.question.outline.rooms[0].name].left if layers else 0


def stands_short(draft: Draft) -> int:
    """How far what stands at closed ends, and an owner may let stand, reaches from what is gone [nm]."""
    if draft.question.layers is None:
        return 0
    from crib.machining.ends import fit

    return fit.stands_short(draft)


def left_in_the_floor(draft: Draft) -> int:
    """How far what an owner may let stand in the floor's edge reaches, seen from above [nm]; nought where no end is
    closed all round."""
    if draft.question.layers is None:
        return 0
    from crib.machining.ends import fit

    return fit.left_in_the_floor(draft)


def run_out(draft: Draft) -> int:
    """How far beyond its length an end that is cut from the side runs out [nm]."""
    if draft.question.feature.request.ends != "one":
        return 0
    from crib.machining.ends import one_end

    return one_end.run_out(draft)


def always_runs_out(question: Question) -> bool:
    """Whether whatever takes anything runs out so: a disc that comes in from the side through the surface."""
    if question.feature.request.ends != "one" or question.outline.stock.bounds()[2] > 0:
        return False
    from crib.machining.ends import one_end

    return one_end.is_from_the_side(question.outline)


def climbs(draft: Draft) -> list[Cut]:
    """The passes that cut a wall climb, for want of a way to go in and come out along it."""
    if draft.question.feature.request.ends != "one":
        return []
    from crib.machining.ends import one_end

    return list(one_end.climbs(draft))
