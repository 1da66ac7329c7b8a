"""Holes equally spaced round a circle, plain or tapped: each is made as one by itself, at its place by table and
cross."""

from __future__ import annotations

from crib.features import hole, tapped_hole
from crib.features.base import Feature, FeatureKind, OptionSpec, SizeSpec, Standard, refuse
from crib.features.counts import number_in
from crib.features.down import Circle, Finish
from crib.features.for_screws import FIT, hole_for
from crib.features.request import Request, Spoken
from crib.features.speech import Speech
from crib.findings.errors import CribError
from crib.findings.message import InWords, said
from crib.handbook import circles
from crib.light.records import replace
from crib.units import Size, read


def number_of(request: Request) -> int:
    """How many holes. Raises `CribError` for no such number."""
    return number_in(request.said.get("number", ""), "holes round a circle", 2, circles.MOST,
                     f"2 to {circles.MOST}: --number 6")


def start_of(request: Request) -> float:
    """The angle of the first hole from the right, counter-clockwise [deg]. Raises `CribError`."""
    text = request.said.get("start", "0").lower().removesuffix("deg").removesuffix("°").strip()
    try:
        angle = float(text)
    except ValueError:
        angle = float("nan")
    if not -360 <= angle <= 360:
        raise CribError("start", f"start {text!r} is no angle round a circle", text,
                        "degrees from the right, counter-clockwise: --start 30")
    return angle


def _middle(request: Request) -> tuple[float, float] | None:
    """The circle's middle from the left-hand and the front face [mm]; None where it is the zero itself. Raises
    `CribError` for one of the two alone."""
    given = [key for key in ("x", "y") if key in request.said]
    if not given:
        return None
    if len(given) == 1:
        lacks = "y" if given == ["x"] else "x"
        raise CribError("middle", f"the middle of the circle has its {given[0]} and not its {lacks}", "",
                        "both, --x from the left-hand face and --y from the front one; or neither, and it is zero")
    return _signed(request, "x"), _signed(request, "y")


def _signed(request: Request, key: str) -> float:
    """A position, which may be nought or less [mm]."""
    text = request.said[key]
    bare = text.lstrip("+-").strip()
    if bare.strip("0.") == "" and any(sign.isdigit() for sign in bare):
        return 0.0
    return (-1 if text.startswith("-") else 1) * read(bare, request.units, key).mm


def draw(request: Request) -> Feature:
    """One of the holes, as its own kind draws it, and where all of them stand."""
    circle, number = request.size("diameter"), number_of(request)
    one = _one(request)
    wide = one.outline.rooms[0].most.width / 1e6
    chord = circles.chord(circle.mid, number)
    if chord <= wide:
        raise refuse(
            said("{number} holes {wide} across round a circle of {circle} run into one another: they stand {chord} "
                 "apart", number=number, wide=InWords(wide), circle=circle.text, chord=InWords(chord)), circle.text,
            said("a circle above {least}, or fewer holes", least=InWords(wide * circle.mid / chord)))
    middle = _middle(request)
    at = middle or (0.0, 0.0)
    found = Circle(circle, number, tuple((at[0] + x, at[1] + y) for x, y in
                                         circles.places(circle.mid, number, start_of(request))), middle, chord, wide)
    return replace(
        one,
        kind="bolt-circle",
        words=f"bolt circle, {number} {one.words}s",
        request=request,
        number=number * request.count,
        circle=found,
        measures=(("chord from a hole to the next", chord), ("web left between the holes", chord - wide)),
        reckoned={"chord_mm": chord, "web_mm": chord - wide, "middle_x_mm": at[0], "middle_y_mm": at[1]},
        exact=one.exact | {"diameter"} if not circle.given else one.exact,
    )


def _one(request: Request) -> Feature:
    """One hole, asked for by itself. Raises `CribError` where it isn't said what the holes are, or said twice."""
    given = [f"--{key}" for key in ("hole", "thread") if key in request.sizes or key in request.said]
    if not given:
        raise CribError("size", "a bolt circle needs its holes", "",
                        "--hole 17/64, --screw 1/4 for a screw's clearance, or --thread 1/4-20")
    if len(given) == 2:
        read_as = f"{request.sizes['hole'].text} and {request.said['thread']}"
        raise CribError("size", "the holes of a circle are drilled to a size or tapped, not both", read_as,
                        "--hole or --thread: what a thread is drilled by is found")
    plain = {"depth": request.size("depth")}
    if "thread" in request.said:
        return tapped_hole.draw(replace(request, sizes=plain))
    return hole.draw(replace(request, sizes=plain | {"diameter": request.size("hole")}))


def _for_screw(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """As wide as the hole that a screw goes through."""
    found, source = hole_for(spoken)
    return {"hole": found["diameter"]}, source


KIND = FeatureKind(
    name="bolt-circle",
    words="a bolt circle",
    sizes=(
        SizeSpec("diameter", "diameter of the circle through the middles of the holes"),
        SizeSpec("hole", "diameter of the holes", needed=False),
        SizeSpec("depth", "of the holes, at full diameter or full thread; the thickness with --through", "loose"),
    ),
    draw=draw,
    standards=(Standard("screw", "holes for a screw to go through: #8, 1/4, M6", _for_screw),),
    options=(
        OptionSpec("number", "how many holes", "N", needed=True),
        OptionSpec("start", "the first hole's angle from the right, counter-clockwise from above: 0", "DEGREES"),
        OptionSpec("x", "the circle's middle from the left-hand face; without it the middle is zero", "POSITION"),
        OptionSpec("y", "the circle's middle from the front face", "POSITION"),
        OptionSpec("thread", "tapped holes: 1/4-20, M6x1"),
        OptionSpec("class", "of a thread: 2B, 6H, or none", "CLASS"),
        OptionSpec("through", "they go through"),
        OptionSpec("finish", "of plain holes: drilled, reamed or bored", "|".join(Finish)),
        FIT,
    ),
    speech=Speech(
        names=("bolt hole circle", "circle of holes", "hole circle", "bolt pattern", "bcd", "pcd", "bc", "bhc",
               "circle", *(f"{sort} hole circle" for sort in ("tapped", "threaded", "drilled", "reamed", "bored",
                                                              "clearance"))),
        common=("circle",),
        words={"diameter": ("pitch circle", "circle"),
               "hole": ("holes", "drilled holes", "clearance holes", "bolt holes", "drill"),
               "depth": ("thick", "thickness", "plate", "thick plate"),
               "thread": ("tapped holes", "tapped hole", "threaded holes", "tapped"),
               "screw": ("screws", "bolts", "cap screws"), "start": ("starting at",),
               "x": ("from the left", "from the left hand face"), "y": ("from the front", "from the front face")},
        order=("diameter", "hole", "depth"),
        above={"diameter": ("hole", None)},
        after=dict.fromkeys(("thread", "screw"), ("diameter", "depth")),
        counts="number",
    ),
    example={"diameter": "3", "number": "6", "hole": ".316+.005-0", "depth": "1/2"},
)
