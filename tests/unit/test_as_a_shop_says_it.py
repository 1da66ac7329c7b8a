"""Questions as a shop says them, which were read as another or with the wrong limits. Common practice, no source, where
none is named."""

from __future__ import annotations

import pytest

from crib.features import KINDS
from crib.handbook.materials import find_material
from crib.intake.place_in_words import read_lying
from crib.intake.questions import read_question
from crib.planning.ask import read_request
from crib.shop import Shop

IN_WORK = [("woodruff key 606 in 1 inch shaft", {"key": "606", "shaft": "1in"}),
           ("woodruff key 606 in 1-1/4 shaft", {"key": "606", "shaft": "1-1/4"}),
           ("keyway 3/16 in 3/4 shaft 1-1/2 long", {"width": "3/16", "shaft": "3/4", "length": "1-1/2"}),
           ("keyseat 8 wide in 25 mm shaft 40 long", {"width": "8", "shaft": "25mm", "length": "40"})]


@pytest.mark.parametrize(("line", "texts"), IN_WORK)
def test_in_a_shaft_is_no_inch(line: str, texts: dict[str, str]) -> None:
    """`606 in 1 inch shaft`: there is no key 606in in the tables, was the answer."""
    read = read_question(line)
    assert not read.asks and dict(read.texts) == texts


STANDARDS = [(name, standard.key, one) for name, kind in KINDS.items() for standard in kind.standards
             for one in [kind.example.get(standard.key)] if one]


@pytest.mark.parametrize(("name", "key", "value"), [
    *STANDARDS, ("keyseat", "shaft", "3/4"), ("keyseat", "shaft", "25 mm")])
def test_a_size_that_is_the_standards_keeps_its_limits(name: str, key: str, value: str) -> None:
    """`keyway 3/16 wide in 3/4 shaft`: 3/16 is the standard's, and the seat was told to be .1825 to .1925, by the
    shop's tolerance and not the standard's. Another size, or one with limits of its own, is as it is typed."""
    texts = {key: value} if name == "keyseat" else {**KINDS[name].example, key: value}
    alone = read_request(name, texts, Shop(), "in")
    for size in [one for one in KINDS[name].sizes if one.key in alone.sizes and one.key not in texts]:
        of = alone.sizes[size.key]
        again = read_request(name, {**texts, size.key: f"{of.nominal:.9g} mm"}, Shop(), "in").sizes[size.key]
        assert (again.lo, again.hi) == (of.lo, of.hi), size.key
        other = read_request(name, {**texts, size.key: f"{of.nominal:.6g} mm +.01 -.01"}, Shop(), "in").sizes[size.key]
        assert (round(other.hi - other.lo, 6)) == 0.02, size.key


@pytest.mark.parametrize("name", ["S355", "S355JR", "St 37", "ST52", "structural steel"])
def test_structural_steel_is_mild_steel(name: str) -> None:
    """From memory of EN 10025 and DIN 17100: carbon under a quarter of a percent."""
    assert find_material(name).name == "mild steel"


@pytest.mark.parametrize(("line", "key", "text"), [
    ("3/8-16 tapped hole through 1/2 4140", "material", "4140"), ("chamfer 1/16 45, 3 long brass", "angle", "45"),
    ("dovetail top 1.2, 1/4 deep, 60 degrees", "opening", "1.2"),
    ("slot 1/2 wide 1/4 deep, 3/8 from each edge", "edge", "3/8")])
def test_a_grade_an_angle_and_a_top_are_read_without_more(line: str, key: str, text: str) -> None:
    read = read_question(line)
    assert not read.asks and read.texts[key] == text


@pytest.mark.parametrize("line", ["3/4 hole through from the top at 3, 1",
                                  "3/4 hole drilled from the top, 3 from the left"])
def test_the_face_that_a_hole_is_made_from_is_no_distance(line: str) -> None:
    """`'from the top' doesn't say how far`, of a hole through from the top."""
    found = read_lying(line, "in")
    assert found.said["face"] == "top" and "from the top" not in found.rest
