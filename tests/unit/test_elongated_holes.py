"""Elongated holes: a slot between two round ends, through the work or to a depth."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=(6.35, 9.525, 12.7))
MILL = Cutter(1, "end-mill", "mill", diameter_mm=0.25 * IN, flutes=2, shank_mm=9.525, length_of_cut_mm=0.75 * IN,
              centre_cutting=True, corner_radius_mm=0.0, material="hss", condition="sharp")


def asked(*cutters: Cutter, **texts: str) -> Advice:
    texts = {"width": "9/32+.010-0", "length": "3/4+.01-.01", "depth": "3/8", "material": "1018"} | texts
    return advise(read_request("elongated-hole", texts, SHOP, "in"), cutters, SHOP).advice


def test_through_it_goes_a_little_past_the_underside_and_blind_to_the_floor() -> None:
    """Common practice: past a through hole's underside by about a millimetre, .375 + .039 in."""
    through, blind = (asked(MILL, through=said).plans[0] for said in ("yes", "no"))
    assert min(one.z_mm for one in through.passes) == pytest.approx(-(0.375 * IN + 1), abs=0.013)
    assert min(one.z_mm for one in blind.passes) == pytest.approx(-0.375 * IN, abs=0.013)
    assert through.proof.left_mm == through.proof.gouge_mm == blind.proof.left_mm == blind.proof.gouge_mm == 0


def test_it_comes_out_as_long_as_asked() -> None:
    """Geometry: the axis runs the length less the cutter's diameter, .750 - .250."""
    plan = asked(MILL, through="yes").plans[0]
    reach = [x for one in plan.passes for x, _ in one.path_mm]
    assert (max(reach) - min(reach)) / IN == pytest.approx(0.500, abs=0.0011)


def test_without_centre_teeth_it_comes_down_on_a_ramp_or_not_at_all() -> None:
    """Common practice: a cutter that can't plunge ramps where it has more than its diameter to run, and not in less."""
    blunt = MILL.but(centre_cutting=False, flutes=4)
    assert {one.entry for one in asked(blunt).plans[0].passes} & {"ramp"}
    assert asked(blunt, length=".45").answer == "cannot"


def test_by_its_screw() -> None:
    """ASME B18.2.8: a normal hole for 1/4 is 9/32."""
    request = read_request("elongated-hole", {"screw": "1/4", "length": "3/4", "depth": "3/8"}, SHOP, "in")
    assert request.sizes["width"].lo == pytest.approx(9 / 32 * IN) and "B18.2.8" in (request.source or "")
    assert request.ends == "closed"


@pytest.mark.parametrize(("texts", "says"), [
    ({"length": "1/4"}, "is a round one"), ({"ends": "open"}, "can't be asked")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError, match=says):
        draw(read_request("elongated-hole", {"width": "9/32", "length": "3/4", "depth": "3/8"} | texts, SHOP, "in"))


def test_what_lies_under_it_is_told_where_it_comes_through() -> None:
    """A blind one cuts no parallel and no table: what is said of a through hole would only puzzle."""
    told = [any("under a hole that goes through" in one for one in asked(MILL, through=said).cautions)
            for said in ("yes", "no")]
    assert told == [True, False]
