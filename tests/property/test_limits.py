"""A size's limits read the same however a drawing or a shop writes them, and what could mean two things is asked."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.app.kinds import NAMES
from crib.findings.errors import CribError
from crib.handbook.sizes import read_size
from crib.planning.ask import read_request
from crib.render.words import words
from crib.shop import Shop
from crib.units import Size, nm

NONE, LOOSE = (-0.127, 0.127), (-0.381, 0.381)


def size_of(text: str, units: str = "in") -> Size:
    return read_size(text, units, "width", NONE, LOOSE)


@settings(max_examples=300)
@given(st.integers(500, 9000), st.integers(1, 40), st.sampled_from(["in", "mm"]), st.booleans())
def test_limits_however_they_are_written(low: int, wide: int, units: str, comma: bool) -> None:
    """Both limits, in either order, with a stroke, a dash or words between; and a tolerance either way."""
    scale = 25.4 if units == "in" else 1.0
    high = low + wide
    lo, hi, gap = f"{low / 1000:.3f}", f"{high / 1000:.3f}", f"{wide / 1000:.3f}"
    written = [f"{lo}/{hi}", f"{hi}/{lo}", f"{lo} / {hi}", f"{lo}-{hi}", f"{lo} - {hi}", f"{hi}-{lo}",
               f"between {lo} and {hi}", f"between {hi} and {lo}", f"{lo} to {hi}", f"from {lo} to {hi}",
               f"{lo}{units} to {hi}", f"{lo}-{hi} {units}", f"{lo} +{gap}/-0", f"{lo} +{gap} -.000", f"{lo} +{gap} 0",
               f"{lo} 0/+{gap}", f"{hi} 0 -{gap}", f"{hi} +0/-{gap}", f"{lo} plus {gap} minus 0", f"{hi} +0 −{gap}",
               f"{hi} -{gap} -0"]
    for text in written:
        said = text.replace(".", ",") if comma else text
        read = size_of(said, units)
        assert (nm(read.lo), nm(read.hi), read.given) == (nm(low / 1000 * scale), nm(high / 1000 * scale), True), said
        assert nm(read.mid) == nm((read.lo + read.hi) / 2)
        assert size_of(read.text, units) == read, "as it is echoed it reads the same"


@settings(max_examples=100)
@given(st.integers(1, 12), st.sampled_from([2, 4, 8, 16]), st.integers(1, 15))
def test_a_mixed_number_stays_one(whole: int, bottom: int, top: int) -> None:
    """`1-3/4` is never a size less something, nor limits; with spaces about the dash it is asked."""
    if not top % 2 or top >= bottom:
        top = 1
    text, value = f"{whole}-{top}/{bottom}", (whole + top / bottom) * 25.4
    assert nm(size_of(text).nominal) == nm(value) and not size_of(text).given
    assert nm(size_of(f"{text} +.002 -0").lo) == nm(value)
    both = size_of(f"{text}-{whole}-{2 * top + 1}/{2 * bottom}")
    assert (nm(both.lo), both.hi > both.lo) == (nm(value), True)
    for unclear in (f"{whole} - {top}/{bottom}", f"{text} +0"):
        with pytest.raises(CribError):
            size_of(unclear)


# ISO 286-2: H7 of 3 to 6, 6 to 10, 10 to 18, 18 to 30 and 30 to 50 mm as every public table has it; h6 over 10 to 18 mm
# and over 18 to 30 mm from memory. Micron.
CLASSES = [("5H7", 5, 0, 12), ("8 H7", 8, 0, 15), ("12H7", 12, 0, 18), ("25 H7", 25, 0, 21), ("40H7", 40, 0, 25),
           ("12h6", 12, -11, 0), ("12 h6", 12, -11, 0), ("20 h6", 20, -13, 0), ("10H7", 10, 0, 15),
           ("18H7", 18, 0, 18), ("1/2 H7", 12.7, 0, 18), (".500in H7", 12.7, 0, 18), ('1/2" h6', 12.7, -11, 0),
           ("12,5H7", 12.5, 0, 18), ("1-1/2 H7", 38.1, 0, 25)]


@pytest.mark.parametrize(("text", "size", "lower", "upper"), CLASSES)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_class_behind_a_size(text: str, size: float, lower: int, upper: int, units: str) -> None:
    """The class of the standard in mm, inches by the range that they fall in; a capital is a hole's."""
    read = size_of(text, units)
    assert nm(read.lo) == nm(size + lower / 1000) and nm(read.hi) == nm(size + upper / 1000)
    assert read.given and read.text == text


UNCLEAR = {
    ".5-.25": "far apart", "1 - 3/4": "far apart", "1-3": "far apart", "3/.5": "far apart", "16 -0.02": "far apart",
    "1-3/4+0": "one limit", "5/8 +.002": "one limit", "5/8±-.002": "can't be read", "12mm to .5in": "in inches and",
    "5/8 to 12mm": "in inches and", "12mm-.5in": "in inches and", "12V7": "not in the tables",
    "12 x9": "not in the tables",
    "130mm H7": "120 mm", "200H7": "120 mm", "2H7": "mm or in inches", ".001 +.001 -.002": "to nothing",
    ".500/.502/.504": "not a length", "between .5": "not a length", "about": "not a length", "H7": "not a length",
    ".5 to 0": "above zero", "can": "not a length",
    "1/2.": "not a length", "5-9": "far apart", "0.004mm h7": "to nothing",
}


@pytest.mark.parametrize(("text", "says"), UNCLEAR.items())
def test_what_could_mean_two_things_is_asked(text: str, says: str) -> None:
    """A sentence that says what is wrong with it, and how it is written."""
    with pytest.raises(CribError) as caught:
        size_of(text)
    assert says in str(caught.value.finding.says) and caught.value.finding.fix


@pytest.mark.parametrize("text", ["about .62", "approx .62", "approximately .62", "around .62", "roughly .62", "~.62",
                                  "ca. .62", "About .62in"])
def test_about_is_a_doubt(text: str) -> None:
    """The shop's loose tolerance is taken, it isn't given, and it stays a doubt."""
    read = size_of(text)
    assert (nm(read.lo), nm(read.hi)) == (nm(0.62 * 25.4 - 0.381), nm(0.62 * 25.4 + 0.381))
    assert read.doubtful and not read.given


@pytest.mark.parametrize("name", NAMES)
def test_every_kind_takes_them(name: str) -> None:
    """Each size of each kind's example, asked between its own limits in words, is asked as before."""
    from crib.features import KINDS

    kind, shop = KINDS[name], Shop()
    before = read_request(name, kind.example, shop, "in")
    texts = dict(kind.example)
    for spec in kind.sizes:
        if spec.key in texts and spec.key in before.sizes and spec.tolerance != "exact":
            size = before.sizes[spec.key]
            texts[spec.key] = f"between {size.hi:.9f}mm and {size.lo:.9f}mm"
    after = read_request(name, texts, shop, "in")
    for key, size in before.sizes.items():
        assert after.sizes[key].lo == pytest.approx(size.lo, abs=1e-6), key
        assert after.sizes[key].hi == pytest.approx(size.hi, abs=1e-6), key


@pytest.mark.parametrize("text", ["2+-.OO5", "2.O05", "2±.O05", "2+-x", "2 ± F", "2+/-#7", "2±."])
def test_what_cant_be_read_is_told_whole(text: str) -> None:
    """A letter O for a nought: `.OO5` was cut off as a class of fits, and a letter behind the sign was the drill's, so
    that 2 +- .397 was answered. The tables of classes begin at grade 5: none of theirs has a nought before it."""
    with pytest.raises(CribError) as told:
        size_of(text)
    assert f"{text!r} is not a length" in (says := words(told.value.finding.says, "in")) or (
        says == f"the tolerance {text.lstrip('2 +/-±')!r} of width {text!r} can't be read")
