"""Sayings that are put the usual way before a line is read: they read as the usual way does."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from crib.features import KINDS
from crib.intake.questions import read_question
from crib.intake.questions.plain import put_plainly

FIGURES = st.sampled_from(["1/2", ".500", "1-1/4", "12 mm", "3/8\"", "8"])
LIMITS = st.sampled_from(["+.002 -0", "+.002-.001", "±.005", "+-.003", "+/-.01", "-.001 +.002", "+ .002 - .000"])


@given(FIGURES, LIMITS, st.sampled_from(["slot", "step"]))
def test_a_tolerance_may_stand_behind_the_name(size: str, limits: str, kind: str) -> None:
    """`1/2 wide +.002 -0` is `1/2 +.002 -0 wide`: what is the .002 -0, was asked."""
    behind = read_question(f"{kind} {size} wide {limits}, 1/4 deep, brass")
    before = read_question(f"{kind} {size} {limits} wide, 1/4 deep, brass")
    assert not behind.asks and dict(behind.texts) == dict(before.texts)


def test_a_class_may_stand_there_too_and_a_tool_steel_is_none() -> None:
    assert read_question("hole 12 mm diameter H7, 20 mm deep").texts["diameter"] == "12mm H7"
    found = read_question("slot 1/2 wide 1/4 deep H13")
    assert found.texts["depth"] == "1/4"


@given(FIGURES, st.sampled_from(["chamfer 1/16", "bevel 1/2 wide at 30 degrees", "slot 3/8 wide 1/4 deep"]))
def test_along_is_a_length(size: str, what: str) -> None:
    found = read_question(f"{what} along {size} of brass")
    assert not found.asks and found.texts["length"].replace(" ", "") == size.replace(" ", "")


@given(st.integers(2, 12), st.sampled_from(["3", "2-1/2", "60 mm"]), st.sampled_from(["13/32", "9 mm", ".316"]))
def test_holes_on_a_circle_are_the_holes(number: int, circle: str, hole: str) -> None:
    """The circle was read as the hole, and the hole as the circle, without a word."""
    for line in (f"bolt circle {number} holes on {circle}, {hole} dia, 1/2 deep",
                 f"bolt circle {number} holes {hole} dia on a {circle} circle, 1/2 deep"):
        found = read_question(line)
        texts = {key: text.replace(" ", "") for key, text in found.texts.items()}
        assert not found.asks
        assert (texts["number"], texts["diameter"], texts["hole"]) == (
            str(number), circle.replace(" ", ""), hole.replace(" ", ""))


@given(st.sampled_from(["M5", "M6", "M8", "M10"]), st.sampled_from(["close", "loose"]))
def test_a_metric_screw_is_no_use_and_no_number(screw: str, fit: str) -> None:
    """`for an M6 screw` was a use, M, and a #6 screw."""
    found = read_question(f"hole for an {screw} screw, {fit}, 12 deep")
    assert (found.texts["screw"], found.texts["fit"]) == (screw, fit) and "use" not in found.texts


def test_a_steel_is_no_key() -> None:
    """There is no key 1018; a key that there is stays one, be there a steel of its number or not."""
    steel = read_question("woodruff in a 1 inch shaft, 1018")
    assert steel.texts["material"] == "1018" and "key" not in steel.texts
    for number in ("606", "1012", "303", "9999"):
        assert read_question(f"woodruff {number} in a 1 inch shaft").texts["key"] == number
    assert read_question("woodruff key 5x7.5 DIN 6888, 20 mm shaft").texts["key"].lower() == "din 5x7.5"


def test_a_keyway_in_a_bore_is_none_in_a_shaft() -> None:
    assert read_question("keyway in a 1 in bore, 1/4 wide, hub 1-1/4, depth .130").kind == "bore-keyseat"
    assert read_question("keyway in bore 25, 8 wide, 3.3 deep, hub 30").kind == "bore-keyseat"
    assert read_question("keyway 1/4 wide in a 1 in shaft, 1-1/2 long").kind == "keyseat"


def test_what_is_plain_stays_as_it_is() -> None:
    for kind in KINDS.values():
        line = ", ".join([kind.name, *(f"{key.replace('_', ' ')} {text}" for key, text in kind.example.items())])
        assert put_plainly(line) == line


STANDARDS = st.sampled_from(["DIN 650", "ISO 299", "to DIN 6885", "ASME B5.1", "(ANSI B17.2)", "din 912",
                             "per ISO 286-1", "JIS B1194", "BS 3027"])


@given(st.sampled_from(sorted(KINDS)), STANDARDS, st.integers(0, 9))
def test_a_standard_that_is_named_is_no_size(name: str, standard: str, place: int) -> None:
    """`t-slot for M8 DIN 650`: what is the 650, was asked, and of a key by DIN 6885 whether it is 6885 mm deep. It
    stands among what wasn't used."""
    said = [f"{key.replace('_', ' ')} {text}" for key, text in KINDS[name].example.items()]
    usual, at = read_question(", ".join([name, *said])), min(place, len(said))
    also = read_question(", ".join([name, *said[:at], *([f"{said[at]} {standard}"] if at < len(said) else [standard]),
                                    *said[at + 1:]]))
    assert dict(also.texts) == dict(usual.texts) and [str(one) for one in also.asks] == [str(one) for one in usual.asks]
    assert any(standard.strip("()").endswith(one) for one in also.unused)


@given(st.sampled_from(["1018", "4140", "6061", "1045"]),
       st.sampled_from(["edge", "bar", "block", "plate", "shaft", "part"]))
def test_a_grade_is_a_metal_wherever_it_stands(grade: str, what: str) -> None:
    """`on a 1018 edge`: what is the 1018, was asked. A length of 1018 is one by its name."""
    found = read_question(f"chamfer 45 x 1/16 on a {grade} {what} 4 long")
    assert not found.asks and found.texts["size"] == "1/16" and found.texts["length"] == "4"
    assert found.texts["material"].startswith(grade)
    assert read_question(f"chamfer 1 mm, {grade} mm long").texts["length"] == f"{grade}mm"
