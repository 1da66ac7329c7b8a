"""`crib make` on what leans, as whole lines: statuses, JSON, and what people read."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Crib

ROOT = Path(__file__).parents[2]
IN = 25.4


@pytest.fixture
def bench(begun: Callable[..., Crib]) -> Crib:
    """The sample bench."""
    return begun(("take-in", "--file", str(ROOT / "sample_crib" / "cutters.json")),
                 ("shop", "--spindle-rpm", "80,135,210,325,660,1115,1750,2720", "--collets", "3/8,1/2,3/4"))


def test_a_dovetail_as_programs_read_it(bench: Crib) -> None:
    found = bench("make", "dovetail", "--angle", "60", "--width", "1.200", "--depth", ".280", "--pin", "5/16", "--json")
    assert found.status == 0 and found.json["answer"] == "as drawn"
    feature = found.json["feature"]
    assert feature["kind"] == "dovetail" and feature["angle_deg"] == 60 and feature["width_mm"] == 30.48
    assert feature["reckoned"]["opening_mm"] == pytest.approx((1.2 - 0.56 / 3**0.5) * IN)
    plan = found.json["plans"][0]
    flanks = [one for one in plan["passes"] if one["room"] == "flanks"]
    assert flanks[-1]["x_mm"] == pytest.approx(-(1.2 - 0.75) / 2 * IN, abs=1e-5) and flanks[-1]["view"] == "cross"
    figures = {one["what"]: one.get("mm", one.get("value")) for one in plan["figures"]}
    assert figures["size between pins of 5/16"] == pytest.approx((1.2 - 0.3125 * 2.7320508) * IN, abs=1e-5)
    faces = {face["name"]: face for face in plan["faces"]}
    assert faces["back flank"]["angle_deg"] == faces["front flank"]["angle_deg"] == 60
    assert faces["back flank"]["joints"] == 0 and len(faces["back flank"]["cutter_ids"]) == 1
    assert faces["floor"]["angle_deg"] is None
    assert plan["proof"]["left_mm"] == plan["proof"]["gouge_mm"] == 0


def test_the_picture_leans_and_the_pins_are_told(bench: Crib) -> None:
    found = bench("make", "dovetail", "--angle", "60", "--width", "1.2", "--depth", ".28", "--material", "grey iron",
                  "--all")
    assert found.status == 0 and found.out.startswith("Answer: right cutter for the job")
    rows = [row for row in found.out.splitlines() if row.count("╲") == 1 and "╱" in row]
    strokes = [row.index("╲") for row in rows]
    assert len(strokes) >= 4 and strokes == sorted(strokes), "the back flank runs outwards as it goes down"
    for words in ("mouth .877", "floor 1.200", "angle 60°", "size between pins of", "measure from the pin"):
        assert words in found.out


@pytest.mark.parametrize(("words", "status"), [
    (("dovetail", "--angle", "60", "--opening", ".9", "--depth", ".28"), 0),
    (("dovetail", "--angle", "60", "--between-pins", ".35", "--pin", "5/16", "--depth", ".28"), 0),
    (("dovetail", "--angle", "45", "--width", "1.2", "--depth", ".28"), 1),
    (("dovetail-slide", "--angle", "60", "--width", ".9", "--height", ".25", "--shoulder", "3/8"), 0),
    (("dovetail-slide", "--angle", "60", "--over-pins", "1.7", "--pin", "1/4", "--height", ".25"), 0),
    (("chamfer", "--size", "1/16"), 0), (("chamfer", "--size", "1/16", "--angle", "30"), 1),
    (("v-groove", "--angle", "90", "--width", ".3"), 0), (("v-groove", "--angle", "90°", "--width", ".3±.002"), 0),
    (("dovetail", "--angle", "90", "--width", "1", "--depth", ".3"), 2),
    (("dovetail", "--angle", "0", "--width", "1", "--depth", ".3"), 2),
    (("dovetail", "--angle", "60", "--width", "1", "--depth", "1"), 2),
    (("dovetail", "--angle", "60", "--width", "1", "--opening", ".9", "--depth", ".3"), 2),
    (("dovetail", "--angle", "60", "--width", "1", "--depth", ".3", "--pin", "3/4"), 2),
    (("dovetail", "--angle", "60", "--depth", ".3"), 2), (("dovetail", "--width", "1", "--depth", ".3"), 2),
    (("dovetail-slide", "--angle", "60", "--width", "1", "--top", "1.1", "--height", ".3"), 2),
    (("chamfer", "--size", "1/16", "--angle", "90"), 2), (("v-groove", "--angle", "190", "--width", ".3"), 2),
    (("dovetail", "--angle", "60", "--width", "1", "--depth", ".3", "--ends", "closed"), 2),
    (("dovetail", "--angle", "60", "--width", "1", "--depth", ".3", "--corner-relief", "some"), 2),
])
def test_statuses(bench: Crib, words: tuple[str, ...], status: int) -> None:
    """Every one with a sentence for people and one document for programs, and never a trace."""
    plain, json = bench("make", *words), bench("make", *words, "--json")
    assert plain.status == json.status == status, plain.out + plain.err
    assert "Traceback" not in plain.out + plain.err
    if status == 2:
        assert plain.err.startswith("crib: ") and set(json.json["error"]) >= {"what", "read", "help"}
    else:
        assert json.json["feature"]["angle_deg"] > 0


def test_an_old_part_to_fit_asks_for_a_nearer_angle(bench: Crib) -> None:
    """A cutter .2 of a degree off does for a new pair, and not where an old part is to fit."""
    bench("take-in", "--kind", "dovetail-cutter", "--diameter", "3/4", "--angle", "55.2", "--face", "5/16", "--neck",
          "1/4", "--reach", "9/16", "--shank", "3/8", "--material", "hss", "--condition", "sharp")
    asked = ("make", "dovetail", "--angle", "55", "--width", "1.2", "--depth", ".28")
    assert bench(*asked).status == 0
    old = bench(*asked, "--mating", "the old slide")
    assert old.status == 1 and "55.2 degrees, 55 is wanted" in " ".join(old.out.split())


def test_what_would_do_is_offered_by_its_angle(bench: Crib) -> None:
    found = bench("make", "chamfer", "--size", ".1", "--angle", "30")
    assert found.status == 1 and "60 degrees" in found.out and "0.577 to 1 is asked" in " ".join(found.out.split())
