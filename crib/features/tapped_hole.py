"""A tapped hole. In the section a thread stands as wide as its major diameter."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, refuse
from crib.features.down import HOLE, Thread
from crib.features.request import Request
from crib.features.rounds import check_depth, is_through, lowest_mm, metal, rod, room
from crib.features.speech import Speech
from crib.geometry.axis_view import disc
from crib.geometry.outline import Outline
from crib.geometry.region import Region
from crib.light.hints import TYPE_CHECKING
from crib.units import Size, as_basic, nm

if TYPE_CHECKING:
    from crib.handbook.threads import Reading
    from crib.handbook.threads import Thread as ThreadForm

RIM_MM = 0.010 * 25.4
"""A countersink opens this much over the thread [mm], common practice; it may open three times that."""

_ROOM = 5.0
"""Room below the full thread for chamfer, chips and point, in diameters, where nothing is said of what is below [-]."""


def reading_of(request: Request) -> Reading:
    """The thread that is asked for. Raises `CribError` where it is none, or could be several."""
    from crib.handbook.threads import read_thread

    return read_thread(request.said.get("thread", ""))


def drawn_thread(thread: ThreadForm, request: Request, depth: Size) -> tuple[Region, Region, Region]:
    """The thread's least, aim and most: its full depth, the room below it, and the countersink at its mouth."""
    room_mm = _ROOM * thread.major_mm
    lowest = lowest_mm(request, depth.mid, thread.minor_basic_mm, room_mm)
    rim = thread.major_mm + 3 * RIM_MM
    mouth = disc(-nm(rim / 2), 0, 0, nm(rim / 2))
    most = rod(thread.major_mm, max(lowest, depth.mid)) | mouth
    return rod(thread.major_mm, depth.lo), rod(thread.major_mm, depth.mid), most


def draw(request: Request) -> Feature:
    """The thread to its full depth. What lies below it is the plan's affair."""
    from crib.handbook.threads import hole_limits

    depth = request.size("depth")
    thread = reading_of(request).thread
    limits = hole_limits(thread, request.said.get("class") or reading_of(request).class_name)
    if thread.taper:
        raise refuse(f"{thread.designation} is a taper thread: its depth goes by the gauge", thread.designation,
                     f"crib tap {thread.designation} tells its drill")
    check_depth(request, depth, thread.major_mm)
    least, aim, most = drawn_thread(thread, request, depth)
    outline = Outline(
        stock=metal(request, depth.mid),
        least=least,
        aim=aim,
        most=most,
        rooms=(room("thread", as_basic(thread.major_mm), depth),),
    )
    low, high = limits.least or thread.minor_basic_mm, limits.most or thread.major_mm
    return Feature(
        kind="tapped-hole",
        words="tapped hole",
        request=request,
        outline=outline,
        dimensions=(Dimension("minor diameter", "width", Size((low + high) / 2, low, high, thread.designation), ()),
                    Dimension("depth", "depth", depth, ())),
        down=Thread(reading_of(request), request.said.get("class"), depth.mid, is_through(request)),
        number=request.count,
        stands="upright",
        exact=frozenset({"depth"}) if is_through(request) else frozenset(),
        calls_for={HOLE: CallsFor(("drill",), (low, high)), "thread": CallsFor(("tap",))},
    )


KIND = FeatureKind(
    name="tapped-hole",
    words="a tapped hole",
    sizes=(SizeSpec("depth", "depth of full thread; with --through, the thickness", "loose"),),
    draw=draw,
    options=(OptionSpec("thread", "the thread: 1/4-20, M6x1, 0BA, 3/8 whit", needed=True),
             OptionSpec("class", "2B, 6H, or none", "CLASS"), OptionSpec("through", "it goes through")),
    example={"thread": "1/4-20", "depth": "1/2"},
    speech=Speech(
        names=("threaded hole", "tapped", "tap hole", "screwed hole", "tapping", "drill and tap", "hole tapped",
               "drilled and tapped hole", "hole threaded", "tap", "hole drilled and tapped", "drill and tap hole",
               "drilled and tapped"),
        words={"thread": ("tap", "threads", "threaded"),
               "depth": ("thick", "thickness", "plate", "of thread", "full thread", "of full thread",
                         "thread depth", "full thd", "thd", "deep of thread",
                         "deep of full thread")},
        order=("thread", "depth"),
        common=("tapped", "tapping", "tap"),
    ),
)
