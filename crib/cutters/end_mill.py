"""End mills: square, ball and corner radius, centre-cutting or not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion, Unknown
from crib.cutters.edges import is_serrated
from crib.cutters.gauged import IN, SIZE_MM, Candidate, Gauging, Measured, fine, outside, parts_of_an_inch, whole_mm
from crib.cutters.proposals import LONGER_MM, MEMORY, THOU, TO_ORDER, Need, Wanted, new
from crib.cutters.shanks import end_mill_shank
from crib.cutters.shapes import Stem, rounded_end
from crib.cutters.speech import Name, Order, Speech, Spoken
from crib.findings.finding import Finding
from crib.findings.message import said
from crib.geometry.outline import BOTH_SIDES
from crib.geometry.silhouette import Silhouette
from crib.light.hints import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from crib.handbook.stock import StockEndMill

_RUB = 0.002 * 25.4
"""A shank that follows the teeth into the cut must be this much thinner on each side (.002 in, common practice)."""

_STICK_OUT = 38.1
"""Shank that stands out above the teeth where the overall length isn't known [mm]."""


_REGROUND_MM = 0.060 * IN
"""What end mills are ground under their size, at the most [mm]. Common practice."""

_MOST, _WIDEST_MM = 3, 1.25 * IN
"""So many sizes are proposed; wider than this no end mill is made to size [mm]."""

_SIGNS = r"loc|de|se|cc|non ?-?cc|ctr|(?:[3-9]|1) (?:flutes?)"

USUAL_CUT, LONG_CUT = 2.0, 4.0
"""Length of cut of a usual and of a long end mill, in diameters (from memory)."""

_SHORT_CUT = 3.0
"""No end mill that isn't a long one is longer in the cut than so many diameters (from memory of the standards)."""


def _fill(cutter: Cutter) -> Cutter:
    """Typical values for what wasn't stated: a short standard length of cut, a usual shank."""
    diameter = cutter.diameter_mm or cutter.nominal_mm
    if diameter is None:
        return cutter
    given = {
        "length_of_cut_mm": USUAL_CUT * diameter,
        "shank_mm": end_mill_shank(cutter),
        "flutes": 4,
        "corner_radius_mm": 0.0,
    }
    typical = {key: value for key, value in given.items() if getattr(cutter, key) is None}
    if cutter.centre_cutting is None:
        flutes = cutter.flutes or 4
        typical["centre_cutting"] = flutes <= 3
    assumed = tuple(key for key in typical if key not in ("corner_radius_mm",))
    return cutter.but(**typical, assumed=tuple(dict.fromkeys((*cutter.assumed, *assumed))))


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    if cutter.diameter_mm is None and cutter.nominal_mm is not None:
        return (
            Unknown("diameter_mm", cutter.nominal_mm, cutter.nominal_mm - 0.06 * 25.4,
                    "mic the diameter across the teeth: it was reground", between=True),
        )
    size = cutter.diameter_mm
    if size is not None and cutter.length_of_cut_mm is None:
        return (Unknown("length_of_cut_mm", LONG_CUT * size, USUAL_CUT * size, "measure the length of cut", False),)
    return ()


def _form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """Teeth with the rounded corner, a neck where it is relieved, and the shank."""
    diameter, corner = cutter.diameter_mm or 0.0, _corner(cutter)
    teeth = rounded_end("teeth", diameter, corner, max(corner, cutter.length_of_cut_mm or 0.0))
    return Silhouette(teeth, teeth, _stem(cutter, clear).parts)


def _stem(cutter: Cutter, clear: Clearances) -> Stem:
    """The neck and the shank of a cutter, filled in or not."""
    diameter, cut, shank = cutter.diameter_mm or 0.0, _teeth(cutter), cutter.shank_mm
    if shank is None:
        shank = end_mill_shank(cutter)
    reach = max(cut, cutter.reach_mm or cut)
    top = max(reach, cutter.overall_length_mm or reach + _STICK_OUT)
    return Stem(cut, cutter.neck_mm, None, reach, shank or diameter, top, _RUB, _RUB, clear.end)


def _teeth(cutter: Cutter) -> float:
    """How tall the teeth are: no less than their corner is round, whatever is on record as the length of cut."""
    cut = cutter.length_of_cut_mm
    return max(_corner(cutter), USUAL_CUT * (cutter.diameter_mm or 0.0) if cut is None else cut)


def _corner(cutter: Cutter) -> float:
    return min(cutter.corner_radius_mm or 0.0, (cutter.diameter_mm or 0.0) / 2)


def _check(cutter: Cutter) -> tuple[Finding, ...]:
    from crib.cutters.checks import no_fatter, no_longer

    return (
        *no_longer(cutter, "length_of_cut_mm", "overall_length_mm", "the length of cut", "the overall length"),
        *no_fatter(cutter, "neck_mm", "diameter_mm", "the neck", "the diameter"),
        *(_check_corner(cutter) if cutter.corner_radius_mm is not None else ()),
    )


def _check_corner(cutter: Cutter) -> tuple[Finding, ...]:
    from crib.cutters.checks import no_longer

    return no_longer(cutter.but(radius_mm=(cutter.diameter_mm or 1e9) / 2), "corner_radius_mm", "radius_mm",
                     "the corner radius", "half the diameter")


def looks(values: Mapping[str, Any]) -> Iterator[str]:
    """One of four flutes may cut to the centre or not; a ball always does."""
    if (values.get("flutes") or 0) >= 4 and "centre_cutting" not in values and not values.get("ball"):
        yield "does it cut to the centre? look at its end teeth"


def _signs(line: Spoken) -> bool:
    """Four sizes, or two flutes of carbide, or what only end mills are said to have."""
    return line.has(_SIGNS) or len(line.sizes) == 4 or (line.has("2 flutes?") and line.has("carbide"))


def _fits(measured: Measured) -> Iterator[Candidate]:
    """The sizes that end mills are made in, new or reground."""
    from fractions import Fraction

    if measured.diameter_mm is None:
        return
    for mm, name in (*parts_of_an_inch(2, 64, 32), *whole_mm(2, 32)):
        off = measured.diameter_mm - mm
        if -_REGROUND_MM <= off < -SIZE_MM and Fraction(mm / IN).limit_denominator(64).denominator <= 16:
            yield Candidate("end-mill", f"{name} end mill, reground", off,
                            said("ground {under} under, if its flutes look thin for their size", under=fine(-off)))
        else:
            yield Candidate("end-mill", f"{name} end mill", off, said("made {size}", size=fine(mm)),
                            beyond=outside(off, -SIZE_MM, SIZE_MM))


def _proposes(need: Need) -> Iterator[Wanted]:
    """One pass its own size where the room has a width, with a shank that a collet takes; for an edge the widest."""
    from crib.handbook.bands import band
    from crib.handbook.stock import METRIC_SOURCE, SOURCE

    room = need.room
    if room is None:
        return
    if need.corner is not None:
        radius = round(sum(need.corner) / 2, 6)
        yield Wanted(_new(need, 2 * radius, need.shank_for(2 * radius)).but(corner_radius_mm=radius), f"{MEMORY} sizes")
        return
    is_edge = bool(room.open & BOTH_SIDES)
    low, high = (0.0, 25.4) if is_edge else (room.least.width / 1e6, room.most.width / 1e6)
    ideal = max(low, room.aim.width / 1e6 - sum(band("own size").careful_mm) / 2)
    mine, others = (tuple(_made(need, metric, high)) for metric in (need.metric, not need.metric))
    serve = [mill for mill in (*mine, *others) if _serves(need, mill, low, high, ideal)]
    if not is_edge and not serve and ideal <= _WIDEST_MM:
        yield _long(_new(need, ideal, need.shank_for(ideal)), TO_ORDER)
    strange = () if is_edge or any(mill in serve for mill in mine) else tuple(mill for mill in others if mill in serve)
    for metric, mills in ((not need.metric, strange), (need.metric, sorted(mine, key=lambda mill: mill not in serve))):
        for mill in mills:
            made = _new(need, mill.diameter_mm, mill.shank_mm, mill.length_of_cut_mm, mill.overall_length_mm)
            yield _long(made, METRIC_SOURCE if metric else SOURCE)


def _serves(need: Need, mill: StockEndMill, low: float, high: float, ideal: float) -> bool:
    """Whether what a mill cuts at its own size keeps to a width, as it usually comes out or with care about the ideal
    one, as deep as is asked, and is held as well as one that is made to size."""
    from crib.handbook.bands import band

    under, over = band("own size").usual_mm
    size = mill.diameter_mm
    if need.deep > mill.length_of_cut_mm or size + under < low or (size + over > high and size > ideal + THOU):
        return False
    return need.is_held(mill.shank_mm) or not need.is_held(need.shank_for(ideal))


def _made(need: Need, metric: bool, high: float) -> Iterator[StockEndMill]:
    """The widest that are made and go in: of each the shortest that is as long as it is deep, else the longest; on a
    shank that a collet takes if there is one."""
    from crib.handbook.stock import end_mills

    made = [mill for mill in end_mills(metric) if mill.diameter_mm <= high]
    for diameter in sorted({mill.diameter_mm for mill in made})[-_MOST:]:
        alike = [mill for mill in made if mill.diameter_mm == diameter]
        held = [mill for mill in alike if need.is_held(mill.shank_mm)] or alike
        enough = [mill for mill in held if mill.length_of_cut_mm >= need.deep + need.end]
        length = enough[0].length_of_cut_mm if enough else held[-1].length_of_cut_mm
        yield from (mill for mill in held if mill.length_of_cut_mm == length)


def _long(cutter: Cutter, source: str) -> Wanted:
    """A mill that could be bought, by its length of cut too where that is more than usual."""
    is_long = (cutter.length_of_cut_mm or 0.0) > _SHORT_CUT * (cutter.diameter_mm or 0.0)
    return Wanted(cutter, source, long_mm=cutter.length_of_cut_mm if is_long else None)


def _new(need: Need, diameter: float, shank: float, cut: float = 0.0, overall: float | None = None) -> Cutter:
    """An end mill; one that is made to size is long enough, in whole sixteenths or millimetres."""
    step = 1.0 if need.metric else 25.4 / 16
    enough = cut or round(ceil(max(2.0 * diameter, need.deep + LONGER_MM) / step) * step, 6)
    return new("end-mill", diameter_mm=diameter, shank_mm=shank, length_of_cut_mm=enough, overall_length_mm=overall,
               flutes=2, centre_cutting=True, corner_radius_mm=0.0)


KIND = Kind(
    name="end-mill",
    words="end mill",
    plural="end mills",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("flutes", "corner_radius_mm", "length_of_cut_mm", "shank_mm", "centre_cutting"),
    form=_form,
    stem=_stem,
    teeth=_teeth,
    fill=_fill,
    unknowns=_unknowns,
    check=_check,
    motions=frozenset({Motion.ALONG, Motion.DOWN}),
    down=frozenset({Down.MILLING}),
    opens=True,
    gauging=Gauging("diameter_mm", _fits),
    proposes=_proposes,
    is_ground_out=True,
    called=lambda cutter: "roughing end mill" if is_serrated(cutter) else "",
    speech=Speech(
        largest=76.2,
        times_shank=3.0,
        names=(
            Name(r"(?:slot drill)s?", "slot drill", {"flutes": 2, "centre_cutting": True}),
            Name(r"(?:rough(?:er|ing)|corncob|hog(?:ger)?)(?: end ?mills?)?", "roughing"),
            Name(r"ball(?: ?nosed?| end)?(?: end ?mills?)?", means={"ball": True}),
            Name(r"bull ?nosed?(?: end ?mills?)?", "bull nose"),
            Name(r"(?:end ?mills?|em|endmills?)"),
        ),
        noun="end mill|em",
        short=("em", "mill", "endmill"),
        common=True,
        heard={"endmil": "end mill", "endmill": "end mill", "endmills": "end mills", "end-mill": "end mill",
               "end-mills": "end mills", "e/m": "end mill", "endmll": "end mill", "ballnose": "ball nose",
               "bullnose": "bull nose", "roughers": "rougher"},
        phrases=((r"\bend mil\b", "end mill"),),
        order=Order.MILL,
        small=True,
        fields={"radius_mm": "corner_radius_mm"},
        wanted=("flutes", "shank_mm", "length_of_cut_mm"),
        looks=looks,
        signs=_signs,
    ),
    example=Cutter(0, "end-mill", diameter_mm=12.7, flutes=2, length_of_cut_mm=25.4, shank_mm=12.7,
                   overall_length_mm=82.55, centre_cutting=True, material="hss"),
)
