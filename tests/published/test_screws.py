"""Clearance holes, counterbores, countersinks and fits against printed rows, and the same rows asked by name."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.handbook.fits import fit_limits
from crib.handbook.screws import clearance_hole, flat_head, screw_name, socket_head, thickness
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=tuple(n * IN / 16 for n in range(2, 17)), chuck_mm=None)

# ASME B18.2.8-1999 (R2017) Table 1a as printed in Machinery's Handbook, 31st edition: the loose holes, least and most.
LOOSE = [("#0", .094, .104), ("#1", .104, .114), ("#2", .116, .126), ("#3", .128, .140), ("#4", .144, .156),
         ("#5", .172, .184), ("#6", .185, .197), ("#8", .213, .225), ("1/4", .297, .311), ("5/16", .359, .373),
         ("3/8", .422, .438), ("7/16", .484, .500), ("1/2", .609, .625), ("5/8", .734, .754), ("3/4", .906, .926),
         ("7/8", 1.031, 1.051), ("1in", 1.156, 1.181), ("1-1/8", 1.312, 1.337), ("1-1/4", 1.438, 1.463),
         ("1-3/8", 1.609, 1.634), ("1-1/2", 1.734, 1.759)]

# ASME B18.3 hexagon socket flat head cap screws, a public table page: theoretical sharp diameter, 82 degrees.
SOCKET_FLAT = [("#0", .138), ("#1", .168), ("#2", .197), ("#3", .226), ("#4", .255), ("#5", .281), ("#6", .307),
               ("#8", .359), ("#10", .411), ("#12", .450), ("1/4", .531), ("5/16", .656), ("3/8", .781), ("7/16", .844),
               ("1/2", .938), ("5/8", 1.188), ("3/4", 1.438)]

# ASME B18.6.3 flat countersunk heads, a public table page: the greatest diameter there, of the edge as it is made.
MACHINE_FLAT = [("#0", .112), ("#4", .212), ("#8", .312), ("#10", .362), ("1/4", .477), ("5/16", .597), ("3/8", .717),
                ("1/2", .815), ("3/4", 1.285)]


@pytest.mark.parametrize(("screw", "least", "most"), LOOSE)
def test_loose_holes(screw: str, least: float, most: float) -> None:
    """To the printed digit. They were held to .001 and .005: the drill and H14 stood for the printed limits."""
    hole = clearance_hole(screw, "loose")
    assert (round(hole.least / IN, 6), round(hole.most / IN, 6)) == (least, most)
    assert "as printed" in hole.source
    assert "B18.2.8" in hole.source


@pytest.mark.parametrize(("screw", "close", "normal"), [
    ("M3", 3.2, 3.4), ("M6", 6.4, 6.6), ("M8", 8.4, 9.0), ("M10", 10.5, 11.0), ("M12", 13.0, 14.0),
    ("M24", 25.0, 26.0)])
def test_metric_holes(screw: str, close: float, normal: float) -> None:
    """ISO 273:1979, as an open parts library carries it."""
    assert (clearance_hole(screw, "close").least, clearance_hole(screw).least) == (close, normal)


@pytest.mark.parametrize(("screw", "across"), SOCKET_FLAT)
def test_flat_socket_heads(screw: str, across: float) -> None:
    head = flat_head(screw, socket=True)
    assert (round(head.diameter / IN, 3), head.angle) == (across, 82.0)


@pytest.mark.parametrize(("screw", "made"), MACHINE_FLAT)
def test_flat_machine_heads_are_sunk_to_their_sharp_edge(screw: str, made: float) -> None:
    """The printed edge is what the sharp one (from memory) loses: about a fifteenth of it."""
    assert 1.04 <= flat_head(screw).diameter / IN / made <= 1.08


@pytest.mark.parametrize(("size", "name", "most"), [
    (12.0, "H7", 12.018), (25.4, "H7", 25.421), (6.35, "H8", 6.372), (3.0, "h11", 3.060), (80.0, "H7", 80.030)])
def test_fits(size: float, name: str, most: float) -> None:
    """ISO 286-2, public tables; H8 from memory."""
    assert fit_limits(size, name)[:2] == pytest.approx((size, most))


@pytest.mark.parametrize("said", ["1", "5/16x", "", "M", "#99", "1/0", "¼"])
def test_what_is_no_screw_is_said_so(said: str) -> None:
    with pytest.raises(CribError):
        clearance_hole(said)


def test_screws_as_they_are_said() -> None:
    said = ("1/4-20", "#8-32", "8", "M6x1", "1 1/8")
    assert [screw_name(one) for one in said] == ["1/4", "#8", "#8", "M6", "1-1/8"]
    assert [round(thickness(name) / IN, 3) for name in ("#0", "#10", "1/4")] == [0.060, 0.190, 0.250]


def own(kind: str, **sizes: object) -> Cutter:
    return Cutter(1, kind, kind, material="hss", condition="sharp").but(**sizes)


@pytest.mark.parametrize("screw", [row[0] for row in LOOSE if row[0] != "1in"])
def test_each_clearance_hole_is_made_by_its_own_drill(screw: str) -> None:
    """As drawn: the drill of the table, whatever it comes out over its size within H13."""
    hole = clearance_hole(screw)
    drill = own("drill", diameter_mm=hole.least, angle_deg=118.0, length_of_cut_mm=75.0, shank_mm=hole.least)
    texts = {"screw": screw, "depth": ".3", "through": "yes", "material": "mild steel"}
    request = read_request("hole", texts, SHOP, "in")
    assert "B18.2.8" in (request.source or "") and request.sizes["diameter"].lo == hole.least
    if hole.least > 0.1 * IN:
        assert advise(request, [drill], SHOP).advice.answer == "as drawn"


@pytest.mark.parametrize("screw", [row[0] for row in SOCKET_FLAT])
def test_each_flat_head_is_sunk_by_its_own_countersink(screw: str) -> None:
    sink = own("countersink", diameter_mm=flat_head(screw, True).diameter + 3, angle_deg=82.0, tip_mm=0.0, flutes=3,
               shank_mm=6.35)
    texts = {"screw": screw, "head": "socket", "material": "6061"} | ({"hole": "15/64"} if screw == "#12" else {})
    request = read_request("countersink", texts, SHOP, "in")
    advice = advise(request, [sink], SHOP).advice
    assert advice.answer == "as drawn" and "B18.3" in (request.source or "")
    assert advice.plans[0].proof.left_mm == advice.plans[0].proof.gouge_mm == 0


@pytest.mark.parametrize("screw", ["#4", "#8", "#10", "1/4", "3/8", "1/2", "M5", "M8", "M12"])
def test_each_socket_head_is_sunk_by_its_own_counterbore(screw: str) -> None:
    """The counterbores from memory of ASME B18.3; as deep as the head is high."""
    seat, _, high = socket_head(screw)
    hole = clearance_hole(screw)
    bore = own("counterbore", diameter_mm=seat.least, pilot_mm=hole.least - 0.02, shank_mm=9.525)
    request = read_request("counterbore", {"screw": screw, "material": "mild steel"}, SHOP, "in")
    assert advise(request, [bore], SHOP).advice.answer == "as drawn"
    assert request.sizes["depth"].lo == high == thickness(screw_name(screw)) and "from memory" in (request.source or "")


# ASME B18.3 head diameters [in] and ISO 4762 knurled ones [mm], greatest; the counterbores from memory of their
# appendices. Then one that shops have for it: DIN 974-1, row 1 (from memory), inch ones common practice, no source.
HEADS = [("#0", .096, .125), ("#1", .118, .15625), ("#2", .140, .1875), ("#3", .161, .21875), ("#4", .183, .21875),
         ("#5", .205, .25), ("#6", .226, .28125), ("#8", .270, .3125), ("#10", .312, .375), ("1/4", .375, .4375),
         ("5/16", .469, .53125), ("3/8", .5625, .625), ("7/16", .656, .71875), ("1/2", .750, .8125), ("5/8", .938, 1.0),
         ("3/4", 1.125, 1.1875), ("7/8", 1.312, 1.375), ("1in", 1.5, 1.625),
         ("M1.6", 3.14, 3.5), ("M2", 3.98, 4.4), ("M2.5", 4.68, 5.4), ("M3", 5.68, 6.5), ("M4", 7.22, 8.25),
         ("M5", 8.72, 9.75), ("M6", 10.22, 11.25), ("M8", 13.27, 14.25), ("M10", 16.27, 17.25), ("M12", 18.27, 19.25),
         ("M14", 21.33, 22.25), ("M16", 24.33, 25.5), ("M20", 30.33, 31.5), ("M24", 36.39, 37.5)]


@pytest.mark.parametrize(("screw", "head", "bore"), HEADS)
def test_a_counterbore_may_be_as_small_as_its_head_lets_it(screw: str, head: float, bore: float) -> None:
    """A 13/32 for a 1/4 screw and an 11 for M6 were refused for being under the table's size, though the heads go in.
    The table's size is what is aimed at; the least is over the greatest head, and never over the table's size."""
    unit = 1.0 if screw.startswith("M") else IN
    size = read_request("counterbore", {"screw": screw}, SHOP, "in"
                        ).sizes["diameter"]
    assert size.mid == pytest.approx(bore * unit)
    assert head * unit < size.lo < bore * unit < size.hi
    assert size.lo - head * unit <= IN / 64 + 0.02


@pytest.mark.parametrize(("screw", "bore_mm", "pilot_mm", "answer"), [
    ("1/4", 13 / 32 * IN, 9 / 32 * IN, "as drawn"), ("1/4", 3 / 8 * IN, 17 / 64 * IN, "cannot"),
    ("M6", 11.0, 6.6, "as drawn"), ("M6", 10.25, 6.6, "cannot"), ("M5", 10.0, 5.5, "as drawn")])
def test_counterbores_that_shops_have(screw: str, bore_mm: float, pilot_mm: float, answer: str) -> None:
    """Common practice, and DIN 974-1 row 1 for 10 and 11 (from memory); one as wide as the head is no good."""
    bore = own("counterbore", diameter_mm=bore_mm, pilot_mm=pilot_mm - 0.02, shank_mm=9.525)
    request = read_request("counterbore", {"screw": screw, "material": "1018", "depth": "4mm"}, SHOP, "in")
    assert advise(request, [bore], SHOP).advice.answer == answer


@pytest.mark.parametrize(("screw", "depth", "proud"), [
    ("1/4", ".1", ".150"), ("1/4", "1/4", ""), ("M6", "4mm", ".079")])
def test_a_head_that_stands_proud_is_told(screw: str, depth: str, proud: str) -> None:
    """ISO 4762, ASME B18.3: a socket head is as high as its screw is thick; what isn't sunk of it stands out."""
    bore = own("counterbore", diameter_mm=socket_head(screw).bore.least, pilot_mm=6.5, shank_mm=9.525)
    request = read_request("counterbore", {"screw": screw, "material": "mild steel", "depth": depth}, SHOP, "in")
    [plan] = advise(request, [bore], SHOP).advice.plans
    told = [spelt(one.says) for one in plan.warnings if one.id == "CB2"]
    assert [f"stands {proud} proud" in one for one in told] == ([True] if proud else [])


def test_a_fit_and_limits_of_ones_own_are_one_too_many() -> None:
    with pytest.raises(CribError, match="beside the fit"):
        read_request("hole", {"diameter": "1/2+.001-0", "fit": "H7", "depth": "1"}, SHOP, "in")
    with pytest.raises(CribError, match="none was given"):
        read_request("hole", {"fit": "H7", "depth": "1"}, SHOP, "in")
    asked = read_request("hole", {"diameter": "1/2", "fit": "H7", "depth": "1"}, SHOP, "in")
    assert "ISO 286-2 H7" in (asked.source or "")
