"""Answers made by hand for the tests of the sheets: a letterpress repair bench remakes the side-lay slide of a hand
proof press, with a T-slot that its own cutters are not quite made for."""

from __future__ import annotations

from math import hypot

from crib.cutters.base import Cutter
from crib.findings.finding import Figure, Finding, Grade, off_drawing
from crib.geometry.box_outline import nearest_edge
from crib.geometry.region import box
from crib.geometry.rounded_box import RoundedBox, oblong
from crib.geometry.silhouette import Part, Silhouette
from crib.pages.scene import DimensionLine, FromAbove, Scene
from crib.planning.told.advice import Advice, CostLine, FaceReport, Plan, Proof, TightSpot, refused
from crib.planning.told.passes import Pass

INCH = 25.4
FAR = 1_000_000_000

THROAT, DEPTH, HEAD, HEAD_HEIGHT = 0.625, 0.520, 0.975, 0.240


def nm(inches: float) -> int:
    return round(inches * INCH * 1_000_000)


def mm(inches: float) -> float:
    return round(inches * INCH, 9)


KEYSEAT = Cutter(
    7, "keyseat-cutter", "5/8 x 3/16 keyseat cutter, neck .250", drawer="B2", diameter_mm=mm(0.625), face_mm=mm(0.1875),
    neck_mm=mm(0.25), reach_mm=mm(0.75), shank_mm=mm(0.5), measured=("diameter_mm",), condition="used")
END_MILL = Cutter(
    3, "end-mill", "1/2 end mill, 4 flutes", drawer="A1", diameter_mm=mm(0.4985), length_of_cut_mm=mm(1.0),
    shank_mm=mm(0.5), measured=("diameter_mm",), reground=True)
FAT_NECK = Cutter(12, "keyseat-cutter", "5/8 x 3/16 keyseat cutter, neck .300", drawer="B2", neck_mm=mm(0.3))
UNMEASURED = Cutter(19, "t-slot-cutter", "1/2 T-slot cutter, reground", drawer="gift box", reground=True)
TALL = Cutter(21, "keyseat-cutter", "3/4 x 1/4 keyseat cutter", drawer="B3")


def keyseat_form(diameter: float = 0.625, face: float = 0.1875, neck: float = 0.25, shank: float = 0.5) -> Silhouette:
    teeth = (Part("teeth", 0, nm(face), nm(diameter / 2), nm(diameter / 2)),)
    return Silhouette(teeth, teeth, (
        Part("neck", nm(face), nm(0.75), nm(neck / 2), nm(neck / 2)),
        Part("shank", nm(0.75), nm(2), nm(shank / 2), nm(shank / 2)),
        Part("nose", nm(2), nm(6), nm(2), nm(2)),
    ))


def scene(
    throat: float = THROAT, depth: float = DEPTH, head: float = HEAD, height: float = HEAD_HEIGHT, x: float = 0.175,
    z: float = -0.520, form: Silhouette | None = None,
) -> Scene:
    """A T-slot with the cutter at x, z, sizes in inches."""
    finished = box(nm(-throat / 2), nm(-depth), nm(throat / 2), 0) | box(
        nm(-head / 2), nm(-depth), nm(head / 2), nm(height - depth))
    return Scene(
        box(-FAR, -FAR, FAR, 0), finished, form or keyseat_form(), nm(x), nm(z),
        TightSpot(9, "neck", mm(x + 0.125), mm(height - depth), mm(throat / 2 - x - 0.125)),
        dimensions=(
            DimensionLine("throat", True, nm(-throat / 2), nm(throat / 2)),
            DimensionLine("head", True, nm(-head / 2), nm(head / 2)),
            DimensionLine("depth", False, nm(-depth), 0),
            DimensionLine("head height", False, nm(-depth), nm(height - depth)),
        ),
    )


def one(no: int, cutter: int, role: str, room: str, x: float, z: float, feed: str, way: str, side: float = 0.0,
        bite: float = 0.0, rpm: int | None = 380, rate: float = 2.3, says: str = "") -> Pass:
    return Pass(no, cutter, role, room, mm(x), mm(z), mm(x), mm(z), mm(side), mm(bite), feed, way, rpm,
                rpm or 440, round(rate * INCH, 6), 2.6, says)


THROAT_PASSES = tuple(
    one(no, 3, "rough", "throat", 0, -0.17 * no, "right", "both", 0.4985, 0.17, says="lift, come back clear")
    for no in (1, 2, 3)
)
HEAD_PASSES = (
    one(6, 7, "undercut", "head", 0, -0.52, "right", "both", 0.3125, 0.1875, 150, 2.9, "brush the chips out"),
    one(7, 7, "undercut", "head", 0.175, -0.52, "right", "conventional", 0.03, 0.1875, 150, 2.9, "brush the chips out"),
    one(8, 7, "undercut", "head", -0.175, -0.52, "left", "conventional", 0.03, 0.1875, 150, 2.9, "brush the chips out"),
    one(9, 7, "undercut", "head", 0.175, -0.4675, "right", "conventional", 0.175, 0.0525, None, 2.9),
)
PASSES = (
    *THROAT_PASSES,
    one(4, 3, "finish", "throat", 0.0635, -0.52, "right", "conventional", 0.0635, 0.52),
    one(5, 3, "finish", "throat", -0.0635, -0.52, "left", "conventional", 0.0635, 0.52, says="mic the width"),
    *HEAD_PASSES,
)
PLAN = Plan(
    "extra passes", "end mill for the throat, keyseat cutter for the head", (END_MILL, KEYSEAT), PASSES,
    Proof(0.0, 0.0, mm(0.0125), TightSpot(9, "neck", mm(0.3), mm(-0.28), mm(0.0125)),
          (FaceReport("throat left", (3,), 0, 0.0), FaceReport("head left", (7,), 1, 0.0))),
    figures=(Figure("side step", mm(0.175)), Figure("widest head with this neck", mm(0.98)), Figure("levels", value=2)),
    holders=("1/2 collet", "1/2 collet"),
    assumed=("head width ±.005",),
    warnings=(
        Finding("witness", Grade.NOTE, "a fine line stays in the head's walls where the two levels meet"),
        Finding("chips", Grade.CAUTION, "chips pack in the slot: brush after every pass, or the neck snaps"),
        Finding("neck", Grade.WARN, "thin neck: no jerk on the handle"),
    ),
    minutes=74.0, cost=21.4,
    cost_lines=(CostLine("measuring", 6.0, 1.5, "4 times"), CostLine("head", 24.0, 6.0, "4 passes"),
                CostLine("throat", 20.0, 5.0, "5 passes"), CostLine("scrap", 0.0, 2.9, "6 hours in it")),
    scrap_chance=0.04,
)
RUNNER_UP = Plan(
    "compromise", "end mill alone, head left narrow", (END_MILL,), THROAT_PASSES, Proof(mm(0.01), 0.0, None),
    deviations=(off_drawing("LF1", "head narrower a side by", mm(0.01), of_mm=mm(0.02)),), minutes=60.0, cost=18.0)
REFUSED = (
    refused(FAT_NECK, "NK1", "neck .300 stands .0125 into the clearance it needs", mm(0.3), mm(0.255),
            "a neck of .255 or less would clear", mm(0.0225)),
    refused(UNMEASURED, "G7", "reground, and not measured since", None, mm(0.975),
            "mic its diameter: .975 or less would do", 1.0, unsure=True),
    refused(TALL, "FC1", "face .250 is taller than the head's .240", mm(0.25), mm(0.24),
            "would go if the head were .250 high", mm(0.01)),
)
FEATURE = {
    "kind": "t-slot", "throat_mm": mm(THROAT), "throat_limits_mm": [mm(0.625), mm(0.627)], "depth_mm": mm(DEPTH),
    "head_width_mm": mm(HEAD), "head_height_mm": mm(HEAD_HEIGHT), "length_mm": None, "material": "grey iron",
}
ADVICE = Advice(
    FEATURE, "extra passes", (PLAN, RUNNER_UP), REFUSED, assumed=("length 4.000",),
    cautions=("glasses with side shields", "cast iron dust: mask on, ways covered"))
CANNOT = Advice(FEATURE, "cannot", (), REFUSED, "no cutter's neck goes through the throat with its clearance")
MEASURE = Advice(FEATURE, "measure first", (), REFUSED, "one cutter would do if it is small enough")
REFER = Advice({**FEATURE, "use": "lifting"}, "refer", says="the governing standard and a competent person decide; "
               "this sheet gives no way")


def from_above(
    length: float = 4.0, throat: float = THROAT, head: float = HEAD, x: float = 1.6875, y: float = 0.175,
    hole: float = 0.0, is_open: bool = False, past: float = 0.0, teeth: float = 0.625, neck: float = 0.25,
) -> FromAbove:
    """A T-slot from above with the disc's axis at x from its middle and y from its centre line, sizes in inches; its
    head runs so far `past` the throat."""
    half, left = nm(length / 2), -FAR if is_open else nm(-length / 2)
    opening = frozenset({oblong(left, half, nm(throat / 2), nm(throat / 2)), RoundedBox(0, 0, 0, 0, nm(hole / 2))})
    end, corner = half + nm(past), nm(min(head, teeth) / 2)
    under = oblong(left if is_open else -end, end, nm(head / 2), corner)
    spot = nearest_edge(nm(x), nm(y), opening)
    assert spot is not None
    gap = hypot(spot[0] - nm(x), spot[1] - nm(y)) / nm(1.0) - neck / 2
    start = nm(-length / 2)
    return FromAbove(
        opening, frozenset({under}), nm(teeth / 2), Part("neck", nm(0.1875), nm(0.75), nm(neck / 2), nm(neck / 2)),
        nm(x), nm(y), start, 15, mm(length / 2 + x), mm(y), TightSpot(15, "neck", mm(x), 0.0, mm(gap), "plan"),
        (round(spot[0]), round(spot[1])),
        (DimensionLine("length", True, start, half), DimensionLine("head", True, start if is_open else -end, end),
         *([DimensionLine("entry hole", True, nm(-hole / 2), nm(hole / 2))] if hole else [])),
        nm(hole / 2), is_open)
